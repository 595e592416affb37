// Two batches over each other. The first is drawn full, the second dashed; both say so in words.

import { colours, faint, HEIGHT, letters, padded } from './charts.js';
import { make, say } from './dom.js';
import { celsius, duration } from './words.js';

const AXES = {
  inBandS: 'time within the band of its soaks',
  equivalentS: 'equivalent time at the top soak',
  seconds: 'time since it began',
};
const HOUR_S = 3600;

export class Overlay {
  constructor(element, axis, courses) {
    this.element = element;
    this.axis = axis;
    this.courses = courses;
    this.plot = make('div', 'plot');
    this.plot.tabIndex = 0;
    this.plot.setAttribute('role', 'group');
    this.parts = [make('div'), make('div')];
    this.plot.append(...this.parts);
    this.readout = make('p', 'readout');
    this.legend = make('p', 'legend');
    courses.forEach((course, i) => {
      const entry = make('span');
      entry.append(make('i', i === 0 ? 'swatch sample' : 'swatch second'), document.createTextNode(`batch ${course.batch}: ${course.title}`));
      this.legend.append(entry);
    });
    element.replaceChildren(this.legend, this.plot, this.readout);
    this.charts = [];
    this.plot.addEventListener('keydown', (event) => this.key(event));
    this.watcher = new ResizeObserver(() => {
      const width = this.plot.clientWidth;
      if (width > 0) this.charts.forEach((chart) => chart.setSize({ width, height: HEIGHT() }));
    });
    this.watcher.observe(this.plot);
    this.dark = matchMedia('(prefers-color-scheme: dark)');
    this.rebuild = () => this.draw();
    this.dark.addEventListener('change', this.rebuild);
    const known = courses.every((course) => course.equivalentS.some((s) => s > 0));
    [...axis.options].forEach((option) => {
      option.disabled = option.value === 'equivalentS' && !known;
    });
    if (!known && axis.value === 'equivalentS') axis.value = 'inBandS';
  }

  close() {
    this.watcher.disconnect();
    this.dark.removeEventListener('change', this.rebuild);
    this.charts.forEach((chart) => chart.destroy());
    this.element.replaceChildren();
  }

  draw() {
    const name = this.axis.value;
    this.data = joined(this.courses.map((course) => along(course, name)));
    this.charts.forEach((chart) => chart.destroy());
    this.charts = makeCharts(this);
    this.plot.setAttribute(
      'aria-label',
      `Batches ${this.courses.map((course) => course.batch).join(' and ')} over each other along the ${AXES[name]}. Arrow keys read values.`,
    );
    this.tell(null);
  }

  key(event) {
    const steps = { ArrowLeft: -1, ArrowRight: 1, PageUp: -20, PageDown: 20, Home: -Infinity, End: Infinity };
    if (!(event.key in steps)) return;
    event.preventDefault();
    const last = this.data.x.length - 1;
    const now = this.cursor === null ? 0 : this.cursor;
    const next = Math.min(last, Math.max(0, now + steps[event.key]));
    this.charts[0].setCursor({ left: this.charts[0].valToPos(this.data.x[next], 'x'), top: 10 });
    this.tell(next);
    this.readout.setAttribute('role', 'status');
  }

  tell(index) {
    this.cursor = index ?? null;
    if (this.cursor === null) {
      say(this.readout, `Along the ${AXES[this.axis.value]}. Point at the curves, or use the arrow keys, to read values.`);
      return;
    }
    const parts = [duration(this.data.x[index] * HOUR_S)];
    this.courses.forEach((course, i) => {
      const at = lastKnown(this.data.sides[i], index);
      if (!at) return;
      const perUnit = at.perUnit === null ? '' : `, ${at.perUnit.toFixed(4)} ± ${at.u.toFixed(4)} O per formula unit`;
      parts.push(`batch ${course.batch}: ${at.sample === null ? 'no reading' : `${at.sample.toFixed(1)} °C`}${perUnit}`);
    });
    say(this.readout, parts.join(' · '));
  }
}

/** One batch along an axis that only ever grows: while its clock stands still only the composition goes on. */
function along(course, name) {
  const points = [];
  course[name].forEach((value, i) => {
    if (value === null) return;
    const hours = value / HOUR_S;
    const point = {
      hours,
      least: kelvin(course.sampleK.least[i]),
      greatest: kelvin(course.sampleK.greatest[i]),
      sample: kelvin(course.sampleK.last[i]),
      perUnit: course.oxygenPerUnit[i],
      u: course.oxygenPerUnitU[i],
    };
    const before = points[points.length - 1];
    // Before its first soak a batch is not at temperature at all.
    if (before && hours <= before.hours) Object.assign(before, hours > 0 ? { perUnit: point.perUnit, u: point.u } : point);
    else points.push(point);
  });
  return points;
}

const kelvin = (value) => (value === null ? null : celsius(value));

/** Both on one axis; undefined lets a line pass over a point that only the other has. */
function joined(sides) {
  const x = [...new Set(sides.flatMap((points) => points.map((point) => point.hours)))].sort((a, b) => a - b);
  return {
    x,
    sides: sides.map((points) => {
      const by = new Map(points.map((point) => [point.hours, point]));
      return x.map((hours) => by.get(hours));
    }),
  };
}

function lastKnown(side, index) {
  for (let i = index; i >= 0; i--) if (side[i]) return side[i];
  return null;
}

function makeCharts(overlay) {
  const colour = colours();
  const { x, sides } = overlay.data;
  const letter = letters();
  const font = `${12 * letter}px system-ui, sans-serif`;
  const axis = { font, labelFont: font, stroke: colour.text, grid: { stroke: colour.line, width: 1 }, ticks: { stroke: colour.line, width: 1 } };
  const pick = (of) => sides.flatMap((side) => of.map((each) => side.map((point) => (point ? each(point) : undefined))));
  const line = (stroke, width, dash) => ({ stroke, width: width * letter, dash: dash && dash.map((each) => each * letter), points: { show: false }, spanGaps: false });
  const bands = [
    { series: [2, 1], fill: faint(colour.sample) },
    { series: [5, 4], fill: faint(colour.oven) },
  ];
  const key = uPlot.sync('overlay').key;
  const chart = (label, room, part, data, last) =>
    new uPlot(
      {
        width: Math.max(200, overlay.plot.clientWidth),
        height: HEIGHT(),
        legend: { show: false },
        cursor: { sync: { key, scales: ['x', null] }, drag: { x: true, y: false }, points: { show: false } },
        hooks: { setCursor: [(u) => overlay.tell(u.cursor.idx)] },
        scales: { x: { time: false }, y: { range: padded(room) } },
        axes: [
          { ...axis, label: last ? `hours, ${AXES[overlay.axis.value]}` : undefined, labelSize: 18 * letter, size: 34 * letter },
          { ...axis, size: 60 * letter, label, labelSize: 18 * letter },
        ],
        series: [
          {},
          line(faint(colour.sample), 1), line(faint(colour.sample), 1), line(colour.sample, 2),
          line(faint(colour.oven), 1), line(faint(colour.oven), 1), line(colour.text, 1.5, [7, 4]),
        ],
        bands,
      },
      [x, ...data],
      part,
    );
  const bounded = (point, sign) => (point.perUnit === null ? null : point.perUnit + sign * point.u);
  return [
    chart('sample, °C', 2, overlay.parts[0], pick([(p) => p.greatest, (p) => p.least, (p) => p.sample]), false),
    chart('O per formula unit', 0.02, overlay.parts[1], pick([(p) => bounded(p, 1), (p) => bounded(p, -1), (p) => p.perUnit]), true),
  ];
}
