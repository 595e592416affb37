// The recipe page: versions, the text with its faults as one types, plan and rehearsal beside it.

import { byId, children, make, rows, say, show } from './dom.js';
import { person, setUpPerson } from './person.js';
import { setUpPreflight, showPreflight } from './preflight.js';
import { read, write } from './service.js';
import { setUpSession } from './session.js';
import { wallTime } from './words.js';

const TYPING_MILLIS = 400;
const LOOK_MILLIS = 1000;

let recipes = [];
let name = '';
let based = null;
let keptText = '';
let report = null;
let typing = 0;
let turn = 0;

const text = () => byId('text');

async function loadList(wanted) {
  recipes = (await read('/api/recipes')).recipes;
  byId('recipe').replaceChildren(...recipes.map((each) => new Option(each.name, each.name)));
  const there = recipes.find((each) => each.name === wanted) || recipes[0];
  if (there) {
    byId('recipe').value = there.name;
    await open(there.name);
  } else {
    fresh();
  }
}

const versions = () => (recipes.find((each) => each.name === name) || { versions: [] }).versions;

/** Opens a version, the newest unless told otherwise. */
async function open(wanted, number) {
  name = wanted;
  const all = versions();
  based = all.find((each) => each.number === number) || all[all.length - 1];
  try {
    keptText = (await read(`/api/recipes/${encodeURIComponent(name)}/${based.number}`)).text;
  } catch (failure) {
    keptText = '';
    say(byId('command-answer'), failure.message);
  }
  text().value = keptText;
  byId('keep-name').value = name;
  show(byId('differences'), false);
  showVersions();
  await check();
}

function fresh() {
  name = '';
  based = null;
  keptText = '';
  text().value = '';
  byId('keep-name').value = '';
  showVersions();
  check();
  byId('keep-name').focus();
}

function showVersions() {
  const all = [...versions()].reverse();
  children(byId('versions'), all, (each) => `${name} ${each.number}`, versionRow, (row, each) => {
    row.className = based && each.number === based.number ? 'on' : '';
    row.querySelector('.compare').disabled = !based || each.number === based.number;
  });
}

function versionRow(each) {
  const row = make('tr');
  const head = make('th', '', String(each.number));
  head.scope = 'row';
  row.append(head);
  for (const cell of [wallTime(each.savedAt), each.by, each.remark]) row.append(make('td', '', cell));
  const sum = make('td', 'value', each.sha256.slice(0, 12));
  sum.title = each.sha256;
  const acts = make('td');
  acts.append(
    act('Open', `Open version ${each.number}`, '', () => open(name, each.number)),
    ' ',
    act('Differences', `Differences of version ${each.number} to the open one`, 'compare', () => compare(each)),
  );
  row.append(sum, acts);
  return row;
}

function act(words, label, className, action) {
  const button = make('button', `link ${className}`, words);
  button.type = 'button';
  button.setAttribute('aria-label', label);
  button.addEventListener('click', action);
  return button;
}

/** From the older to the newer, whichever is open. Marks stand in words of one sign, too. */
async function compare(other) {
  const [from, to] = [other.number, based.number].sort((a, b) => a - b);
  const { lines } = await read(`/api/recipes/${encodeURIComponent(name)}/${to}/differences?from=${from}`);
  say(byId('differences-title'), `From version ${from} to version ${to} of ${name}`);
  const signs = { SAME: '  ', GONE: '− ', NEW: '+ ' };
  byId('differences-text').replaceChildren(
    ...lines.map(({ mark, text: words }) => make(mark === 'GONE' ? 'del' : mark === 'NEW' ? 'ins' : 'span', '', `${signs[mark]}${words}\n`)),
  );
  show(byId('differences'), true);
  byId('differences').focus();
}

async function check() {
  turn += 1;
  const mine = turn;
  showKept();
  if (!text().value.trim()) {
    report = null;
    say(byId('verdict'), 'Nothing is written yet.');
    return showReport();
  }
  try {
    const answer = await write('/api/recipes/check', { recipe: text().value });
    if (mine !== turn) return undefined;
    report = answer;
    say(byId('verdict'), report.good ? 'The recipe can be run on this rig.' : `${report.faults.length} ${report.faults.length === 1 ? 'fault' : 'faults'}:`);
  } catch (failure) {
    if (mine !== turn) return undefined;
    report = null;
    say(byId('verdict'), failure.message);
  }
  return showReport();
}

