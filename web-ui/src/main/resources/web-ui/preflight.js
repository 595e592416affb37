// The list before the start: every point answered by a person, or nothing begins.

import { byId, children, make, say } from './dom.js';
import { person } from './person.js';
import { read, write } from './service.js';
import { typedNumber } from './words.js';

let items = [];
let recipe = '';
let leaving = () => {};

export function setUpPreflight(whenStarted) {
  leaving = whenStarted;
  byId('preflight-form').addEventListener('submit', (event) => {
    event.preventDefault();
    start();
  });
  byId('preflight-form').addEventListener('input', ready);
}

/** Another text asks for every answer anew. */
export function showPreflight(list, text) {
  items = list;
  const mine = `${text.length} ${text}`;
  if (recipe !== mine) byId('preflight-items').replaceChildren();
  if (items.length > 0 && recipe !== mine) look();
  recipe = mine;
  children(byId('preflight-items'), items, ({ id, kind, known }) => `${id} ${kind} ${known}`, point, () => {});
  say(byId('preflight-problem'), '');
  ready();
}

function point({ id, title, known, kind }) {
  const item = make('li');
  const label = make('label');
  const input = make('input');
  input.id = `preflight-${id.replace(' ', '-')}`;
  if (kind === 'yes') {
    input.type = 'checkbox';
    label.append(input, ` ${title}`);
  } else {
    input.type = 'text';
    input.disabled = kind === 'barred';
    input.autocomplete = 'off';
    if (kind === 'mass') input.inputMode = 'decimal';
    if (kind === 'words') input.maxLength = 500;
    label.append(title, input);
  }
  const note = make('p', kind === 'barred' ? 'problem' : 'quiet', known);
  note.id = `${input.id}-known`;
  input.setAttribute('aria-describedby', note.id);
  item.append(label, note);
  return item;
}

/** The answer as the service wants it, or null where there is none yet. */
function answer({ id, kind }) {
  const input = byId(`preflight-${id.replace(' ', '-')}`);
  if (kind === 'yes') return input.checked ? 'yes' : null;
  if (kind === 'words') return input.value.trim() || null;
  if (kind !== 'mass') return null;
  const grams = typedNumber(input.value);
  return grams === null ? null : (grams / 1000).toFixed(12).replace(/0+$/, '').replace(/\.$/, '');
}

function ready() {
  byId('start-batch').disabled = items.length === 0 || items.some((item) => answer(item) === null);
}

async function start() {
  const by = person();
  if (!by) return;
  byId('start-batch').disabled = true;
  try {
    const answers = Object.fromEntries(items.map((item) => [item.id, answer(item)]));
    await write('/api/batches', { recipe: byId('text').value, by, answers });
    leaving();
    location.assign('./');
  } catch (failure) {
    say(byId('preflight-problem'), failure.message);
    await look();
    ready();
  }
}

/** The start is decided on the bench as it is now; the answer carries its count. */
async function look() {
  try {
    await read('/api/status');
  } catch {
    // Then the start itself tells what is wrong.
  }
}
