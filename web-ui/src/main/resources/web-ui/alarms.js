// Alarms: what happened, what was done about it, what to do now.

import { byId, children, make, say, shape, show } from './dom.js';
import { ask, confirm } from './commands.js';
import { person } from './person.js';

const LABELS = [
  ['done', 'Done'],
  ['todo', 'To do'],
];

let known = new Set();

export function showAlarms(alarms, lost) {
  const fresh = alarms.filter((alarm) => !known.has(alarm.id));
  known = new Set(alarms.map((alarm) => alarm.id));
  if (fresh.length > 0) say(byId('new-alarm'), `Alarm: ${fresh.map((alarm) => alarm.what).join(' ')}`);
  show(byId('alarms'), alarms.length > 0);
  const unacknowledged = alarms.filter((alarm) => alarm.mayAcknowledge).length;
  say(byId('alarms-title'), `Alarms (${alarms.length}, ${unacknowledged} unacknowledged)`);
  children(byId('alarm-list'), alarms, (alarm) => alarm.id, create, (item, alarm) => fill(item, alarm, lost));
}

function create(alarm) {
  const item = make('li', 'alarm');
  item.dataset.alarm = alarm.id;
  const head = make('p', 'alarm-head');
  head.append(make('span', 'shape'), make('strong', 'what'), make('span', 'first', 'first out'));
  item.append(head, make('p', 'alarm-state quiet'));
  for (const [part, label] of LABELS) {
    const line = make('p', '');
    line.append(make('b', '', `${label}: `), make('span', part));
    item.append(line);
  }
  const buttons = make('div', 'command-row');
  const acknowledge = make('button', 'acknowledge', 'Acknowledge');
  acknowledge.type = 'button';
  acknowledge.addEventListener('click', () =>
    ask({ type: 'acknowledge', alarm: alarm.id }, 'Acknowledge was sent'));
  const reset = make('button', 'reset', 'Reset …');
  reset.type = 'button';
  reset.addEventListener('click', () => askReset(alarm));
  const shelve = make('button', 'shelve', 'Shelve 30 min …');
  shelve.type = 'button';
  shelve.addEventListener('click', () => askShelve(alarm));
  buttons.append(acknowledge, reset, shelve);
  item.append(buttons);
  return item;
}

function fill(item, alarm, lost) {
  const find = (name) => item.querySelector(`.${name}`);
  item.dataset.priority = alarm.priority;
  item.dataset.state = alarm.state;
  shape(find('shape'), alarm.priority === 'low' ? 'diamond' : 'triangle');
  say(find('what'), alarm.what);
  show(find('first'), alarm.firstOut);
  say(find('alarm-state'), `${alarm.priority} priority, ${alarm.state}`);
  say(find('done'), alarm.done);
  say(find('todo'), alarm.todo);
  find('acknowledge').disabled = lost || !alarm.mayAcknowledge;
  find('reset').disabled = lost || !alarm.mayReset;
  show(find('shelve'), alarm.priority !== 'high');
  find('shelve').disabled = lost || alarm.state.includes('shelved');
}

/** Shelving silences an alarm for a while; what it withholds stays withheld. */
async function askShelve(alarm) {
  if (!person()) return;
  const answer = await confirm({
    title: 'Shelve this alarm for 30 minutes?',
    text: `${alarm.what} What it withholds stays withheld.`,
    yes: 'Shelve',
    reason: true,
  });
  if (answer) ask({ type: 'shelve', alarm: alarm.id, minutes: 30, reason: answer.reason }, 'Shelving was sent');
}

async function askReset(alarm) {
  if (!person()) return;
  const answer = await confirm({
    title: 'Reset this trip?',
    text: `${alarm.what} Reset only when the cause is known and gone.`,
    yes: 'Reset',
    reason: true,
  });
  if (answer) ask({ type: 'reset', alarm: alarm.id, reason: answer.reason }, 'Reset was sent');
}
