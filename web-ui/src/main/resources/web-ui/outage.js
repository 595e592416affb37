// Time in which nobody was in control: hatched, with the cooling as an estimate between its ends.

// Where the bench has no sensor for the room, or its column is not drawn, in °C: common practice.
const ROOM = 22;
const POINTS = 40;
const HATCH = 8;

/**
 * Outages within the span drawn: when, and the sample's temperature before and after, in °C.
 * `table` is what `align` gives; the events say where an outage ended.
 */
export function outages(table, events) {
  const found = [];
  for (const event of events.filter((each) => each.kind === 'Outage')) {
    let before = null;
    let after = null;
    for (let i = 0; i < table.x.length; i++) {
      const { seconds, sample } = table.at(i);
      if (!sample) continue;
      if (seconds < event.seconds - 0.5) before = [seconds, sample.last];
      else if (!after) after = [seconds, sample.last];
    }
    if (before && after) found.push({ from: before[0], to: event.seconds, hot: before[1], cold: after[1] });
  }
  return found;
}

/** T = room + (hot - room) exp(-t/tau), tau from both ends; a straight line where it did not cool. */
export function cooling({ from, to, hot, cold }, seconds) {
  const share = to > from ? (seconds - from) / (to - from) : 1;
  if (!(cold > ROOM) || !(hot > cold)) return hot + share * (cold - hot);
  return ROOM + (hot - ROOM) * ((cold - ROOM) / (hot - ROOM)) ** share;
}

export function drawOutages(chart, table, events, colour) {
  const list = outages(table, events);
  if (list.length === 0) return;
  const { ctx, bbox } = chart;
  const scale = devicePixelRatio;
  const x = (s) => chart.valToPos(s, 'x', true);
  ctx.save();
  ctx.beginPath();
  ctx.rect(bbox.left, bbox.top, bbox.width, bbox.height);
  ctx.clip();
  for (const outage of list) {
    hatch(ctx, x(outage.from), x(outage.to), bbox, colour.line, scale);
    ctx.strokeStyle = colour.sample;
    ctx.lineWidth = 2 * scale;
    ctx.setLineDash([3 * scale, 5 * scale]);
    ctx.beginPath();
    for (let i = 0; i <= POINTS; i++) {
      const s = outage.from + (i / POINTS) * (outage.to - outage.from);
      ctx.lineTo(x(s), chart.valToPos(cooling(outage, s), 'y', true));
    }
    ctx.stroke();
    label(ctx, x(outage.from), x(outage.to), bbox, colour.text, scale);
  }
  ctx.restore();
}

function hatch(ctx, left, right, bbox, stroke, scale) {
  ctx.save();
  ctx.beginPath();
  ctx.rect(left, bbox.top, Math.max(2 * scale, right - left), bbox.height);
  ctx.clip();
  ctx.strokeStyle = stroke;
  ctx.lineWidth = scale;
  ctx.setLineDash([]);
  ctx.beginPath();
  for (let at = left - bbox.height; at < right; at += HATCH * scale) {
    ctx.moveTo(at, bbox.top + bbox.height);
    ctx.lineTo(at + bbox.height, bbox.top);
  }
  ctx.stroke();
  ctx.restore();
}

function label(ctx, left, right, bbox, fill, scale) {
  const words = 'not in control; cooling estimated';
  ctx.font = `${12 * scale}px system-ui, sans-serif`;
  if (ctx.measureText(words).width > right - left) return;
  ctx.fillStyle = fill;
  ctx.textBaseline = 'bottom';
  ctx.fillText(words, left + 4 * scale, bbox.top + bbox.height - 4 * scale);
}
