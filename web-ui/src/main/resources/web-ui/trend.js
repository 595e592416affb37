// Curves over time: temperatures with the setpoint, then pressure with oxygen pulses and heater duty.

import { align } from './align.js';
import { HEIGHT, makeCharts } from './charts.js';
import { make, say } from './dom.js';
import { read } from './service.js';
import { clockTime, duration } from './words.js';

const SPANS = [
  ['15 min', 900],
  ['2 h', 7200],
  ['12 h', 43200],
  ['Whole batch', Infinity],
];
// Share of a live span that is kept for what is still to come.
const AHEAD = 0.2;
const COLUMNS_MAX = 1500;

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
    this.watcher.disconnect();
    this.dark.removeEventListener('change', this.rebuild);
    this.charts.forEach((chart) => chart.destroy());
    this.element.replaceChildren();
  }

  build() {
    const spans = make('div', 'spans');
    spans.setAttribute('role', 'group');
    spans.setAttribute('aria-label', 'Span shown');
    this.buttons = SPANS.map(([name, seconds]) => {
      const button = make('button', '', name);
      button.type = 'button';
      button.addEventListener('click', () => {
        this.span = seconds;
        this.window = null;
        this.refresh();
      });
      spans.append(button);
      return [button, seconds];
    });
    const legend = make('p', 'legend');
    for (const [name, words] of [
      ['sample', 'sample, °C'],
      ['oven', 'oven, °C'],
      ['setpoint', 'setpoint, °C'],
      ['coming', 'setpoint to come'],
      ['expected', 'as rehearsed'],
      ['pressure', 'vessel pressure, mbar'],
      ['duty', 'heater duty, %'],
      ['pulse', 'oxygen valve open'],
    ]) {
      const entry = make('span', ['coming', 'expected'].includes(name) ? 'coming' : '');
      entry.append(make('i', `swatch ${name}`), document.createTextNode(words));
      legend.append(entry);
    }
    this.plot = make('div', 'plot');
    this.plot.tabIndex = 0;
    this.plot.setAttribute('role', 'group');
    this.plot.addEventListener('keydown', (event) => this.key(event));
    this.upper = make('div');
    this.lower = make('div');
    this.plot.append(this.upper, this.lower);
    this.readout = make('p', 'readout');
    this.element.replaceChildren(spans, legend, this.plot, this.readout);
    this.tell(null);
  }

  /** The span asked for, in seconds since the batch began. */
  range() {
    if (this.window) return this.window;
    const lastCorner = this.course[this.course.length - 1];
    if (this.span === Infinity) {
      return [0, Math.max(60, this.endS, this.live && lastCorner ? lastCorner.seconds : 0)];
    }
    const from = Math.max(0, this.endS - this.span * (this.live ? 1 - AHEAD : 1));
    return [from, from + this.span];
  }

  async refresh() {
    this.buttons.forEach(([button, seconds]) =>
      button.setAttribute('aria-pressed', String(!this.window && seconds === this.span)));
    if (!this.batch || !(this.endS > 0)) return;
    const batch = this.batch;
    const [from, to] = this.range();
    const until = Math.min(to, this.endS);
    if (!(until > from)) return;
    const width = Math.max(1, this.plot.clientWidth);
    // No more columns than ticks, or empty columns would look like gaps.
    const most = Math.floor((until - from) / (2 * this.periodS));
    const columns = Math.max(1, Math.min(width, COLUMNS_MAX, most));
    const query = `from=${from.toFixed(3)}&to=${until.toFixed(3)}&columns=${columns}`;
    const history = await read(`/api/batches/${batch}/history?${query}`);
    if (batch !== this.batch) return;
    this.shown = [from, to];
    this.history = history;
    this.draw();
  }

  draw() {
    if (!this.history) return;
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
    this.describe();
  }

  zoom(chart) {
    if (chart.select.width < 5) return;
    const from = chart.posToVal(chart.select.left, 'x');
    const to = chart.posToVal(chart.select.left + chart.select.width, 'x');
    chart.setSelect({ left: 0, width: 0, top: 0, height: 0 }, false);
    this.window = [Math.max(0, from), to];
    this.refresh().catch(() => {});
  }

  resize() {
    const width = this.plot.clientWidth;
    if (width > 0) this.charts.forEach((chart) => chart.setSize({ width, height: HEIGHT }));
  }

  /** Arrow keys move the cursor, so that values can be read without a pointer. */
  key(event) {
    const steps = { ArrowLeft: -1, ArrowRight: 1, PageUp: -20, PageDown: 20, Home: -Infinity, End: Infinity };
    if (!(event.key in steps) || this.charts.length === 0) return;
    event.preventDefault();
    const last = this.table.x.length - 1;
    const now = this.cursor === null || this.cursor === undefined ? last : this.cursor;
    const next = Math.min(last, Math.max(0, now + steps[event.key]));
    const chart = this.charts[0];
    chart.setCursor({ left: chart.valToPos(this.table.x[next], 'x'), top: 10 });
    this.tell(next);
  }

  tell(index) {
    this.cursor = index;
    if (index === null || index === undefined || !this.table) {
      say(this.readout, 'Point at the curves, or use the arrow keys, to read values; drag to look closer.');
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
    this.plot.setAttribute(
      'aria-label',
      `Curves of temperature and pressure from ${duration(from)} to ${duration(to)} into the batch. Arrow keys read values.`,
    );
  }
}

function between({ least, greatest, last }, digits) {
  const [a, b] = [least.toFixed(digits), greatest.toFixed(digits)];
  return a === b ? last.toFixed(digits) : `${a} to ${b}`;
}
