// Small functions that put words on the page. Data only ever becomes text, never markup.

export const byId = (id) => document.getElementById(id);

/** Sets text only where it differs, so that a selection or a screen reader is not disturbed. */
export function say(element, text) {
  const words = text === null || text === undefined ? '' : String(text);
  if (element.textContent !== words) element.textContent = words;
}

export function make(tag, className, text) {
  const element = document.createElement(tag);
  if (className) element.className = className;
  if (text !== undefined) element.textContent = text;
  return element;
}

export function show(element, visible) {
  if (element.hidden === visible) element.hidden = !visible;
}

/**
 * Keeps one child per item, reused by its key and filled by `fill`. Children stay where they are
 * as long as the order stays, so nothing moves under the pointer and the focus is kept.
 */
export function children(parent, items, key, create, fill) {
  const old = new Map([...parent.children].map((child) => [child.dataset.key, child]));
  items.forEach((item, i) => {
    const name = String(key(item, i));
    let child = old.get(name);
    old.delete(name);
    if (!child) {
      child = create(item);
      child.dataset.key = name;
    }
    if (parent.children[i] !== child) parent.insertBefore(child, parent.children[i] || null);
    fill(child, item, i);
  });
  old.forEach((child) => child.remove());
}

/** Table rows of plain cells. A cell is text, or {text, className}. The first one heads the row. */
export function rows(body, items, key, cells) {
  children(body, items, key, () => make('tr'), (row, item, i) => {
    const wanted = cells(item, i);
    while (row.children.length < wanted.length) {
      const head = row.children.length === 0;
      const cell = make(head ? 'th' : 'td');
      if (head) cell.scope = 'row';
      row.append(cell);
    }
    wanted.forEach((cell, column) => {
      const element = row.children[column];
      const className = (cell && cell.className) || '';
      if (element.className !== className) element.className = className;
      say(element, cell && cell.text !== undefined ? cell.text : cell);
    });
  });
}

const SHAPES = {
  ring: 'M8 2a6 6 0 1 0 0 12a6 6 0 1 0 0-12zm0 2.5a3.5 3.5 0 1 1 0 7a3.5 3.5 0 1 1 0-7z',
  disc: 'M8 2a6 6 0 1 0 0 12a6 6 0 1 0 0-12z',
  play: 'M4 2l10 6l-10 6z',
  bars: 'M3 2h4v12h-4zM9 2h4v12h-4z',
  diamond: 'M8 1l7 7l-7 7l-7-7z',
  square: 'M3 3h10v10h-10z',
  octagon: 'M5 1h6l4 4v6l-4 4h-6l-4-4v-6z',
  triangle: 'M8 1l7.5 13.5h-15zM7 6v4h2v-4zM7 11v2h2v-2z',
  tick: 'M2 8l2-2l3 3l6-6l2 2l-8 8z',
  cross: 'M3 1l5 5l5-5l2 2l-5 5l5 5l-2 2l-5-5l-5 5l-2-2l5-5l-5-5z',
};

/** Draws a named shape into an element; a word beside it always says the same. */
export function shape(element, name) {
  if (element.dataset.shape === name) return;
  element.dataset.shape = name;
  const space = 'http://www.w3.org/2000/svg';
  const svg = document.createElementNS(space, 'svg');
  svg.setAttribute('viewBox', '0 0 16 16');
  svg.setAttribute('aria-hidden', 'true');
  const path = document.createElementNS(space, 'path');
  path.setAttribute('d', SHAPES[name]);
  path.setAttribute('fill-rule', 'evenodd');
  path.setAttribute('fill', 'currentColor');
  svg.append(path);
  element.replaceChildren(svg);
}
