// Changing what is to come while a batch runs: shown as a difference, rehearsed, then confirmed.

import { byId, make, rows, say, show } from './dom.js';
import { ask } from './commands.js';
import { person } from './person.js';
import { Failure, holdState, letStateGo, read, write } from './service.js';
import { typedNumber } from './words.js';

const LOOK_MILLIS = 1000;
const CELSIUS_AT = 273.15;

let steps = [];
let shown = 0;
let present = '';
let offered = '';

export function setUpChanges() {
  byId('changes-open').addEventListener('toggle', () => byId('changes-open').open && offer());
  byId('changes-step').addEventListener('change', showNumbers);
  byId('changes-form').addEventListener('submit', (event) => {
    event.preventDefault();
    preview('changeStep');
  });
  byId('changes-skip').addEventListener('click', () => preview('skipSoak'));
  byId('changes-yes').addEventListener('click', confirmed);
  byId('changes-no').addEventListener('click', withdraw);
}

/** The section is there while a batch can be changed; what is open in it stays undisturbed. */
export function showChanges(status, lost) {
  const may = Boolean(status.batch) && ['running', 'paused', 'held'].includes(status.state);
  show(byId('changes'), may);
  for (const id of ['changes-look', 'changes-skip']) byId(id).disabled = lost;
  present = `${status.batch} ${(status.steps || []).map((step) => step.state + step.title).join()}`;
  if (may && present !== offered && byId('changes-open').open && byId('changes-outcome').hidden) offer();
}

/** Offers the steps as they are; what was typed or said before belonged to others. */
function offer() {
  offered = present;
  refresh();
}

async function refresh() {
  try {
    steps = (await read('/api/changes')).steps;
  } catch (failure) {
    say(byId('changes-problem'), failure.message);
    return;
  }
  const chosen = byId('changes-step').value;
  byId('changes-step').replaceChildren(
    ...steps.map(({ position, title, now }) => new Option(`${position + 1}. ${title}${now ? ' (now)' : ''}`, position)),
  );
  if (steps.some(({ position }) => String(position) === chosen)) byId('changes-step').value = chosen;
  showNumbers();
}

const chosenStep = () => steps.find(({ position }) => String(position) === byId('changes-step').value);

const inUnit = ({ value, unit, factor }) => (unit === '°C' ? value - CELSIUS_AT : value / factor);
const inSi = (typed, { unit, factor }) => (unit === '°C' ? typed + CELSIUS_AT : typed * factor);
const tidy = (number) => String(Number(number.toPrecision(9)));

function showNumbers() {
  withdraw();
  const step = chosenStep();
  say(byId('changes-problem'), step ? '' : 'No step to come has a number that may be changed.');
  show(byId('changes-skip'), Boolean(step && step.now));
  byId('changes-numbers').replaceChildren(
    ...(step ? step.numbers : []).map((number) => {
      const label = make('label', '', `${number.word}, in ${number.unit}`);
      const input = make('input');
      input.type = 'text';
      input.inputMode = 'decimal';
      input.autocomplete = 'off';
      input.id = `change-${number.word}`;
      input.value = tidy(inUnit(number));
      label.append(input);
      return label;
    }),
  );
}

/** The change as typed, or null after saying what is wrong with it. */
function typed(type) {
  const step = chosenStep();
  const by = person();
  const reason = byId('changes-reason').value.trim();
  if (!step || !by) return null;
  if (!reason) {
    say(byId('changes-problem'), 'Please give a reason; it goes into the record.');
    byId('changes-reason').focus();
    return null;
  }
  const change = { type, by, position: step.position, reason };
  if (type === 'skipSoak') return change;
  change.values = {};
  for (const number of step.numbers) {
    const input = byId(`change-${number.word}`);
    const value = typedNumber(input.value);
    if (value === null) {
      say(byId('changes-problem'), `${number.word}: please give a number in ${number.unit}.`);
      input.focus();
      return null;
    }
    if (input.value.trim() !== tidy(inUnit(number))) change.values[number.word] = inSi(value, number);
  }
  return change;
}

async function preview(type) {
  const change = typed(type);
  if (!change) return;
  shown += 1;
  say(byId('changes-problem'), '');
  try {
    const outcome = await write('/api/changes/preview', change);
    if (outcome.refusal) throw new Failure(409, outcome.refusal);
    showOutcome(outcome);
    await rehearse(change, shown);
  } catch (failure) {
    withdraw();
    say(byId('changes-problem'), failure.message);
  }
}

function showOutcome({ differences, endsNow, endsThen }) {
  holdState();
  show(byId('changes-outcome'), true);
  rows(byId('changes-differences'), differences, (each) => each.what, ({ position, title, what, was, becomes }) => [
    `${position + 1}. ${title}`, what, was, becomes,
  ]);
  say(byId('changes-ends'), `The batch would end ${endsThen}; as it is, ${endsNow}.`);
  say(byId('changes-rehearsal'), 'The batch with this change is being rehearsed on a simulated bench …');
  byId('changes-yes').disabled = true;
  byId('changes-outcome').focus();
}

/** Looks until the result is there; another preview in between ends this one. */
async function rehearse(change, mine) {
  let result = await write('/api/changes/rehearse', change);
  while (mine === shown && ['waiting', 'running'].includes(result.state)) {
    await new Promise((resolve) => setTimeout(resolve, LOOK_MILLIS));
    result = await read(`/api/rehearsals/${result.id}`);
  }
  if (mine !== shown) return;
  say(byId('changes-rehearsal'), `Rehearsed: ${result.summary}.`);
  byId('changes-rehearsal').dataset.good = result.good;
  byId('changes-yes').disabled = !result.good;
  byId('changes-yes').change = change;
}

async function confirmed() {
  const { change } = byId('changes-yes');
  byId('changes-yes').disabled = true;
  const taken = await ask(change, 'The change was sent', '/api/changes');
  if (!taken) {
    say(byId('changes-problem'), byId('command-answer').textContent);
    byId('changes-yes').disabled = false;
    return;
  }
  byId('changes-reason').value = '';
  withdraw();
  offered = '';
}

function withdraw() {
  shown += 1;
  letStateGo();
  show(byId('changes-outcome'), false);
}
