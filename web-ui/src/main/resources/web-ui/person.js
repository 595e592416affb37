// The name for the record, remembered by this browser.

import { byId, say } from './dom.js';

const NAME_KEY = 'tarnish-person';

export function setUpPerson() {
  const field = byId('person');
  field.value = remembered();
  field.addEventListener('input', () => remember(field.value));
}

/** The browser may forbid storage; then the name is simply not remembered. */
function remembered() {
  try {
    return localStorage.getItem(NAME_KEY) || '';
  } catch {
    return '';
  }
}

function remember(name) {
  try {
    localStorage.setItem(NAME_KEY, name);
  } catch {
    // Not remembered, which costs one more typing.
  }
}

/** The name of the person, or null after asking for it. */
export function person() {
  const name = byId('person').value.trim();
  if (name) return name;
  say(byId('command-answer'), 'Please give your name first; it goes into the record.');
  byId('person').focus();
  return null;
}
