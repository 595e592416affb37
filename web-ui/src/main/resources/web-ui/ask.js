// The question that is open. Masses are typed in g and sent in kg.

import { byId, make, say, show } from './dom.js';
import { ask } from './commands.js';
import { typedNumber } from './words.js';

const MASS_MAX_G = 100000;

let open = null;

export function setUpAsk() {
  byId('ask-form').addEventListener('submit', (event) => {
    event.preventDefault();
    answer();
  });
}

/** Builds the form once per question, so that typing is never disturbed. */
export function showAsk(question) {
  show(byId('ask'), Boolean(question));
  show(byId('wanted'), Boolean(question));
  if (!question) {
    open = null;
    return;
  }
  if (open && open.number === question.number) return;
  open = question;
  say(byId('ask-prompt'), question.prompt);
  say(byId('ask-problem'), '');
  byId('ask').dataset.question = question.number;
  byId('ask-fields').replaceChildren(...question.fields.map(field));
}

function field({ name, kind }, i) {
  const label = make('label', '', kind === 'mass' ? `${name}, in g` : name);
  const input = make(kind === 'remark' ? 'textarea' : 'input');
  input.id = `ask-field-${i}`;
  input.dataset.field = name;
  input.dataset.kind = kind;
  if (kind === 'mass') {
    input.type = 'text';
    input.inputMode = 'decimal';
    input.autocomplete = 'off';
  } else {
    input.maxLength = 2000;
    input.rows = 2;
  }
  label.append(input);
  return label;
}

async function answer() {
  const values = {};
  const remarks = [];
  for (const input of byId('ask-fields').querySelectorAll('[data-field]')) {
    if (input.dataset.kind === 'mass') {
      const grams = typedNumber(input.value);
      if (grams === null || !(grams > 0 && grams <= MASS_MAX_G)) {
        say(byId('ask-problem'), `${input.dataset.field}: please give a mass in g, such as 1.2345.`);
        input.setAttribute('aria-invalid', 'true');
        input.focus();
        return;
      }
      input.removeAttribute('aria-invalid');
      values[input.dataset.field] = grams / 1000;
    } else if (input.value.trim()) {
      remarks.push(input.value.trim());
    }
  }
  say(byId('ask-problem'), '');
  const body = { type: 'answer', questionNumber: open.number, values, remark: remarks.join('\n') };
  byId('ask-send').disabled = true;
  const taken = await ask(body, 'The answer was sent');
  byId('ask-send').disabled = false;
  if (!taken) say(byId('ask-problem'), byId('command-answer').textContent);
}
