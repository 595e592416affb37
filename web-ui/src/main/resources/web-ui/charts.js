// How the curves of a trend are drawn; uPlot does the drawing.

import { drawMarks } from './marks.js';
import { drawOutages } from './outage.js';

/** Taller where letters are larger, on a large screen seen from afar. */
export const HEIGHT = () => Math.round(240 * letters());

/** How much larger letters are than on a common screen. */
export const letters = () => parseFloat(getComputedStyle(document.documentElement).fontSize) / 16;

const MARK_HEIGHT = 10;
const TICKS_S = [1, 5, 15, 30, 60, 120, 300, 600, 1800, 3600, 7200, 14400, 21600, 43200, 86400, 172800, 604800, 1209600, 2592000];
const COLOURS = ['text', 'line', 'bad', 'sample', 'oven', 'setpoint', 'pressure', 'duty', 'pulse'];

/** The two charts of a trend, one above the other, with a common cursor. */
export function makeCharts(trend) {
  const colour = colours();
  const sync = uPlot.sync(`trend-${trend.live ? 'live' : 'past'}`);
  const common = {
    width: Math.max(200, trend.plot.clientWidth),
    height: HEIGHT(),
    legend: { show: false },
    cursor: {
      sync: { key: sync.key, scales: ['x', null] },
      drag: { x: true, y: false, setScale: false },
      points: { show: false },
    },
    hooks: {
      setCursor: [(chart) => trend.tell(chart.cursor.idx)],
      setSelect: [(chart) => trend.zoom(chart)],
    },
  };
  const size = letters();
  const font = `${12 * size}px system-ui, sans-serif`;
  const axis = { font, labelFont: font, stroke: colour.text, grid: { stroke: colour.line, width: 1 }, ticks: { stroke: colour.line, width: 1 } };
  const time = { ...axis, incrs: TICKS_S, space: 60 * size, size: 34 * size, values: (_, at, __, ___, step) => at.map((s) => tickTime(s, step)) };
  const line = (stroke, width, dash) => ({ stroke, width: width * size, dash: dash && dash.map((each) => each * size), points: { show: false }, spanGaps: false });
  const upper = {
    ...common,
    padding: [Math.round(18 * size), null, null, null],
    hooks: { ...common.hooks, draw: [(chart) => drawOutages(chart, trend.table, trend.events, colour), (chart) => drawMarks(chart, trend.marks, colour)] },
    scales: { x: { time: false }, y: { range: padded(2) } },
    axes: [time, { ...axis, size: 56 * size, label: '°C', labelSize: 18 * size }, { ...axis, side: 1, size: 60 * size, grid: { show: false }, values: () => [] }],
    series: [
      {},
      line(faint(colour.setpoint), 1), line(faint(colour.setpoint), 1),
      line(faint(colour.oven), 1), line(faint(colour.oven), 1), line(colour.oven, 1.5, [6, 3]),
      line(faint(colour.sample), 1), line(faint(colour.sample), 1), line(colour.sample, 2),
      line(colour.setpoint, 1.5, [2, 3]), line(colour.setpoint, 1.5, [8, 5]),
    ],
    bands: [
      { series: [1, 2], fill: fainter(colour.setpoint) },
      { series: [4, 3], fill: faint(colour.oven) },
      { series: [7, 6], fill: faint(colour.sample) },
    ],
  };
  const lower = {
    ...common,
    hooks: { ...common.hooks, draw: [(chart) => drawPulses(chart, trend.table.pulses, colour.pulse)] },
    scales: { x: { time: false }, y: { range: padded(2) }, duty: { range: [0, 100] } },
    axes: [time, { ...axis, size: 56 * size, label: 'mbar', labelSize: 18 * size }, { ...axis, side: 1, size: 44 * size, scale: 'duty', grid: { show: false }, label: '%', labelSize: 16 * size }],
    series: [
      {},
      line(faint(colour.setpoint), 1), line(faint(colour.setpoint), 1),
      { ...line(colour.duty, 1), scale: 'duty', fill: faint(colour.duty), paths: uPlot.paths.stepped({ align: 1 }) },
      line(faint(colour.pressure), 1), line(faint(colour.pressure), 1), line(colour.pressure, 2),
    ],
    bands: [
      { series: [1, 2], fill: fainter(colour.setpoint) },
      { series: [5, 4], fill: faint(colour.pressure) },
    ],
  };
  const charts = [
    new uPlot(upper, trend.table.upper, trend.upper),
    new uPlot(lower, trend.table.lower, trend.lower),
  ];
  charts.forEach((chart) => sync.sub(chart));
  return charts;
}

/** A bar at the foot of the chart for as long as the oxygen valve was open, at least 2 px. */
function drawPulses(chart, pulses, colour) {
  const { ctx, bbox } = chart;
  const scale = devicePixelRatio * letters();
  ctx.save();
  ctx.fillStyle = colour;
  for (const [from, to] of pulses) {
    const left = chart.valToPos(from, 'x', true);
    const right = chart.valToPos(to, 'x', true);
    if (right < bbox.left || left > bbox.left + bbox.width) continue;
    const top = bbox.top + bbox.height - MARK_HEIGHT * scale;
    ctx.fillRect(left, top, Math.max(2 * scale, right - left), MARK_HEIGHT * scale);
  }
  ctx.restore();
}

/** Lowest and highest with some room, and never a scale so fine that noise fills it. */
export function padded(least) {
  return (_, low, high) => {
    if (low === null || high === null) return [0, 100];
    const room = Math.max(least, (high - low) * 0.08);
    return [low - room, high + room];
  };
}

export function colours() {
  const style = getComputedStyle(document.documentElement);
  return Object.fromEntries(COLOURS.map((name) => [name, style.getPropertyValue(`--${name}`).trim()]));
}

export const faint = (colour) => `${colour}40`;
const fainter = (colour) => `${colour}26`;

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
