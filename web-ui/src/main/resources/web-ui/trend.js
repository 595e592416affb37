// Curves over time: temperatures with the setpoint, then pressure with oxygen pulses and heater duty.

import { make, say } from './dom.js';
import { read } from './service.js';
import { celsius, clockTime, duration, millibar } from './words.js';

const SPANS = [
  ['15 min', 900],
  ['2 h', 7200],
  ['12 h', 43200],
  ['Whole batch', Infinity],
];
// Share of a live span that is kept for what is still to come.
const AHEAD = 0.2;
const COLUMNS_MAX = 1500;
const HEIGHT = 240;
const MARK_HEIGHT = 10;
const TICKS_S = [1, 5, 15, 30, 60, 120, 300, 600, 1800, 3600, 7200, 14400, 21600, 43200, 86400, 172800, 604800];
const COLOURS = ['text', 'line', 'sample', 'oven', 'setpoint', 'pressure', 'duty', 'pulse'];

export class Trend {
  constructor(element, { batch, live }) {
    this.element = element;
    this.live = live;
    this.batch = batch;
    this.endS = 0;
    this.periodS = 1;
    this.course = [];
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
      ['pressure', 'vessel pressure, mbar'],
      ['duty', 'heater duty, %'],
      ['pulse', 'oxygen valve open'],
    ]) {
      const entry = make('span', name === 'coming' ? 'coming' : '');
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
    const table = align(this.history, this.course, this.shown);
    this.table = table;
    const dark = this.dark.matches;
    if (this.charts.length === 0 || this.drawnDark !== dark) {
      this.charts.forEach((chart) => chart.destroy());
      this.drawnDark = dark;
      this.charts = this.makeCharts(colours());
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

  makeCharts(colour) {
    const sync = uPlot.sync(`trend-${this.live ? 'live' : 'past'}`);
    const common = {
      width: Math.max(200, this.plot.clientWidth),
      height: HEIGHT,
      legend: { show: false },
      cursor: {
        sync: { key: sync.key, scales: ['x', null] },
        drag: { x: true, y: false, setScale: false },
        points: { show: false },
      },
      hooks: {
        setCursor: [(chart) => this.tell(chart.cursor.idx)],
        setSelect: [(chart) => this.zoom(chart)],
      },
    };
    const axis = { stroke: colour.text, grid: { stroke: colour.line, width: 1 }, ticks: { stroke: colour.line, width: 1 } };
    const time = { ...axis, incrs: TICKS_S, space: 60, values: (_, at, __, ___, step) => at.map((s) => tickTime(s, step)) };
    const line = (stroke, width, dash) => ({ stroke, width, dash, points: { show: false }, spanGaps: false });
    const upper = {
      ...common,
      scales: { x: { time: false }, y: { range: padded(2) } },
      axes: [time, { ...axis, size: 56, label: '°C', labelSize: 18 }, { ...axis, side: 1, size: 44, grid: { show: false }, values: () => [] }],
      series: [
        {},
        line(faint(colour.oven), 1), line(faint(colour.oven), 1), line(colour.oven, 1.5, [6, 3]),
        line(faint(colour.sample), 1), line(faint(colour.sample), 1), line(colour.sample, 2),
        line(colour.setpoint, 1.5, [2, 3]), line(colour.setpoint, 1.5, [8, 5]),
      ],
      bands: [
        { series: [2, 1], fill: faint(colour.oven) },
        { series: [5, 4], fill: faint(colour.sample) },
      ],
    };
    const lower = {
      ...common,
      hooks: { ...common.hooks, draw: [(chart) => this.drawPulses(chart, colour.pulse)] },
      scales: { x: { time: false }, y: { range: padded(2) }, duty: { range: [0, 100] } },
      axes: [time, { ...axis, size: 56, label: 'mbar', labelSize: 18 }, { ...axis, side: 1, size: 44, scale: 'duty', grid: { show: false }, label: '%', labelSize: 16 }],
      series: [
        {},
        { ...line(colour.duty, 1), scale: 'duty', fill: faint(colour.duty), paths: uPlot.paths.stepped({ align: 1 }) },
        line(faint(colour.pressure), 1), line(faint(colour.pressure), 1), line(colour.pressure, 2),
      ],
      bands: [{ series: [3, 2], fill: faint(colour.pressure) }],
    };
    const charts = [
      new uPlot(upper, this.table.upper, this.upper),
      new uPlot(lower, this.table.lower, this.lower),
    ];
    charts.forEach((chart) => sync.sub(chart));
    return charts;
  }

  /** A bar at the foot of the chart for as long as the oxygen valve was open, at least 2 px. */
  drawPulses(chart, colour) {
    const { ctx, bbox } = chart;
    const scale = devicePixelRatio;
    ctx.save();
    ctx.fillStyle = colour;
    for (const [from, to] of this.table.pulses) {
      const left = chart.valToPos(from, 'x', true);
      const right = chart.valToPos(to, 'x', true);
      if (right < bbox.left || left > bbox.left + bbox.width) continue;
      const top = bbox.top + bbox.height - MARK_HEIGHT * scale;
      ctx.fillRect(left, top, Math.max(2 * scale, right - left), MARK_HEIGHT * scale);
    }
    ctx.restore();
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

/** Lowest and highest with some room, and never a scale so fine that noise fills it. */
function padded(least) {
  return (_, low, high) => {
    if (low === null || high === null) return [0, 100];
    const room = Math.max(least, (high - low) * 0.08);
    return [low - room, high + room];
  };
}

function colours() {
  const style = getComputedStyle(document.documentElement);
  return Object.fromEntries(COLOURS.map((name) => [name, style.getPropertyValue(`--${name}`).trim()]));
}

const faint = (colour) => `${colour}40`;

function between({ least, greatest, last }, digits) {
  const [a, b] = [least.toFixed(digits), greatest.toFixed(digits)];
  return a === b ? last.toFixed(digits) : `${a} to ${b}`;
}

/** How far into the batch, no finer than the steps between the ticks. */
function tickTime(s, step) {
  if (s < 0) return '';
  const days = Math.floor(s / 86400);
  const hours = Math.floor(s / 3600);
  const minutes = Math.floor((s % 3600) / 60);
  const pad = (n) => String(n).padStart(2, '0');
  if (step >= 86400) return `${days} d`;
  if (step >= 3600) return days > 0 ? `${days} d ${hours % 24} h` : `${hours} h`;
  if (step >= 60) return `${hours}:${pad(minutes)} h`;
  return `${hours}:${pad(minutes)}:${pad(Math.floor(s % 60))}`;
}

/** One time axis for everything: columns of the history and corners of the setpoint. */
function align(history, course, [from, to]) {
  const corners = history.setpoints || [];
  const inside = (s) => s >= from && s <= to;
  const extra = [...corners, ...course].map((corner) => corner.seconds).filter(inside);
  const edges = course.length > 0 ? [to] : [];
  const x = [...new Set([...history.seconds, ...extra, ...edges])].sort((a, b) => a - b);
  const column = new Map(history.seconds.map((s, i) => [s, i]));
  const at = x.map((s) => column.get(s));
  // Undefined lets the line pass over a point that only another curve has; null is a real gap.
  const pick = (values, convert) =>
    at.map((i) => (i === undefined ? undefined : values[i] === null ? null : convert(values[i])));
  const named = (name) => history.lines.find((line) => line.channel.toLowerCase().replaceAll('_', ' ') === name);
  const triple = (name, convert) => {
    const line = named(name);
    const none = x.map(() => null);
    return line ? [pick(line.greatest, convert), pick(line.least, convert), pick(line.last, convert)] : [none, none, none];
  };
  const oven = triple('oven temperature', celsius);
  const sample = triple('sample temperature', celsius);
  const pressure = triple('vessel pressure', millibar);
  const past = x.map((s) => along(corners, s));
  const coming = x.map((s) => along(course, s));
  const duty = pick(history.heater, (share) => 100 * share);
  const band = ([greatest, least, last], i) =>
    typeof last[i] === 'number' ? { greatest: greatest[i], least: least[i], last: last[i] } : null;
  return {
    x,
    upper: [x, ...oven, ...sample, past, coming],
    lower: [x, duty, ...pressure],
    pulses: runs(history),
    at: (i) => ({
      seconds: x[i],
      sample: band(sample, i),
      oven: band(oven, i),
      pressure: band(pressure, i),
      setpoint: past[i] ?? coming[i],
      duty: duty[i] ?? null,
    }),
  };
}

/** Value of a polyline in °C, null outside it and where an end of the piece has none. */
function along(corners, s) {
  for (let i = 1; i < corners.length; i++) {
    const [a, b] = [corners[i - 1], corners[i]];
    if (s < a.seconds || s > b.seconds) continue;
    if (a.setpointK === null || b.setpointK === null) continue;
    const share = b.seconds > a.seconds ? (s - a.seconds) / (b.seconds - a.seconds) : 1;
    return celsius(a.setpointK + share * (b.setpointK - a.setpointK));
  }
  return null;
}

/** Times from and to for which the oxygen valve was open. */
function runs(history) {
  const marks = history.switches.find((each) => each.name === 'oxygen valve');
  if (!marks) return [];
  const found = [];
  marks.on.forEach((on, i) => {
    if (!on) return;
    const end = i + 1 < history.seconds.length ? history.seconds[i + 1] : history.toS;
    const last = found[found.length - 1];
    if (last && last[1] === history.seconds[i]) last[1] = end;
    else found.push([history.seconds[i], end]);
  });
  return found;
}
