// Puts what was recorded and what is planned on one time axis, in the units of the page.

import { celsius, millibar } from './words.js';

/** One time axis for everything: columns of the history and corners of the setpoint. */
export function align(history, course, [from, to], expected = []) {
  const corners = history.setpoints || [];
  const inside = (s) => s >= from && s <= to;
  const extra = [...corners, ...course].map((corner) => corner.seconds).filter(inside);
  const edges = course.length > 0 ? [to] : [];
  const shown = expected.filter((each) => inside(each.seconds));
  const x = [...new Set([...history.seconds, ...extra, ...edges, ...shown.map((each) => each.seconds)])].sort((a, b) => a - b);
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
  const expecting = bandAt(shown);
  const bound = (name, convert) => x.map((s) => expecting(s, name, convert));
  const band = ([greatest, least, last], i) =>
    typeof last[i] === 'number' ? { greatest: greatest[i], least: least[i], last: last[i] } : null;
  return {
    x,
    upper: [x, bound('sampleHighK', celsius), bound('sampleLowK', celsius), ...oven, ...sample, past, coming],
    lower: [x, bound('pressureHighPa', millibar), bound('pressureLowPa', millibar), duty, ...pressure],
    pulses: runs(history),
    at: (i) => ({
      seconds: x[i],
      sample: band(sample, i),
      oven: band(oven, i),
      pressure: band(pressure, i),
      expected: [expecting(x[i], 'sampleLowK', celsius), expecting(x[i], 'sampleHighK', celsius)],
      setpoint: past[i] ?? coming[i],
      duty: duty[i] ?? null,
    }),
  };
}

/** Reads a bound of the expected band at growing or any times; null outside it. */
function bandAt(points) {
  let near = 0;
  return (s, name, convert) => {
    if (points.length === 0 || s < points[0].seconds || s > points[points.length - 1].seconds) return null;
    if (near >= points.length || points[near].seconds > s) near = 0;
    while (near + 1 < points.length && points[near + 1].seconds <= s) near += 1;
    return convert(points[near][name]);
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
