// Lines of the ledger. People type g, mL, % and bar; SI units are sent.

import { byId, make, say } from './dom.js';
import { ask } from './commands.js';
import { typedNumber } from './words.js';

const MASS = (name, label) => ({ name, label: `${label}, in g`, factor: 1e-3 });
const VOLUME = (name, label) => ({ name, label: `${label}, in mL`, factor: 1e-6 });

const KINDS = [
  { type: 'note', words: 'A remark, such as what was seen or ground', fields: [] },
  { type: 'loss', words: 'Solid was lost; what is left was weighed', fields: [MASS('leftKg', 'Mass left')], fixed: { lostKg: 0 } },
  { type: 'loss', words: 'Solid was lost; only the loss is known', fields: [MASS('lostKg', 'Mass lost')], fixed: { leftKg: 0 } },
  { type: 'transfer', words: 'Solid was moved to another boat', fields: [MASS('arrivedKg', 'Mass that arrived')] },
  { type: 'addition', words: 'Fresh charge was added', fields: [MASS('addedKg', 'Mass added')] },
  { type: 'sampleTaken', words: 'A sample was taken', fields: [MASS('takenKg', 'Mass taken')] },
  {
    type: 'vesselChange',
    words: 'Another vessel',
    fields: [
      VOLUME('hotM3', 'Gas space in the oven'),
      VOLUME('hotUncertaintyM3', 'known to ±'),
      VOLUME('coldM3', 'Gas space outside the oven'),
      VOLUME('coldUncertaintyM3', 'that known to ±'),
    ],
  },
  {
    type: 'sourceChange',
    words: 'Another oxygen source',
    fields: [
      { name: 'oxygenFraction', label: 'Oxygen, in %', factor: 0.01 },
      { name: 'uncertainty', label: 'known to ±, in %', factor: 0.01 },
      { name: 'supplyPa', label: 'Absolute pressure, in bar', factor: 1e5 },
    ],
  },
];

export function setUpLedger() {
  const kind = byId('ledger-kind');
  KINDS.forEach(({ words }, i) => {
    const option = make('option', '', words);
    option.value = String(i);
    kind.append(option);
  });
  kind.addEventListener('change', showFields);
  byId('ledger-form').addEventListener('submit', (event) => {
    event.preventDefault();
    enter();
  });
  showFields();
}

const chosen = () => KINDS[Number(byId('ledger-kind').value)];

function showFields() {
  say(byId('ledger-problem'), '');
  byId('ledger-fields').replaceChildren(
    ...chosen().fields.map(({ name, label }) => {
      const row = make('label', '', label);
      const input = make('input');
      input.id = `ledger-${name}`;
      input.type = 'text';
      input.inputMode = 'decimal';
      input.autocomplete = 'off';
      row.append(input);
      return row;
    }),
  );
}

async function enter() {
  const { type, fields, fixed } = chosen();
  const body = { type, ...fixed, remark: byId('ledger-remark').value.trim() };
  for (const { name, label, factor } of fields) {
    const input = byId(`ledger-${name}`);
    const value = typedNumber(input.value);
    if (value === null || !(value >= 0)) {
      say(byId('ledger-problem'), `${label}: please give a number.`);
      input.setAttribute('aria-invalid', 'true');
      input.focus();
      return;
    }
    input.removeAttribute('aria-invalid');
    body[name] = value * factor;
  }
  say(byId('ledger-problem'), '');
  const taken = await ask(body, 'The line was sent');
  if (!taken) {
    say(byId('ledger-problem'), byId('command-answer').textContent);
    return;
  }
  byId('ledger-remark').value = '';
  showFields();
}
