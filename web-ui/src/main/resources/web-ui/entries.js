// What stands in the ledger: each line with who and when, its photo, and a way to correct it.

import { byId, children, make, say } from './dom.js';
import { ask, confirm, tell } from './commands.js';
import { person } from './person.js';
import { read, sendPhoto } from './service.js';
import { clockTime, duration } from './words.js';

const PHOTO_BYTES_MAX = 5 * 1024 * 1024;

let shownOf = '';

export function setUpEntries() {
  byId('photo-form').addEventListener('submit', (event) => {
    event.preventDefault();
    photo();
  });
}

/** Reads the ledger anew when another line has come. */
export async function showEntries(batch, events) {
  const last = events.filter(({ kind }) => /^(LedgerEntered|Weighed|Answered)$/.test(kind)).pop();
  const now = `${batch} ${last ? last.key : ''}`;
  if (now === shownOf) return;
  const { entries } = await read(`/api/batches/${batch}/ledger`);
  shownOf = now;
  children(byId('ledger-entries'), entries, (entry) => `${entry.seconds}${entry.sentence}`, line, () => {});
}

function line(entry) {
  const item = make('li');
  item.append(make('span', 'quiet', `${clockTime(entry.wallTime)}, ${duration(entry.seconds)} into the batch `));
  item.append(make('span', '', entry.sentence));
  const picture = /SHA-256 ([0-9a-f]{64})/.exec(entry.sentence);
  if (picture) item.append(thumbnail(picture[1], entry.sentence));
  const button = make('button', 'link', 'Correct …');
  button.type = 'button';
  button.setAttribute('aria-label', `Correct: ${entry.sentence}`);
  button.addEventListener('click', () => correct(entry));
  item.append(' ', button);
  return item;
}

function thumbnail(sha256, words) {
  const link = make('a');
  link.href = `/api/photos/${sha256}`;
  link.target = '_blank';
  link.rel = 'noopener';
  const image = make('img', 'thumbnail');
  image.src = link.href;
  image.loading = 'lazy';
  image.alt = words.replace(/, SHA-256 [0-9a-f]{64}/, '');
  link.append(image);
  return link;
}

async function correct(entry) {
  if (!person()) return;
  const answer = await confirm({
    title: 'Correct an entry',
    text: `"${entry.sentence}" stays as it is; your words stand beside it. What is right?`,
    yes: 'Enter the correction',
    reason: true,
  });
  if (!answer) return;
  const body = { ofSeconds: entry.seconds, former: entry.sentence, remark: answer.reason };
  await ask(body, 'The correction was sent', '/api/corrections');
}

async function photo() {
  const [file] = byId('photo-file').files;
  const by = person();
  if (!by) return;
  const problem = byId('photo-problem');
  if (!file || !['image/jpeg', 'image/png'].includes(file.type)) {
    say(problem, 'Please choose a JPEG or PNG picture.');
    return;
  }
  if (file.size > PHOTO_BYTES_MAX) {
    say(problem, 'The picture is larger than 5 MiB; make it smaller first.');
    return;
  }
  say(problem, '');
  byId('photo-send').disabled = true;
  const taken = await tell(() => sendPhoto(file, by, byId('photo-remark').value.trim()), 'The photo was sent');
  byId('photo-send').disabled = false;
  if (taken) byId('photo-form').reset();
  else say(problem, byId('command-answer').textContent);
}
