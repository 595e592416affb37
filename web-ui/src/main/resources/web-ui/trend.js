// Curves over time: temperatures with the setpoint, then pressure with oxygen doses and heater duty.

import { align } from './align.js';
import { HEIGHT, makeCharts } from './charts.js';
import { make, say } from './dom.js';
import { addGestures, keyed, moved, zoomed } from './gestures.js';
import { makeMarkList, Marks } from './marks.js';
import { read } from './service.js';
import { clockTime, duration } from './words.js';

const SPANS = [
  ['1 min', 60],
  ['15 min', 900],
  ['2 h', 7200],
  ['12 h', 43200],
  ['2 d', 172800],
  ['2 weeks', 1209600],
  ['Whole batch', Infinity],
];
const MOVES = [
  ['earlier', '◀', 'Earlier', (trend) => trend.panBy(-0.5)],
  ['later', '▶', 'Later', (trend) => trend.panBy(0.5)],
  ['closer', '+', 'Closer', (trend) => trend.zoomBy(0.5, 0.5)],
  ['farther', '−', 'Farther', (trend) => trend.zoomBy(2, 0.5)],
];
const LEGEND = [
  ['sample', 'sample, °C'],
  ['oven', 'oven, °C'],
  ['setpoint', 'setpoint, °C'],
  ['coming', 'setpoint to come'],
  ['expected', 'as rehearsed'],
  ['pressure', 'vessel pressure, mbar'],
  ['duty', 'heater duty, %'],
  ['pulse', 'oxygen dose'],
];
// Share of a live span that is kept for what is still to come.
const AHEAD = 0.2;
const COLUMNS_MAX = 1500;
const CHANNELS = encodeURIComponent('sample temperature,oven temperature,vessel pressure');
const AGAIN_MILLIS = 2000;

export class Trend {
  constructor(element, { batch, live }) {
    this.element = element;
    this.live = live;
    this.batch = batch;
    this.endS = 0;
    this.periodS = 1;
    this.course = [];
    this.expected = [];
    this.events = [];
    this.marks = new Marks();
    this.span = live ? 7200 : Infinity;
    this.window = null;
    this.charts = [];
    this.build();
    this.dark = matchMedia('(prefers-color-scheme: dark)');
    this.rebuild = () => this.draw();
    this.dark.addEventListener('change', this.rebuild);
    this.watcher = new ResizeObserver(() => this.resize());
    this.watcher.observe(this.plot);
  }

  close() {
    clearTimeout(this.again);
    this.closed = true;
    this.watcher.disconnect();
    this.dark.removeEventListener('change', this.rebuild);
    this.charts.forEach((chart) => chart.destroy());
    this.element.replaceChildren();
  }

  build() {
    this.plot = make('div', 'plot');
    this.plot.tabIndex = 0;
    this.plot.setAttribute('role', 'group');
    this.plot.addEventListener('keydown', (event) => this.key(event));
    this.upper = make('div');
    this.lower = make('div');
    this.plot.append(this.upper, this.lower);
    this.readout = make('p', 'readout');
    this.list = makeMarkList();
    this.element.replaceChildren(this.makeBar(), makeLegend(), this.plot, this.readout, this.list.details);
    addGestures(this.plot, this);
    this.tell(null);
  }

  makeBar() {
    const bar = make('div', 'spans');
    bar.setAttribute('role', 'group');
    bar.setAttribute('aria-label', 'Span shown');
    this.buttons = SPANS.map(([name, seconds]) => {
      const button = make('button', '', name);
      button.type = 'button';
      button.addEventListener('click', () => {
        this.span = seconds;
        this.window = null;
        this.refresh().catch(() => {});
      });
      bar.append(button);
      return [button, seconds];
    });
    for (const [className, sign, words, act] of MOVES) {
      const button = make('button', `move ${className}`, sign);
      button.type = 'button';
      button.setAttribute('aria-label', words);
      button.title = words;
      button.addEventListener('click', () => act(this));
      bar.append(button);
    }
    return bar;
  }

  /** The span asked for, in seconds since the batch began. */
  range() {
    if (this.window) return this.window;
    if (this.span === Infinity) return [0, this.wholeS()];
    const from = Math.max(0, this.endS - this.span * (this.live ? 1 - AHEAD : 1));
    return [from, from + this.span];
  }

