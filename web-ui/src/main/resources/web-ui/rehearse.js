// Rehearsing a recipe before anything is hot: asked for, then looked after until it has ended.

import { byId, say, show } from './dom.js';
import { read, write } from './service.js';

const LOOK_MILLIS = 1000;

export function setUpRehearse(recipeText) {
  byId('rehearse').addEventListener('click', async () => {
    try {
      await write('/api/rehearsals', { recipe: recipeText() });
      look();
    } catch (failure) {
      tell(failure.message);
    }
  });
}

function tell(words) {
  show(byId('rehearsal'), true);
  say(byId('rehearsal'), words);
}

async function look() {
  try {
    const answer = await read('/api/rehearsals');
    tell(answer.words);
    byId('rehearse').disabled = answer.running;
    if (answer.running) setTimeout(look, LOOK_MILLIS);
  } catch (failure) {
    byId('rehearse').disabled = false;
    tell(failure.message);
  }
}
