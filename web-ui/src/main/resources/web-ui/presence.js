// Who is at the bench: coming, leaving, handing over.

import { byId, say, show } from './dom.js';
import { ask } from './commands.js';
import { person } from './person.js';
import { duration } from './words.js';

let mayAsk = [];

export function setUpPresence() {
  byId('check-in').addEventListener('click', () =>
    ask({ type: 'checkIn', hours: hours() }, 'Check-in was sent'));
  byId('check-out').addEventListener('click', () => ask({ type: 'checkOut' }, 'Check-out was sent'));
  byId('hand-over').addEventListener('click', () => {
    if (!person()) return;
    const to = byId('hand-over-to').value.trim();
    if (!to) {
      say(byId('command-answer'), 'Please give the name of who takes over.');
      byId('hand-over-to').focus();
      return;
    }
    ask({ type: 'handOver', to, hours: hours() }, 'Handing over was sent');
  });
}

function hours() {
  const wanted = Number(byId('check-in-hours').value);
  return Number.isFinite(wanted) ? wanted : 0;
}

export function showPresence(status, lost) {
  mayAsk = status.mayAsk || [];
  const presence = status.presence;
  show(byId('presence'), Boolean(presence));
  if (!presence) return;
  say(byId('presence-who'), who(presence));
  show(byId('presence-waited'), presence.waited);
  for (const [id, type] of [['check-in', 'checkIn'], ['check-out', 'checkOut'], ['hand-over', 'handOver']]) {
    byId(id).disabled = lost || !mayAsk.includes(type);
  }
}

function who(presence) {
  const limits = `The ${presence.limits} limits hold.`;
  if (presence.overdue) return `▲ ${presence.by} is overdue: the check-in has run out. ${limits}`;
  if (presence.attended) return `● ${presence.by} is checked in for another ${duration(presence.leftS)}. ${limits}`;
  return `○ Nobody is checked in. ${limits}`;
}
