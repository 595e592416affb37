// The proof tests of the interlocks: what is due, and a walk through them one by one.

import { byId, make, rows, say, show } from './dom.js';
import { tell } from './commands.js';
import { person } from './person.js';
import { read, write } from './service.js';

let lines = [];
let at = -1;
let acted = false;

export function setUpProof() {
  byId('proof-walk').addEventListener('click', () => begin(nextDue(-1)));
  byId('proof-next').addEventListener('click', () => begin(nextDue(at)));
  byId('proof-end').addEventListener('click', end);
  byId('proof-simulate').addEventListener('click', () => send('/api/prooftests/simulated', {}));
  byId('proof-acted').addEventListener('click', () => noteResult(1));
  byId('proof-silent').addEventListener('click', () => noteResult(0));
  byId('proof-rows').addEventListener('click', (event) => {
    const button = event.target.closest('button');
    if (button) begin(lines.findIndex((line) => line.row === button.dataset.row));
  });
}

/** Reads the list anew; the service may be older and keep none. */
export async function refreshProof() {
  const answer = await read('/api/prooftests');
  lines = answer.lines;
  show(byId('proof'), lines.length > 0);
  if (lines.length === 0) return;
  const overdue = lines.filter((line) => line.overdue).length;
  say(byId('proof-sum'), overdue === 0
    ? `● All ${lines.length} interlocks are proved. ${answer.rule}`
    : `▲ ${overdue} of ${lines.length} interlocks are not proved or overdue. ${answer.rule}`);
  rows(byId('proof-rows'), lines, (line) => line.row, (line) => [
    line.row,
    line.last || '—',
    { text: line.result, className: line.result.startsWith('acted') ? '' : 'bad-value' },
    line.how,
    { text: line.overdue ? `▲ ${line.due ? `was due ${line.due}` : 'due now'}` : line.due, className: line.overdue ? 'bad-value' : '' },
    '',
  ]);
  for (const row of byId('proof-rows').children) addButton(row);
  if (at >= 0) showStep();
}

function addButton(row) {
  const cell = row.lastChild;
  if (cell.querySelector('button')) return;
  const button = make('button', '', 'Test …');
  button.type = 'button';
  button.dataset.row = row.dataset.key;
  button.setAttribute('aria-label', `Test ${row.dataset.key}`);
  cell.replaceChildren(button);
}

/** The next row after `from` that is not proved, or -1. */
function nextDue(from) {
  const after = lines.findIndex((line, i) => i > from && line.overdue);
  return after >= 0 ? after : lines.findIndex((line) => line.overdue);
}

function begin(index) {
  if (index < 0) {
    end();
    say(byId('proof-answer'), 'Nothing is due: every interlock is proved.');
    return;
  }
  at = index;
  acted = false;
  say(byId('proof-answer'), '');
  byId('proof-remark').value = '';
  showStep();
  byId('proof-step-title').focus();
}

function end() {
  at = -1;
  show(byId('proof-step'), false);
}

function showStep() {
  const line = lines[at];
  show(byId('proof-step'), true);
  say(byId('proof-step-title'), `${at + 1} of ${lines.length}: ${line.row}`);
  say(byId('proof-instruction'), line.instruction);
  show(byId('proof-simulate'), line.simulated);
}

/** While a person provokes a row at the bench, the page sees whether it acts. */
export function watchProof(status) {
  if (at < 0) return;
  const row = (status.interlocks || []).find((each) => each.id === lines[at].row);
  if (row && row.state !== 'ready') acted = true;
  say(byId('proof-seen'), acted ? '● Seen by the program: it acts.' : '○ Not seen to act yet.');
}

function noteResult(value) {
  send('/api/prooftests', { acted: value, remark: byId('proof-remark').value.trim() });
}

async function send(path, more) {
  const by = person();
  if (!by || at < 0) return;
  const row = lines[at].row;
  say(byId('proof-answer'), 'Working …');
  const taken = await tell(() => write(path, { row, by, ...more }), `'${row}' is noted`);
  say(byId('proof-answer'), taken ? `'${row}' is noted.` : byId('command-answer').textContent);
  await refreshProof();
}
