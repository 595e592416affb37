// What happened along a trend: doses, pauses, trips, openings, alarms, weighings. Each has a letter
// and a word, so that nothing is told by a shade alone.

import { letters } from './charts.js';
import { make, rows, say, show } from './dom.js';
import { read } from './service.js';
import { duration } from './words.js';

const STRETCHES = {
  pause: { letter: 'P', words: 'paused' },
  trip: { letter: 'T', words: 'held after a trip' },
  open: { letter: 'O', words: 'vessel open' },
};
const POINTS = {
  alarm: { letter: '!', words: 'alarm' },
  weighed: { letter: 'W', words: 'weighed' },
};
const ENDS = { pause: ['run', 'trip', 'end'], trip: ['run', 'pause', 'end'], open: ['closed', 'end'] };
const LISTED_MAX = 200;

/** Follows the marks of one batch; only what is new is asked for. */
export class Marks {
  constructor() {
    this.batch = null;
    this.reset();
  }

  reset() {
    this.all = [];
    this.known = new Set();
    this.readTo = 0;
    this.stretches = [];
    this.points = [];
  }

  async refresh(batch) {
    if (batch !== this.batch) {
      this.batch = batch;
      this.reset();
    }
    let answer;
    do {
      answer = await read(`/api/batches/${batch}/marks?from=${this.readTo.toFixed(3)}`);
      if (batch !== this.batch) return;
      for (const mark of answer.marks) this.add(mark);
      this.readTo = answer.readToS;
    } while (answer.more);
    this.sort();
  }

  add(mark) {
    const key = `${mark.seconds}|${mark.kind}|${mark.words}`;
    if (this.known.has(key)) return;
    this.known.add(key);
    this.all.push(mark);
  }

  /** Pairs beginnings with ends; a stretch without an end lasts. */
  sort() {
    const open = {};
    this.stretches = [];
    this.points = [];
    for (const mark of this.all) {
      for (const kind of Object.keys(STRETCHES)) {
        if (open[kind] && ENDS[kind].includes(mark.kind)) {
          open[kind].to = mark.seconds;
          open[kind] = null;
        }
      }
      if (STRETCHES[mark.kind] && !open[mark.kind]) {
        open[mark.kind] = { ...STRETCHES[mark.kind], kind: mark.kind, from: mark.seconds, to: Infinity, told: mark.words };
        this.stretches.push(open[mark.kind]);
      } else if (POINTS[mark.kind]) {
        this.points.push({ ...POINTS[mark.kind], kind: mark.kind, from: mark.seconds, to: mark.seconds, told: mark.words });
      }
    }
  }

  within(from, to) {
    return [...this.stretches, ...this.points].filter((each) => each.from <= to && each.to >= from).sort((a, b) => a.from - b.from);
  }

  doses(from, to) {
    return this.all.filter((mark) => mark.kind === 'dose' && mark.seconds >= from && mark.seconds <= to);
  }

  /** In words for the cursor: what lasts there, and what happened within half a column. */
  at(seconds, half) {
    const lasting = this.stretches.filter((each) => seconds >= each.from && seconds <= each.to).map((each) => each.words);
    const near = [...this.points.filter((each) => Math.abs(each.from - seconds) <= half).map((each) => each.words)];
    const doses = this.doses(seconds - half, seconds + half).length;
    if (doses > 0) near.push(doses === 1 ? 'oxygen dose' : `${doses} oxygen doses`);
    return [...lasting, ...near];
  }
}

/** A list of the marks in a span, for who cannot point at a picture. */
export function makeMarkList() {
  const details = make('details', 'marks');
  const summary = make('summary', '', 'Marks in this span');
  const scroll = make('div', 'scroll tall');
  scroll.tabIndex = 0;
  scroll.setAttribute('role', 'group');
  scroll.setAttribute('aria-label', 'Marks in this span');
  const table = make('table');
  const head = make('thead');
  const row = make('tr');
  for (const words of ['Mark', 'Into the batch', 'How long', 'What']) {
    const cell = make('th', '', words);
    cell.scope = 'col';
    row.append(cell);
  }
  head.append(row);
  const body = make('tbody');
  table.append(head, body);
  scroll.append(table);
  details.append(summary, scroll);
  return {
    details,
    fill(marks, from, to) {
      const found = marks.within(from, to);
      const doses = marks.doses(from, to).length;
      say(summary, `Marks in this span: ${found.length} and ${doses} oxygen ${doses === 1 ? 'dose' : 'doses'}`);
      rows(body, found.slice(-LISTED_MAX), (each, i) => `${each.from}|${each.kind}|${i}`, (each) => [
        `${each.letter} ${each.words}`,
        { text: duration(each.from), className: 'value' },
        each.from === each.to ? '' : Number.isFinite(each.to) ? duration(each.to - each.from) : 'lasts',
        each.told,
      ]);
      show(details, found.length + doses > 0);
    },
  };
}

/** Draws stretches and points in a lane above the curves, each with its letter. */
export function drawMarks(chart, marks, colour) {
  const { ctx, bbox } = chart;
  const scale = devicePixelRatio * letters();
  const { min, max } = chart.scales.x;
  const lane = 16 * scale;
  ctx.save();
  ctx.font = `bold ${11 * scale}px system-ui, sans-serif`;
  ctx.textBaseline = 'middle';
  ctx.textAlign = 'left';
  ctx.lineWidth = scale;
  let free = bbox.left;
  for (const each of marks.within(min, max)) {
    const left = Math.max(bbox.left, chart.valToPos(Math.max(each.from, min), 'x', true));
    const right = Math.min(bbox.left + bbox.width, chart.valToPos(Math.min(each.to, max), 'x', true));
    const ink = each.kind === 'trip' || each.kind === 'alarm' ? colour.bad : colour.text;
    ctx.fillStyle = ink;
    ctx.strokeStyle = ink;
    if (each.from < each.to) {
      ctx.globalAlpha = 0.14;
      ctx.fillRect(left, bbox.top, Math.max(scale, right - left), bbox.height);
      ctx.globalAlpha = 1;
      ctx.fillRect(left, bbox.top - 3 * scale, Math.max(2 * scale, right - left), 3 * scale);
    } else {
      ctx.setLineDash([2 * scale, 3 * scale]);
      ctx.beginPath();
      ctx.moveTo(left, bbox.top);
      ctx.lineTo(left, bbox.top + bbox.height);
      ctx.stroke();
      ctx.setLineDash([]);
    }
    // A letter that would lie on the one before is left out; the list below has all of them.
    if (left >= free) {
      ctx.fillText(each.letter, left + scale, bbox.top - lane / 2 - 2 * scale);
      free = left + 10 * scale;
    }
  }
  ctx.restore();
}
