// The list of batches, and one past batch in full.

import { chooser } from './compare.js';
import { byId, children, make, say, show } from './dom.js';
import { showEvents } from './tables.js';
import { read } from './service.js';
import { Trend } from './trend.js';
import { duration, wallTime } from './words.js';

let past = null;

export function setUpBatches() {
  byId('past-close').addEventListener('click', closePast);
}

export async function refreshBatches() {
  const { batches } = await read('/api/batches');
  const newestFirst = [...batches].sort((a, b) => b.batch - a.batch);
  children(byId('batches'), newestFirst, (line) => line.batch, create, fill);
}

function create(line) {
  const row = make('tr');
  const head = make('th');
  head.scope = 'row';
  const title = make('td');
  const button = make('button', 'link');
  button.type = 'button';
  button.dataset.batch = line.batch;
  button.addEventListener('click', () => openPast(line.batch));
  title.append(button);
  const choice = make('td');
  choice.append(chooser(line.batch));
  row.append(head, title, ...Array.from({ length: 4 }, () => make('td')), choice);
  return row;
}

function fill(row, line) {
  const [number, title, started, end, length, note] = row.children;
  say(number, line.batch);
  say(title.firstChild, line.title);
  say(started, wallTime(line.startedAt));
  say(end, line.endState || 'no end yet');
  say(length, duration(line.lastMillis / 1000));
  say(note, line.note);
}

async function openPast(number) {
  try {
    const { line, head, events } = await read(`/api/batches/${number}`);
    closePast();
    show(byId('past'), true);
    byId('past').dataset.batch = number;
    say(byId('past-title'), `Batch ${number}: ${head.title}`);
    say(byId('past-note'), `Started ${wallTime(head.startedAt)}. ${head.note}. ${line.endState || 'No end yet'}.`);
    for (const link of byId('past-record').querySelectorAll('a')) link.href = `api/batches/${number}/record${link.dataset.record}`;
    show(byId('past-record'), Boolean(line.endState));
    showEvents(byId('past-events'), numbered(events));
    past = new Trend(byId('past-trend'), { batch: number, live: false });
    past.endS = line.lastMillis / 1000;
    past.events = events;
    await past.refresh();
    byId('past-title').focus();
  } catch (failure) {
    say(byId('past-note'), failure.message);
  }
}

function closePast() {
  if (past) past.close();
  past = null;
  show(byId('past'), false);
}

/** Events of one tick share their time, so each gets a name of its own for the table. */
export function numbered(events) {
  return events.map((event, i) => ({ ...event, key: `${event.seconds}-${i}` }));
}
