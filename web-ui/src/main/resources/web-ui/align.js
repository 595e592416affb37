// Puts what was recorded and what is planned on one time axis, in the units of the page.

import { celsius, millibar } from './words.js';

/** One time axis for everything: columns of the history and corners of the setpoint. */
export function align(history, course, [from, to]) {
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
