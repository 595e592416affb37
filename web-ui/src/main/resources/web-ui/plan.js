// The planning sheet of the chosen recipe, worked out when it is opened.

import { byId, rows, say } from './dom.js';
import { write } from './service.js';

let recipe = '';
let shown = '';
let listening = false;

/** Another recipe was chosen: an open sheet is worked out anew. */
export function offerPlan(text) {
  recipe = text;
  if (!listening) byId('plan').addEventListener('toggle', work);
  listening = true;
  work();
}

async function work() {
  if (!byId('plan').open || recipe === shown) return;
  const asked = recipe;
  say(byId('plan-problem'), '');
  try {
    const { lines } = await write('/api/recipes/plan', { recipe: asked });
    if (asked !== recipe) return;
    shown = asked;
    if (lines.length === 0) say(byId('plan-problem'), 'This recipe cannot be planned: see the check above.');
    rows(byId('plan-lines'), lines, (line, i) => i, (line) => [
      line.what,
      line.value,
      { text: line.verdict === 'ok' ? '' : line.verdict, className: line.verdict === 'ok' ? '' : 'mind' },
      { text: line.source, className: 'quiet' },
    ]);
  } catch (failure) {
    say(byId('plan-problem'), failure.message);
  }
}
