// What a person may ask for. The buttons stay where they are; those that make no sense are off.

import { byId, say, show } from './dom.js';
import { person, setUpPerson } from './person.js';
import { abort, holdState, letStateGo, write } from './service.js';

const ARMED_MILLIS = 6000;
const PLAIN = ['pause', 'resume', 'restart'];

let mayAsk = [];
let armedUntil = 0;
let disarm = 0;

export function setUpCommands() {
  setUpPerson();
  for (const type of PLAIN) {
    byId(type).addEventListener('click', () => ask({ type }, `${byId(type).textContent} was sent`));
  }
  byId('stop').addEventListener('click', stop);
  byId('abort').addEventListener('click', pressAbort);
}

export function showCommands(status, lost) {
  mayAsk = (status && status.mayAsk) || [];
  for (const type of [...PLAIN, 'stop']) byId(type).disabled = lost || !mayAsk.includes(type);
  // When the service seems lost, trying to make things safe must still be possible.
  byId('abort').disabled = !(lost || mayAsk.includes('abort'));
}

/** Sends a request with the person's name; true if the service took it. */
export async function ask(body, done, path = '/api/requests') {
  const by = person();
  if (!by) return false;
  return tell(() => write(path, { ...body, by }), done);
}

/** Runs something that may be refused and says how it went. */
export async function tell(action, done) {
  try {
    await action();
    say(byId('command-answer'), `${done}.`);
    return true;
  } catch (failure) {
    say(byId('command-answer'), failure.message);
    return false;
  } finally {
    letStateGo();
  }
}

async function stop() {
  if (!person()) return;
  const yes = await confirm({
    title: 'Stop the batch?',
    text: 'The oven cools in an orderly way and the batch ends. It cannot be resumed afterwards.',
    yes: 'Stop the batch',
  });
  if (yes) ask({ type: 'stop' }, 'Stop was sent');
}

/** Two presses within a few seconds: quick enough for an emergency, hard to do by accident. */
function pressAbort() {
  const button = byId('abort');
  clearTimeout(disarm);
  if (performance.now() < armedUntil) {
    rest();
    tell(abort, 'Safe now was sent');
    return;
  }
  armedUntil = performance.now() + ARMED_MILLIS;
  button.dataset.armed = 'true';
  say(button, 'Press again: all off');
  say(byId('command-answer'), 'Press the same button again within 6 seconds to end the batch in the safe state.');
  disarm = setTimeout(() => {
    rest();
    say(byId('command-answer'), '');
  }, ARMED_MILLIS);
}

function rest() {
  armedUntil = 0;
  byId('abort').dataset.armed = 'false';
  say(byId('abort'), 'Safe now');
}

/** Asks for a decision; gives null for no, else the reason (empty where none is wanted). */
export function confirm({ title, text, yes, reason }) {
  const dialog = byId('confirm');
  say(byId('confirm-title'), title);
  say(byId('confirm-text'), text);
  say(byId('confirm-yes'), yes);
  say(byId('confirm-problem'), '');
  show(byId('confirm-reason-label'), Boolean(reason));
  byId('confirm-reason').value = '';
  holdState();
  return new Promise((resolve) => {
    const end = (answer) => {
      if (!answer) letStateGo();
      byId('confirm-yes').onclick = null;
      byId('confirm-no').onclick = null;
      dialog.oncancel = null;
      dialog.close();
      resolve(answer);
    };
    byId('confirm-yes').onclick = () => {
      const words = byId('confirm-reason').value.trim();
      if (reason && !words) {
        say(byId('confirm-problem'), 'Please give a reason; it goes into the record.');
        byId('confirm-reason').focus();
        return;
      }
      end({ reason: words });
    };
    byId('confirm-no').onclick = () => end(null);
    dialog.oncancel = () => end(null);
    dialog.showModal();
    (reason ? byId('confirm-reason') : byId('confirm-no')).focus();
  });
}