  /** To the end of what was recorded, or of what is still to come. */
  wholeS() {
    const lastCorner = this.course[this.course.length - 1];
    return Math.max(60, this.endS, this.live && lastCorner ? lastCorner.seconds : 0);
  }

  goTo(window) {
    this.window = window;
    if (this.history) {
      this.shown = window;
      this.draw();
    }
    this.refresh().catch(() => {});
  }

  panBy(share) {
    this.goTo(moved(this.range(), share, this.wholeS()));
  }

  zoomBy(factor, share) {
    this.goTo(zoomed(this.range(), factor, share, this.wholeS()));
  }

  /** One question at a time: while one is under way, the newest span waits for its turn. */
  async refresh() {
    this.buttons.forEach(([button, seconds]) =>
      button.setAttribute('aria-pressed', String(!this.window && seconds === this.span)));
    if (this.asking) {
      this.askAgain = true;
      return;
    }
    this.asking = true;
    try {
      await this.fetch();
    } finally {
      this.asking = false;
    }
    if (this.askAgain) {
      this.askAgain = false;
      await this.refresh();
    }
  }

  async fetch() {
    if (!this.batch || !(this.endS > 0)) return;
    const batch = this.batch;
    const [from, to] = this.range();
    const until = Math.min(to, this.endS);
    if (!(until > from)) return;
    const width = Math.max(1, this.plot.clientWidth);
    // No more columns than ticks, or empty columns would look like gaps.
    const most = Math.floor((until - from) / (2 * this.periodS));
    const columns = Math.max(1, Math.min(width, COLUMNS_MAX, most));
    const query = `from=${from.toFixed(3)}&to=${until.toFixed(3)}&columns=${columns}&channels=${CHANNELS}`;
    const history = await read(`/api/batches/${batch}/history?${query}`);
    if (batch !== this.batch || this.closed) return;
    this.shown = [from, to];
    this.history = history;
    this.draw();
    await this.marks.refresh(batch);
    if (batch !== this.batch || this.closed) return;
    this.draw();
    // The setpoint of a past batch is found in the background.
    clearTimeout(this.again);
    if (!this.live && history.setpoints.length === 0 && !this.askedAgain) {
      this.askedAgain = true;
      this.again = setTimeout(() => this.refresh().catch(() => {}), AGAIN_MILLIS);
    }
  }

  draw() {
    if (!this.history || this.closed) return;
    const table = align(this.history, this.course, this.shown, this.expected);
    this.table = table;
    const dark = this.dark.matches;
    if (this.charts.length === 0 || this.drawnDark !== dark) {
      this.charts.forEach((chart) => chart.destroy());
      this.drawnDark = dark;
      this.charts = makeCharts(this);
    }
    this.charts[0].setData(table.upper, false);
    this.charts[1].setData(table.lower, false);
    for (const chart of this.charts) {
      chart.batch(() => {
        chart.setScale('x', { min: this.shown[0], max: this.shown[1] });
      });
    }
    this.list.fill(this.marks, this.shown[0], this.shown[1]);
    this.describe();
  }

  zoom(chart) {
    if (chart.select.width < 5) return;
    const from = chart.posToVal(chart.select.left, 'x');
    const to = chart.posToVal(chart.select.left + chart.select.width, 'x');
    chart.setSelect({ left: 0, width: 0, top: 0, height: 0 }, false);
    this.goTo(zoomed([Math.max(0, from), to], 1, 0, this.wholeS()));
  }

  resize() {
    const width = this.plot.clientWidth;
    if (width > 0) this.charts.forEach((chart) => chart.setSize({ width, height: HEIGHT() }));
  }

  /** Arrow keys move the cursor, so that values can be read without a pointer. */
  key(event) {
    const wish = keyed(event);
    if (!wish || this.charts.length === 0) return;
    event.preventDefault();
    if (wish.pan) this.panBy(wish.pan);
    else if (wish.zoom) this.zoomBy(wish.zoom, this.cursorShare());
    else if (wish.whole) this.buttons[this.buttons.length - 1][0].click();
    else this.stepCursor(wish.step);
  }

