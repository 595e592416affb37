// The bench page: looks once a second at every channel, and asks for trials and calibrations.

import { children, byId, make, rows, say, show } from './dom.js';
import { setUpCalibration, showCalibration } from './calibration.js';
import { read, request, write } from './service.js';
import { wallTime } from './words.js';

const POLL_MILLIS = 500;
const NAME_KEY = 'tarnish-person';

let view = null;
let answered = -1;

const heads = (table) => [...byId(table).closest('table').querySelectorAll('thead th')].map((head) => head.textContent);

function setUp() {
  const name = byId('person');
  try {
    name.value = localStorage.getItem(NAME_KEY) || '';
  } catch {
    // Storage is forbidden: the name is typed again.
  }
  name.addEventListener('input', () => {
    try {
      localStorage.setItem(NAME_KEY, name.value);
    } catch {
      // Not remembered.
    }
  });
  byId('check-in').addEventListener('click', () => send((by) => request({ type: 'checkIn', hours: 4, by })));
  byId('note').addEventListener('click', () => ask({ type: 'note' }));
  byId('leave').addEventListener('click', () => ask({ type: 'leave' }));
  byId('trial-no').addEventListener('click', () => ask({ type: 'leave' }));
  byId('trial-yes').addEventListener('click', () => ask({ type: 'confirm', question: view.trial.question }));
  setUpCalibration(ask);
}

/** Sends with the person's name; says what went wrong. */
async function send(what) {
  const by = byId('person').value.trim();
  if (!by) {
    say(byId('bench-answer'), 'Please give your name first; it goes into the record.');
    byId('person').focus();
    return;
  }
  try {
    await what(by);
  } catch (failure) {
    say(byId('bench-answer'), failure.message);
  }
}

const ask = (body) => send((by) => write('/api/bench', { ...body, by }));

async function poll() {
  try {
    const [bench, status] = await Promise.all([read('/api/bench'), read('/api/status')]);
    view = bench;
    show(byId('lost'), false);
    render(status);
  } catch (failure) {
    say(byId('lost'), `${failure.message} What is shown is old.`);
    show(byId('lost'), true);
  }
  setTimeout(poll, POLL_MILLIS);
}

function render(status) {
  const attended = Boolean(status.presence && status.presence.attended);
  say(byId('free'), words(status, attended));
  if (view.asks !== answered) {
    answered = view.asks;
    if (view.answer) say(byId('bench-answer'), view.answer);
  }
  byId('check-in').disabled = attended;
  byId('note').disabled = !view.free;
  showTrial();
  showChannels();
  showTrials(view.free && attended && !isUnderWay());
  showCalibration(view);
  label('calibrations');
  rows(byId('notes'), [...view.notes].reverse(), (note, i) => i, (note) => [
    { text: wallTime(note.wallTime), className: 'value' },
    note.person,
    { text: note.sentence, className: /FAULT|NOT RECORDED/.test(note.sentence) ? 'bad-value' : '' },
  ]);
}

function words(status, attended) {
  if (!view.free) return `▲ A batch is ${status.state}: the bench is checked when none runs. What is below is only to look at.`;
  const alarms = status.alarms.length > 0 ? ` ▲ Alarms stand: ${status.alarms.map((alarm) => alarm.id).join(', ')}; see to them on the batch page.` : '';
  if (!attended) return `○ No batch runs. Check in before anything is switched.${alarms}`;
  return `● No batch runs; ${status.presence.by} is at the bench.${alarms}`;
}

const isUnderWay = () => Boolean(view.trial) && !view.trial.ended;

function showTrial() {
  const trial = view.trial;
  const wasHidden = byId('trial').hidden;
  show(byId('trial'), Boolean(trial));
  byId('leave').disabled = !isUnderWay();
  if (!trial) return;
  byId('trial').dataset.ended = trial.ended;
  say(byId('trial-title'), trial.title);
  say(byId('trial-doing'), trial.doing);
  show(byId('trial-ask'), Boolean(trial.question));
  say(byId('trial-question'), trial.question);
  children(byId('trial-findings'), trial.findings, (finding, i) => `${i}${finding.sentence}`, () => make('li'), (item, finding) => {
    item.className = finding.fault ? 'fault' : '';
    say(item, `${finding.fault ? '✕' : '·'} ${finding.sentence}`);
  });
  if (wasHidden) byId('trial').scrollIntoView({ block: 'nearest' });
}

function showChannels() {
  rows(byId('channels'), view.channels, (line) => line.name, (line) => [
    line.name,
    { text: line.value, className: line.value === '–' ? 'number value bad-value' : 'number value' },
    { text: line.raw, className: 'value' },
    { text: line.uncorrected, className: 'value quiet' },
    { text: line.remark ? `${line.quality}; ▲ ${line.remark}` : line.quality, className: line.remark || !line.quality.endsWith('good') ? 'remark' : '' },
    { text: line.noise, className: 'number' },
    { text: line.rate, className: 'number' },
    { text: line.answers, className: 'number' },
    { text: line.latency, className: 'number' },
    { text: line.device, className: 'quiet' },
  ]);
  label('channels');
  children(byId('devices'), view.devices, (line, i) => i, () => make('li'), say);
}

/** On a phone a cell stands alone and needs its heading. */
function label(table) {
  const names = heads(table);
  for (const row of byId(table).children) {
    [...row.children].forEach((cell, i) => {
      if (i > 0 && cell.dataset.label !== names[i]) cell.dataset.label = names[i];
    });
  }
}

function showTrials(enabled) {
  for (const group of ['pulse', 'guided', 'other']) {
    const lines = view.trials.filter((line) => line.group === group);
    children(byId(`trials-${group}`), lines, (line) => line.name, (line) => {
      const button = make('button');
      button.type = 'button';
      button.addEventListener('click', () => ask({ type: 'begin', trial: line.name }));
      return button;
    }, (button, line) => {
      say(button, `${line.title} …`);
      button.disabled = !enabled;
    });
  }
}

setUp();
poll();
