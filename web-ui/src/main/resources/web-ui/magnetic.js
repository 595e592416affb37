// The worksheet of a magnetic weighing. Texts with units go to the service; nothing is kept.

import { byId, make, rows, say } from './dom.js';
import { read, write } from './service.js';

let fields = null;

export function setUpMagnetic() {
  byId('magnetic-sheet').addEventListener('toggle', open);
  byId('magnetic-form').addEventListener('submit', (event) => {
    event.preventDefault();
    work();
  });
}

const inputOf = (i) => byId(`magnetic-field-${i}`);

async function open() {
  if (!byId('magnetic-sheet').open || fields) return;
  try {
    fields = (await read('/api/magnetic')).fields;
  } catch (failure) {
    say(byId('magnetic-problem'), failure.message);
    return;
  }
  byId('magnetic-fields').replaceChildren(
    ...fields.map(({ label, example, optional }, i) => {
      const row = make('label', '', `${label}${optional ? ' (may stay empty)' : ''}`);
      const input = make('input');
      input.id = `magnetic-field-${i}`;
      input.type = 'text';
      input.maxLength = 100;
      input.autocomplete = 'off';
      input.placeholder = `e.g. ${example}`;
      row.append(' ', input);
      return row;
    }),
  );
}

async function work() {
  say(byId('magnetic-problem'), '');
  const body = Object.fromEntries(fields.map(({ key }, i) => [key, inputOf(i).value]));
  try {
    const { lines } = await write('/api/magnetic', body);
    rows(byId('magnetic-lines'), lines, (line) => line.what, (line) => [line.what, line.value]);
  } catch (failure) {
    byId('magnetic-lines').replaceChildren();
    say(byId('magnetic-problem'), failure.message);
  }
}
