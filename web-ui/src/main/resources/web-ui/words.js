// Numbers and times in the words of the page.

export const celsius = (kelvin) => kelvin - 273.15;
export const millibar = (pascal) => pascal / 100;

/** A length of time, with as much detail as its size deserves. */
export function duration(seconds) {
  if (seconds === null || seconds === undefined || !Number.isFinite(seconds)) return '—';
  const s = Math.max(0, Math.floor(seconds));
  const days = Math.floor(s / 86400);
  const hours = Math.floor((s % 86400) / 3600);
  const minutes = Math.floor((s % 3600) / 60);
  if (days > 0) return two(days, 'd', hours, 'h');
  if (hours > 0) return two(hours, 'h', minutes, 'min');
  if (minutes > 0) return two(minutes, 'min', s % 60, 's');
  return `${s} s`;
}

// Spaces that do not break keep a number and its unit on one line.
const two = (a, unitA, b, unitB) => `${a}\u00a0${unitA}${b > 0 ? ` ${b}\u00a0${unitB}` : ''}`;

/** ISO 8601 with offset, as the service wrote it, a little easier to read; no change of zone. */
export function wallTime(iso) {
  const parts = /^(\d{4}-\d\d-\d\d)T(\d\d:\d\d(?::\d\d)?)[.\d]*(Z|[+-]\d\d:?\d\d)?/.exec(iso || '');
  if (!parts) return iso || '';
  const offset = parts[3] ? ` (UTC${parts[3] === 'Z' ? '' : parts[3]})` : '';
  return `${parts[1]} ${parts[2]}${offset}`;
}

/** A wall time without its date and zone. */
export function clockTime(iso) {
  const parts = /T(\d\d:\d\d:\d\d)/.exec(iso || '');
  return parts ? parts[1] : '';
}

/** A number typed by a person; a comma is taken as the decimal mark. Null if it is none. */
export function typedNumber(text) {
  const plain = text.trim().replace(',', '.');
  return /^\d{1,9}(\.\d{1,9})?$/.test(plain) ? Number(plain) : null;
}
