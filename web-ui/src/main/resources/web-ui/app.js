// Keeps the page in step with the service: asks once a second, says when it is lost, recovers.

import { setUpAsk, showAsk } from './ask.js';
import { showAlarms } from './alarms.js';
import { numbered, refreshBatches, setUpBatches } from './batches.js';
import { setUpChanges, showChanges } from './changes.js';
import { setUpCommands, showCommands } from './commands.js';
import { setUpCompare } from './compare.js';
import { byId, say, shape, show } from './dom.js';
import { setUpEntries, showEntries } from './entries.js';
import { announce, showHeadline } from './headline.js';
import { setUpLedger } from './ledger.js';
import { setUpNav } from './nav.js';
import { expect } from './needs.js';
import { setUpMagnetic } from './magnetic.js';
import { read } from './service.js';
import { setUpPresence, showPresence } from './presence.js';
import { refreshProof, setUpProof, watchProof } from './proof.js';
import { refreshRecord } from './record.js';
import { setUpSession } from './session.js';
import { showStart } from './start.js';
import { showEvents, showTables } from './tables.js';
import { Trend } from './trend.js';
import { duration } from './words.js';

const POLL_MILLIS = 1000;
const POLL_MAX_MILLIS = 5000;
const TREND_EVERY = 2;
const BATCHES_EVERY = 30;
const EXPECTED_EVERY = 10;
const EVENTS_KEPT = 300;
const STANDSTILL_MILLIS = 5000;
const AT_REST = ['idle', 'stopped', 'aborted', 'complete'];

let status = null;
let lost = false;
let lastGood = 0;
let lastGoodClock = '';
let wait = POLL_MILLIS;
let turn = 0;
let events = [];
let eventsOf = null;
let ticks = -1;
let ticksSince = 0;
let trend = null;
let trouble = '';

async function poll() {
  try {
    const next = await read('/api/status');
    if (document.body.dataset.role === 'look') next.mayAsk = [];
    const recovered = lost;
    const moved = !status || next.state !== status.state || next.batch !== status.batch;
    status = next;
    lost = false;
    lastGood = performance.now();
    lastGoodClock = new Date().toLocaleTimeString('en-GB');
    wait = POLL_MILLIS;
    if (recovered) {
      eventsOf = null;
      announce('The service is back.');
    }
    render();
    await followUp(moved || recovered);
    turn += 1;
  } catch (failure) {
    lose(failure);
  }
  setTimeout(poll, wait);
}

function render() {
  watchLoop();
  showHeadline(status);
  showTrouble();
  showCommands(status, lost);
  showPresence(status, lost);
  showAsk(status.ask);
  showAlarms(status.alarms || [], lost);
  showTables(status);
  showStart(status, lost);
  watchProof(status);
  showChanges(status, lost);
  for (const id of ['progress', 'ledger', 'curves', 'event-list']) show(byId(id), Boolean(status.batch));
}

/** What is slower than the status; a failure here does not mean that the service is lost. */
async function followUp(moved) {
  try {
    if (moved || turn % BATCHES_EVERY === 0) {
      await refreshBatches();
      await refreshRecord();
    }
    if (turn % BATCHES_EVERY === 0) await refreshProof();
    if (status.batch) {
      await refreshEvents();
      await showEntries(status.batch, events);
      if (moved || turn % TREND_EVERY === 0) await refreshTrend(moved);
    }
  } catch {
    // The next status says whether the service is lost.
  }
}

async function refreshEvents() {
  const batch = status.batch;
  const first = eventsOf !== batch;
  const from = first || events.length === 0 ? '' : `?from=${events[events.length - 1].seconds.toFixed(3)}`;
  const answer = await read(`/api/batches/${batch}/events${from}`);
  const known = first ? [] : events;
  const have = new Set(known.slice(-500).map((event) => `${event.seconds}|${event.kind}|${event.sentence}`));
  const fresh = answer.events.filter((event) => !have.has(`${event.seconds}|${event.kind}|${event.sentence}`));
  if (!first) fresh.filter((event) => /^Request(Done|Refused)$/.test(event.kind)).forEach((event) => say(byId('command-answer'), event.sentence));
  if (fresh.length === 0 && !first) return;
  const counted = (known.length > 0 ? known[known.length - 1].count : 0) + 1;
  events = [...known, ...numbered(fresh).map((event, i) => ({ ...event, count: counted + i, key: counted + i }))].slice(-EVENTS_KEPT);
  eventsOf = batch;
  showEvents(byId('events'), events);
}

async function refreshTrend(moved) {
  if (!trend) trend = new Trend(byId('trend'), { batch: status.batch, live: true });
  trend.batch = status.batch;
  trend.endS = status.batchMillis / 1000;
  trend.periodS = status.loop ? status.loop.periodMillis / 1000 : 1;
  trend.course = status.course || [];
  trend.events = events;
  if (moved || turn % EXPECTED_EVERY === 0) {
    trend.expected = (await read(`/api/batches/${status.batch}/expected`)).expected;
    expect(trend.expected);
  }
  await trend.refresh();
}

function lose(failure) {
  lost = true;
  wait = Math.min(POLL_MAX_MILLIS, wait * 1.5);
  const why = failure.status ? `The service has a problem (${failure.message})` : 'The service is lost';
  const since = lastGood ? ` since ${lastGoodClock}; what is shown is from then` : '';
  trouble = `${why}${since}. What the oven does now is not known here. In doubt use the emergency switch at the bench.`;
  showTrouble();
  showCommands(status, true);
  document.title = 'Service lost – Tarnish';
  if (!status) return;
  showAlarms(status.alarms || [], true);
  showPresence(status, true);
  showStart(status, true);
}

/** The service may answer while its control loop hangs; then the numbers are old, too. */
function watchLoop() {
  const now = performance.now();
  const moves = !status.loop || status.loop.ticks !== ticks || AT_REST.includes(status.state);
  if (moves) {
    ticks = status.loop ? status.loop.ticks : -1;
    ticksSince = now;
  }
  trouble =
    now - ticksSince < STANDSTILL_MILLIS
      ? ''
      : 'The control loop stands still: the numbers are old. Use the emergency switch at the bench.';
}

/** Old numbers are greyed and said to be old, and nobody can take them for a state of the oven. */
function showTrouble() {
  show(byId('lost'), trouble !== '');
  say(byId('lost-text'), trouble);
  document.body.classList.toggle('old', trouble !== '');
  if (!trouble) return;
  const since = lost ? lastGood : ticksSince;
  say(byId('lost-age'), since ? `(${duration((performance.now() - since) / 1000)} old)` : '');
  shape(byId('safe-shape'), 'cross');
  byId('safe').dataset.safe = 'unknown';
  say(byId('safe-word'), lost ? 'Not known: no connection' : 'Not known: control stands still');
}

setUpCommands();
setUpAsk();
setUpLedger();
setUpMagnetic();
setUpPresence();
setUpProof();
setUpChanges();
setUpEntries();
setUpBatches();
setUpCompare();
setUpNav();
setInterval(() => {
  if (lost) showTrouble();
}, 1000);
setUpSession().catch(() => {}).then(poll);