function showReport() {
  const faults = report ? report.faults : [];
  byId('verdict').dataset.good = Boolean(report && report.good);
  children(byId('faults'), faults, (each) => `${each.line}:${each.column} ${each.message}`, faultLine, () => {});
  const plan = (report && report.plan) || [];
  rows(byId('sheet'), plan, (each, i) => i, (each) => [
    each.what,
    each.value,
    { text: each.verdict === 'ok' ? '' : `▲ ${each.verdict}`, className: each.verdict === 'warning' ? 'bad-value' : '' },
    { text: each.source, className: 'quiet' },
  ]);
  const count = (verdict) => plan.filter((each) => each.verdict === verdict).length;
  say(byId('sheet-sum'), plan.length ? `Warnings: ${count('warning')}, open questions: ${count('open')}. A plan is no permit.` : 'A good recipe gets its planning sheet here.');
  byId('rehearse').disabled = !(report && report.good);
  say(byId('rehearsal-sum'), '');
  show(byId('rehearsal'), false);
  showStart();
}

/** Only what is kept may be started: the record then names the version. */
function showStart() {
  const kept = based && text().value === keptText;
  const ready = Boolean(kept && report && report.good);
  say(
    byId('preflight-what'),
    ready
      ? `${name}, version ${based.number}, SHA-256 ${report.sha256.slice(0, 12)}…`
      : 'Open a good recipe, or keep yours as a version: only a kept version is started.',
  );
  showPreflight(ready ? report.preflight : [], keptText);
}

function faultLine({ line, column, message }) {
  const item = make('li');
  const button = make('button', 'link', `Line ${line}, column ${column}`);
  button.type = 'button';
  button.addEventListener('click', () => goTo(line, column));
  item.append(button, ` ${message}`);
  return item;
}

function goTo(line, column) {
  const lines = text().value.split('\n');
  const start = lines.slice(0, line - 1).reduce((sum, each) => sum + each.length + 1, 0) + column - 1;
  const end = Math.max(start + 1, start - column + 1 + (lines[line - 1] || '').length);
  text().focus();
  text().setSelectionRange(start, end);
  text().scrollTop = Math.max(0, (line - 5) * (text().scrollHeight / lines.length));
  showPlace();
}

function showPlace() {
  const before = text().value.slice(0, text().selectionStart).split('\n');
  say(byId('text-place'), `Line ${before.length}, column ${before[before.length - 1].length + 1}`);
}

function showKept() {
  const changed = text().value !== keptText;
  byId('keep-send').disabled = !changed;
  document.title = `${changed ? '● ' : ''}Recipes – Tarnish`;
}

async function keep() {
  const by = person();
  if (!by) return;
  const wanted = byId('keep-name').value.trim();
  const same = based && wanted === name;
  try {
    const { version } = await write('/api/recipes', {
      name: wanted,
      recipe: text().value,
      basedOn: same ? versions()[versions().length - 1].number : 0,
      by,
      remark: byId('keep-remark').value.trim(),
    });
    byId('keep-remark').value = '';
    await loadList(version.name);
    say(byId('command-answer'), `Kept as ${version.name}, version ${version.number}.`);
  } catch (failure) {
    say(byId('command-answer'), failure.message);
  }
}

async function rehearse() {
  const mine = turn;
  byId('rehearse').disabled = true;
  try {
    let result = await write('/api/recipes/rehearse', { recipe: text().value });
    while (mine === turn && ['waiting', 'running'].includes(result.state)) {
      say(byId('rehearsal-sum'), `The rehearsal is ${result.state} …`);
      await new Promise((resolve) => setTimeout(resolve, LOOK_MILLIS));
      result = await read(`/api/rehearsals/${result.id}`);
    }
    if (mine !== turn) return;
    say(byId('rehearsal-sum'), `${result.good ? '✓' : '▲'} ${result.summary}.`);
    say(byId('rehearsal'), result.words);
    show(byId('rehearsal'), Boolean(result.words));
  } catch (failure) {
    say(byId('rehearsal-sum'), failure.message);
  }
  byId('rehearse').disabled = !(report && report.good);
}

byId('recipe').addEventListener('change', () => open(byId('recipe').value));
byId('recipe-new').addEventListener('click', fresh);
byId('differences-close').addEventListener('click', () => show(byId('differences'), false));
byId('rehearse').addEventListener('click', rehearse);
byId('keep').addEventListener('submit', (event) => {
  event.preventDefault();
  keep();
});
text().addEventListener('input', () => {
  showKept();
  turn += 1;
  clearTimeout(typing);
  typing = setTimeout(check, TYPING_MILLIS);
});
for (const kind of ['keyup', 'click']) text().addEventListener(kind, showPlace);
addEventListener('beforeunload', (event) => {
  if (text().value !== keptText) event.preventDefault();
});

setUpPerson();
setUpPreflight(() => {
  keptText = text().value;
});
setUpSession()
  .then(() => loadList(''))
  .catch((failure) => say(byId('command-answer'), failure.message));
