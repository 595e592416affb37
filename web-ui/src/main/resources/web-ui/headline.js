// Is it safe, what is it doing, why, what comes next: the top of the page.

import { byId, say, shape, show } from './dom.js';
import { showExpected, showNeeds } from './needs.js';
import { celsius, duration, wallTime } from './words.js';

const STATE_SHAPES = {
  idle: 'ring',
  running: 'play',
  pausing: 'bars',
  paused: 'bars',
  holding: 'diamond',
  held: 'diamond',
  restarting: 'play',
  stopping: 'square',
  stopped: 'square',
  aborting: 'octagon',
  aborted: 'octagon',
  complete: 'tick',
};
const ABNORMAL = ['holding', 'held', 'aborting', 'aborted'];

let announced = '';

/** Says something once to those who listen to the page. */
export function announce(text) {
  if (text === announced) return;
  announced = text;
  say(byId('announce'), text);
}

export function showHeadline(status) {
  say(byId('rig'), status.rig);
  say(byId('version'), status.version);
  say(byId('clock'), wallTime(status.wallTime));
  showNotice(status);
  showSafe(status);
  showState(status);
  say(byId('sentence'), status.sentence);
  for (const part of ['why', 'next', 'ends']) {
    say(byId(part), status[part]);
    show(byId(part).parentElement, Boolean(status[part]));
  }
  show(byId('now-far'), Boolean(status.batch));
  showKeyValues(status);
  showNeeds(status);
  showExpected(status);
}

function showNotice(status) {
  const parts = [];
  if (status.simulated) parts.push('Simulated bench: no real oven, no real gas.');
  if (status.invented) parts.push('Invented demonstration data.');
  if (status.speed !== 1) parts.push(`Time runs ${Number(status.speed.toPrecision(3))} times as fast as the clock.`);
  say(byId('notice'), parts.join(' '));
  show(byId('notice'), parts.length > 0);
}

function showSafe(status) {
  const alarms = status.alarms || [];
  const first = alarms.find((alarm) => alarm.firstOut) || alarms[0];
  const broken = (status.readings || []).filter((reading) => reading.problem).length;
  const level = alarms.length > 0 ? 'alarm' : 'normal';
  let word = 'No alarm';
  if (alarms.length > 0) {
    word = `${alarms.length} ${alarms.length === 1 ? 'alarm' : 'alarms'}: ${first.what}`;
  } else if (broken > 0) {
    word = `No alarm; ${broken} ${broken === 1 ? 'reading is' : 'readings are'} bad`;
  }
  byId('safe').dataset.safe = level;
  shape(byId('safe-shape'), level === 'alarm' ? 'triangle' : 'ring');
  say(byId('safe-word'), word);
}

function showState(status) {
  const state = status.state || 'unknown';
  const element = byId('state');
  element.dataset.state = state;
  element.dataset.abnormal = ABNORMAL.includes(state);
  shape(byId('state-shape'), STATE_SHAPES[state] || 'ring');
  say(byId('state-word'), state);
  say(
    byId('batch-name'),
    status.batch
      ? `Batch ${status.batch}: ${status.recipe || ''}, ${duration(status.batchMillis / 1000)} since it began`
      : '',
  );
  const alarms = (status.alarms || []).length;
  document.title = `${alarms > 0 ? `${alarms} alarm${alarms > 1 ? 's' : ''}, ` : ''}${state} – Tarnish`;
  announce(
    `Batch ${state}. ${alarms > 0 ? `${alarms} alarms. ` : ''}${status.ask ? 'You are asked for something.' : ''}`,
  );
}

function showKeyValues(status) {
  const reading = (name) => (status.readings || []).find((each) => each.channel === name);
  const put = (id, name) => {
    const line = reading(name);
    say(byId(id), line ? line.text : '—');
    byId(id).dataset.bad = Boolean(line && line.problem);
  };
  put('sample-temperature', 'sample temperature');
  put('oven-temperature', 'oven temperature');
  put('vessel-pressure', 'vessel pressure');
  const sample = reading('sample temperature');
  const known = sample && sample.value !== null && !sample.problem;
  byId('sample-temperature').dataset.kelvin = known ? sample.value : '';
  byId('sample-temperature').dataset.celsius = known ? celsius(sample.value).toFixed(2) : '';
  const soak = (status.soaks || []).find((each) => each.state === 'now');
  say(byId('soak-clock'), soak ? `${duration(soak.inBandS)} of ${duration(soak.requiredS)}` : '—');
  byId('soak-clock').dataset.seconds = soak ? soak.inBandS : '';
  const soaks = status.soaks || [];
  const count = (state) => soaks.filter((each) => each.state === state).length;
  say(byId('soak-count'), soaks.length > 0 ? `${count('done')} done, ${count('now')} going, ${count('to come')} to come` : '—');
  const oxygen = status.oxygen;
  say(byId('conversion'), oxygen ? oxygen.conversion : '—');
  say(byId('conversion-of'), oxygen ? `${oxygen.taken} of ${oxygen.needed}; ${oxygen.perUnit} against ${oxygen.targetPerUnit}` : '');
}