  cursorShare() {
    if (this.cursor === null || this.cursor === undefined) return 0.5;
    const share = (this.table.x[this.cursor] - this.shown[0]) / (this.shown[1] - this.shown[0]);
    return Math.min(1, Math.max(0, share));
  }

  stepCursor(by) {
    const last = this.table.x.length - 1;
    const now = this.cursor === null || this.cursor === undefined ? last : this.cursor;
    const next = Math.min(last, Math.max(0, now + by));
    const chart = this.charts[0];
    chart.setCursor({ left: chart.valToPos(this.table.x[next], 'x'), top: 10 });
    this.tell(next);
    // Only a key asks for words aloud; a pointer would never let them end.
    this.readout.setAttribute('role', 'status');
  }

  tell(index) {
    this.cursor = index;
    if (index === null || index === undefined || !this.table) {
      this.readout.removeAttribute('role');
      say(this.readout, 'Point at the curves, or use the arrow keys, to read values. Drag to look closer, or press + and −; Shift with an arrow key or the wheel moves along; 0 shows the whole batch.');
      return;
    }
    const at = this.table.at(index);
    const wall = this.wallTimeAt(at.seconds);
    const parts = [`${duration(at.seconds)} into the batch${wall ? ` (${wall})` : ''}`];
    const add = (name, band, digits, unit) => {
      if (band) parts.push(`${name} ${between(band, digits)} ${unit}`);
    };
    add('sample', at.sample, 2, '°C');
    if (typeof at.expected[0] === 'number') parts.push(`rehearsed ${at.expected.map((value) => value.toFixed(1)).join(' to ')} °C`);
    add('oven', at.oven, 2, '°C');
    if (at.setpoint !== null) parts.push(`setpoint ${at.setpoint.toFixed(1)} °C`);
    add('pressure', at.pressure, 1, 'mbar');
    if (at.duty !== null) parts.push(`heater ${at.duty.toFixed(0)} %`);
    if (!at.sample && !at.pressure && at.seconds <= this.endS) parts.push('no reading');
    parts.push(...this.marks.at(at.seconds, (this.shown[1] - this.shown[0]) / Math.max(100, this.table.x.length)));
    say(this.readout, parts.join(' · '));
  }

  /** Wall time from the last event before, since only events carry it. */
  wallTimeAt(seconds) {
    const before = this.events.filter((event) => event.wallTime && event.seconds <= seconds);
    const event = before[before.length - 1];
    if (!event || seconds > this.endS) return '';
    const start = Date.parse(event.wallTime);
    const zone = /([+-])(\d\d):?(\d\d)$/.exec(event.wallTime);
    const offset = zone ? (zone[1] === '-' ? -1 : 1) * (Number(zone[2]) * 60 + Number(zone[3])) * 60000 : 0;
    return Number.isFinite(start) ? clockTime(new Date(start + (seconds - event.seconds) * 1000 + offset).toISOString()) : '';
  }

  describe() {
    const [from, to] = this.shown;
    this.plot.dataset.from = from;
    this.plot.dataset.to = to;
    this.plot.setAttribute(
      'aria-label',
      `Curves of temperature and pressure from ${duration(from)} to ${duration(to)} into the batch. Arrow keys read values.`,
    );
  }
}

function makeLegend() {
  const legend = make('p', 'legend');
  for (const [name, words] of LEGEND) {
    const entry = make('span', ['coming', 'expected'].includes(name) ? 'coming' : '');
    entry.append(make('i', `swatch ${name}`), document.createTextNode(words));
    legend.append(entry);
  }
  for (const [letter, words] of [['P', 'paused'], ['T', 'held after a trip'], ['O', 'vessel open'], ['!', 'alarm'], ['W', 'weighed']]) {
    const entry = make('span');
    entry.append(make('b', 'letter', letter), document.createTextNode(words));
    legend.append(entry);
  }
  return legend;
}

function between({ least, greatest, last }, digits) {
  const [a, b] = [least.toFixed(digits), greatest.toFixed(digits)];
  return a === b ? last.toFixed(digits) : `${a} to ${b}`;
}
