// Batches side by side in a table, and two of them over each other on their time at temperature.

import { byId, make, rows, say, show } from './dom.js';
import { Overlay } from './overlay.js';
import { read } from './service.js';

const MOST = 8;

const chosen = new Set();
let overlay = null;

export function setUpCompare() {
  byId('compare-table').addEventListener('click', () => run(table));
  byId('compare-overlay').addEventListener('click', () => run(lay));
  byId('compare-close').addEventListener('click', close);
  byId('overlay-axis').addEventListener('change', () => overlay && overlay.draw());
  refreshButtons();
}

/** A box to choose a batch with, for its row in the list. */
export function chooser(batch) {
  const label = make('label', 'choose');
  const box = make('input');
  box.type = 'checkbox';
  box.dataset.choose = batch;
  box.addEventListener('change', () => {
    if (box.checked) chosen.add(batch);
    else chosen.delete(batch);
    refreshButtons();
  });
  label.append(box, make('span', 'unseen', `Choose batch ${batch} to compare`));
  return label;
}

function refreshButtons() {
  byId('compare-table').disabled = chosen.size < 2 || chosen.size > MOST;
  byId('compare-overlay').disabled = chosen.size !== 2;
  say(byId('compare-hint'), chosen.size < 2 ? 'Tick two or more batches in the list to compare them; two to lay them over each other.' : `${chosen.size} batches are ticked.`);
}

async function run(what) {
  const batches = [...chosen].sort((a, b) => a - b);
  say(byId('compare-problem'), '');
  try {
    await what(batches);
    byId('compare-title').focus();
  } catch (failure) {
    say(byId('compare-problem'), failure.message);
  }
}

async function table(batches) {
  const { rows: lines } = await read(`/api/compare?batches=${batches.join(',')}`);
  open(`Batches ${batches.join(', ')} side by side`);
  const head = make('tr');
  for (const words of ['Figure', 'Differs', ...batches.map((batch) => `Batch ${batch}`)]) {
    const cell = make('th', '', words);
    cell.scope = 'col';
    head.append(cell);
  }
  byId('compare-head').replaceChildren(head);
  byId('compare-rows').replaceChildren();
  rows(byId('compare-rows'), lines, (line) => line.name, (line) => [
    line.name,
    line.differs ? '≠ differs' : '= same',
    ...line.values.map((text) => ({ text, className: line.differs ? 'on' : '' })),
  ]);
  show(byId('compare-scroll'), true);
  show(byId('overlay-part'), false);
}

async function lay(batches) {
  say(byId('compare-problem'), 'The batches are being read …');
  const courses = await Promise.all(batches.map(course));
  say(byId('compare-problem'), '');
  open(`Batches ${batches.join(' and ')} over each other`);
  show(byId('compare-scroll'), false);
  show(byId('overlay-part'), true);
  overlay = new Overlay(byId('overlay'), byId('overlay-axis'), courses);
  overlay.draw();
}

/** Asks again while the service is still reading the batch. */
async function course(batch) {
  for (;;) {
    const answer = await read(`/api/batches/${batch}/at-temperature`);
    if (!answer.waiting) return answer;
    await new Promise((resolve) => setTimeout(resolve, 1000));
  }
}

function open(title) {
  if (overlay) overlay.close();
  overlay = null;
  show(byId('compare'), true);
  say(byId('compare-title'), title);
}

function close() {
  if (overlay) overlay.close();
  overlay = null;
  show(byId('compare'), false);
}
