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

let rehearsed = [];

/** What the rehearsal of this batch saw: points in time with the lowest and highest of each. */
export function expect(points) {
  rehearsed = points || [];
}

/**
 * Beside each key value what is expected there: the band that the rehearsals ran through at this
 * time of the batch; without one, the setpoint stands for the sample.
 */
export function showExpected(status) {
  const point = pointAt(status.batchMillis / 1000);
  const taken = status.oxygen ? status.oxygen.takenMol : null;
  tell(status, 'sample temperature', point && [point.sampleLowK - 273.15, point.sampleHighK - 273.15], celsiusOf(reading(status, 'sample temperature')), 1, '°C');
  tell(status, 'vessel pressure', point && [point.pressureLowPa / 100, point.pressureHighPa / 100], scaled(reading(status, 'vessel pressure'), 0.01), 1, 'mbar');
  tell(status, 'uptake', point && [point.uptakeLowMol * 1000, point.uptakeHighMol * 1000], scaled(taken, 1000), 2, 'mmol');
}

const reading = (status, channel) => {
  const line = (status.readings || []).find((each) => each.channel === channel);
  return line && !line.problem ? line.value : null;
};
const scaled = (value, factor) => (value === null || value === undefined ? null : value * factor);
const celsiusOf = (value) => (value === null ? null : value - 273.15);

/** The last point that is not later; null outside of what was rehearsed. */
function pointAt(seconds) {
  const last = rehearsed[rehearsed.length - 1];
  if (!last || seconds > last.seconds) return null;
  let found = null;
  for (const point of rehearsed) {
    if (point.seconds > seconds) break;
    found = point;
  }
  return found;
}

/** Outside of the band is told by a shape and a word, too. */
function tell(status, name, band, value, digits, unit) {
  const place = document.querySelector(`[data-expected="${name}"]`);
  const known = Boolean(band) && band.every(Number.isFinite);
  const outside = known && value !== null && (value < band[0] || value > band[1]);
  const words = known ? `${outside ? '▲ outside what was rehearsed: ' : 'rehearsed '}${band[0].toFixed(digits)} to ${band[1].toFixed(digits)} ${unit}` : fallback(status, name);
  say(place, words);
  place.dataset.outside = outside;
}

function fallback(status, channel) {
  const corner = (status.course || [])[0];
  if (channel !== 'sample temperature' || !corner || corner.setpointK === null) return '';
  return `setpoint ${(corner.setpointK - 273.15).toFixed(1)} °C`;
}
