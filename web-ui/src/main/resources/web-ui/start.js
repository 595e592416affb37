// Starting a batch: choose, read the check, confirm.

import { byId, say, show } from './dom.js';
import { confirm, person, tell } from './commands.js';
import { offerPlan } from './plan.js';
import { read, write } from './service.js';

let recipes = null;
let checked = '';

export function setUpStart() {
  byId('recipe').addEventListener('change', check);
  byId('start-batch').addEventListener('click', start);
}

export async function showStart(status, lost) {
  const may = status.state === 'idle' || (status.mayAsk || []).includes('start');
  show(byId('start'), may);
  byId('start-batch').disabled = lost || !checked;
  if (!may) recipes = null;
  if (may && !lost && recipes === null) {
    recipes = {};
    try {
      recipes = (await read('/api/recipes')).recipes;
      const names = Object.keys(recipes).sort();
      byId('recipe').replaceChildren(...names.map((name) => new Option(name, name)));
      await check();
    } catch {
      recipes = null;
    }
  }
}

async function check() {
  const name = byId('recipe').value;
  checked = '';
  byId('start-batch').disabled = true;
  if (!name) {
    say(byId('recipe-check'), 'There is no recipe in the recipe folder.');
    return;
  }
  say(byId('recipe-text'), recipes[name]);
  offerPlan(recipes[name]);
  say(byId('recipe-check'), 'Being checked …');
  try {
    const answer = await write('/api/recipes/check', { recipe: recipes[name] });
    if (byId('recipe').value !== name) return;
    say(byId('recipe-check'), answer.result);
    checked = name;
    byId('start-batch').disabled = false;
  } catch (failure) {
    say(byId('recipe-check'), failure.message);
  }
}

async function start() {
  const by = person();
  if (!by) return;
  const yes = await confirm({
    title: `Start ${checked}?`,
    text: 'The bench begins to pump, admit gas and heat as the recipe says. Is the vessel loaded and closed, and is the hard-wired limiter set?',
    yes: 'Start the batch',
  });
  if (yes) tell(() => write('/api/batches', { recipe: recipes[checked], by }), 'The batch was started');
}
