// Everything that is shown as rows: soaks, oxygen, steps, readings, outputs, permits, interlocks.

import { byId, children, make, rows, say, shape, show } from './dom.js';
import { clockTime, duration } from './words.js';

const STEP_SHAPES = { done: 'tick', now: 'play', 'to come': 'ring' };

export function showTables(status) {
  showSoaks(status.soaks || []);
  showOxygen(status.oxygen);
  showStalled((status.oxygen && status.oxygen.stalled) || []);
  showSteps(status.steps || []);
  rows(byId('readings'), status.readings || [], (line) => line.channel, (line) => [
    line.channel,
    { text: line.text, className: line.problem ? 'number value bad-value' : 'number value' },
    { text: line.problem ? `✕ ${line.problem}` : 'good', className: line.problem ? 'bad-value' : 'quiet' },
  ]);
  rows(byId('outputs'), status.outputs || [], (line) => line.name, (line) => [
    line.name,
    { text: line.on ? '● on' : '○ off', className: line.on ? 'value on' : 'value quiet' },
    line.detail,
  ]);
  rows(byId('permits'), status.permits || [], (line) => line.name, (line) => [
    line.name,
    { text: line.granted ? '● granted' : '○ withheld', className: 'value' },
    line.withheldBy ? `by: ${line.withheldBy}` : '',
  ]);
  rows(byId('interlocks'), status.interlocks || [], (line) => line.id, (line) => {
    const ready = line.state === 'ready';
    return [
      { text: `${ready ? '○' : '▲'} ${line.state}`, className: ready ? 'quiet' : 'bad-value' },
      line.cause,
      line.limit,
      line.delay,
      line.effect,
      line.latching,
    ];
  });
  children(byId('missing-interlocks'), status.missingInterlocks || [], (text) => text, () => make('li'), say);
  children(byId('cautions'), status.cautions || [], (text) => text, () => make('li'), say);
  showLoop(status.loop);
}

function showSoaks(soaks) {
  rows(byId('soaks'), soaks, (line, i) => i, (line) => [
    line.at,
    { text: line.state, className: line.state === 'now' ? 'value on' : '' },
    { text: line.state === 'to come' ? '—' : duration(line.inBandS), className: 'number value' },
    { text: duration(line.requiredS), className: 'number' },
    line.when || '',
  ]);
}

function showOxygen(oxygen) {
  const pairs = oxygen
    ? [
        ['Taken up', oxygen.taken],
        ['Needed', oxygen.needed],
        ['Composition', oxygen.perUnit],
        ['Target', oxygen.targetPerUnit],
        ['Conversion', oxygen.conversion],
        ...(oxygen.more || []).map((each) => [each.name, each.text]),
      ]
    : [];
  children(byId('oxygen'), pairs, (pair) => pair[0], ([name]) => {
    const line = make('div');
    line.append(make('dt', '', name), make('dd', 'value'));
    return line;
  }, (line, [, text]) => say(line.lastChild, text));
  const bar = byId('conversion-bar');
  show(bar, Boolean(oxygen) && oxygen.conversionFraction !== null);
  if (bar.hidden) return;
  const clamp = (x) => Math.min(1, Math.max(0, x));
  const [fill, doubt] = bar.children;
  // Twice the standard uncertainty on either side: about 95 % for a normal distribution (GUM).
  const half = 2 * (oxygen.conversionStandardUncertainty || 0);
  const from = clamp(oxygen.conversionFraction - half);
  bar.setAttribute('aria-label', `Conversion ${oxygen.conversion}; the bar's bracket is its 95 % interval`);
  fill.style.width = `${100 * clamp(oxygen.conversionFraction)}%`;
  doubt.style.left = `${100 * from}%`;
  doubt.style.width = `${100 * (clamp(oxygen.conversionFraction + half) - from)}%`;
}

/** Shown only while uptake stands still: causes, likeliest first. */
function showStalled(causes) {
  show(byId('stalled'), causes.length > 0);
  rows(byId('stalled-causes'), causes, (line) => line.cause, (line) => [line.cause, line.likely, line.evidence, line.act]);
}

function showSteps(steps) {
  children(byId('steps'), steps, (line) => line.number, () => {
    const item = make('li');
    item.append(make('span', 'shape'), make('span', 'unseen'), make('span', 'title'), make('span', 'quiet'));
    return item;
  }, (item, line) => {
    const [mark, word, title, detail] = item.children;
    item.className = `depth-${Math.min(3, line.depth)} ${line.state === 'now' ? 'now' : ''}`;
    if (line.state === 'now') item.setAttribute('aria-current', 'step');
    else item.removeAttribute('aria-current');
    shape(mark, STEP_SHAPES[line.state] || 'ring');
    say(word, `${line.state}: `);
    say(title, `${line.number}. ${line.title}`);
    say(detail, line.detail);
  });
}

function showLoop(loop) {
  say(
    byId('loop'),
    loop
      ? `${loop.ticks} ticks of ${loop.periodMillis} ms, ${loop.overruns} too long, the longest ${loop.worstMillis.toFixed(1)} ms.`
      : '',
  );
}

/** Newest first: the latest is what a person looks for. */
export function showEvents(body, events) {
  rows(body, [...events].reverse(), (event) => event.key, (event) => [
    { text: clockTime(event.wallTime), className: 'value' },
    { text: duration(event.seconds), className: 'value quiet' },
    { text: event.sentence, className: /^(Alarm|RequestRefused|RecordDamaged)/.test(event.kind) ? 'bad-value' : '' },
  ]);
}
