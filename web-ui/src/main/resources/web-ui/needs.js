// What the batch needs from a person, and by when; and what is measured against what is expected.

import { byId, children, make, say, shape, show } from './dom.js';

const SHAPES = { alarm: 'triangle', question: 'diamond', presence: 'disc', decision: 'bars', visit: 'ring' };
const TARGETS = { alarm: '#alarms', question: '#ask', presence: '#presence', decision: '#commands', visit: '#presence' };
const NOTHING = 'Nothing is needed from you now.';

export function showNeeds(status) {
  const needs = status.needs || [];
  show(byId('needs'), needs.length > 0);
  show(byId('no-needs'), needs.length === 0);
  say(byId('no-needs'), status.batch || needs.length > 0 ? NOTHING : 'Nothing is needed: no batch is under way.');
  children(byId('needs'), needs, (need, i) => `${need.kind}-${i}`, create, fill);
}

function create() {
  const item = make('li');
  const link = make('a', 'what');
  item.append(make('span', 'shape'), link, make('span', 'by'));
  return item;
}

function fill(item, need) {
  const [mark, link, by] = item.children;
  item.dataset.now = String(need.leftS === null);
  shape(mark, SHAPES[need.kind] || 'ring');
  say(link, need.what);
  const target = TARGETS[need.kind] || '#commands';
  if (link.getAttribute('href') !== target) link.setAttribute('href', target);
  say(by, need.by);
}

/**
 * Beside each key value what is expected there. The service may tell a band for any of them
 * (`expected`: channel, text, outside); without one, the setpoint stands for the sample.
 */
export function showExpected(status) {
  const bands = new Map((status.expected || []).map((each) => [each.channel, each]));
  for (const place of document.querySelectorAll('[data-expected]')) {
    const band = bands.get(place.dataset.expected);
    const outside = Boolean(band && band.outside);
    say(place, band ? `${outside ? '▲ outside ' : 'expected '}${band.text}` : fallback(status, place.dataset.expected));
    place.dataset.outside = outside;
  }
}

function fallback(status, channel) {
  const corner = (status.course || [])[0];
  if (channel !== 'sample temperature' || !corner || corner.setpointK === null) return '';
  return `setpoint ${(corner.setpointK - 273.15).toFixed(1)} °C`;
}
