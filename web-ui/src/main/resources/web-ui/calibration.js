// Two points of a calibration: where the sensor is, what is true there, and whether it is kept.

import { byId, children, make, rows, say, show } from './dom.js';
import { wallTime } from './words.js';

const OWN = 'a reference of your own';

let channels = [];
let shownChannel = '';
let shownPlace = '';

export function setUpCalibration(ask) {
  byId('cal-channel').addEventListener('change', showPlaces);
  byId('cal-place').addEventListener('change', showReference);
  byId('cal-mark').addEventListener('click', () => {
    const place = chosenPlace();
    ask({
      type: 'mark',
      channel: byId('cal-channel').value,
      upper: place && place.upper ? 1 : 0,
      reference: byId('cal-reference').value.trim() || '?',
    });
  });
  byId('cal-accept').addEventListener('click', () => ask({ type: 'accept' }));
  byId('cal-drop').addEventListener('click', () => ask({ type: 'drop' }));
}

const chosenChannel = () => channels.find((line) => line.name === byId('cal-channel').value);

/** The places that the service knows, and two for what a person brings. */
function places() {
  const known = chosenChannel() ? chosenChannel().references : [];
  return [
    ...known,
    { words: `lower: ${OWN}`, upper: false, text: '' },
    { words: `upper: ${OWN}`, upper: true, text: '' },
  ];
}

const chosenPlace = () => places().find((place) => place.words === byId('cal-place').value);

function options(select, texts) {
  children(select, texts, (text) => text, () => make('option'), (option, text) => {
    option.value = text;
    say(option, text);
  });
}

function showPlaces() {
  options(byId('cal-place'), places().map((place) => place.words));
  if (shownChannel !== byId('cal-channel').value) {
    shownChannel = byId('cal-channel').value;
    byId('cal-place').selectedIndex = 0;
  }
  showReference();
}

/** Fills in what is true there, once per place: what a person has typed since stays. */
function showReference() {
  const name = `${byId('cal-channel').value}|${byId('cal-place').value}`;
  if (name === shownPlace) return;
  shownPlace = name;
  byId('cal-reference').value = chosenPlace() ? chosenPlace().text : '';
}

export function showCalibration(view) {
  channels = view.channels.filter((line) => line.references.length > 0);
  options(byId('cal-channel'), channels.map((line) => line.name));
  showPlaces();
  byId('cal-mark').disabled = !view.free || channels.length === 0;
  showDraft(view);
  show(byId('cal-none'), view.calibrations.length === 0);
  show(byId('cal-table'), view.calibrations.length > 0);
  rows(byId('calibrations'), view.calibrations, (line) => line.channel, (line) => [
    line.channel,
    { text: wallTime(line.date), className: 'value' },
    { text: line.low, className: 'number' },
    { text: line.high, className: 'number' },
    { text: line.gain, className: 'number' },
    line.uncertainty,
  ]);
}

function showDraft(view) {
  const draft = view.draft;
  const pairs = draft
    ? [['Sensor', draft.channel], ['Lower', draft.low || 'not taken yet'], ['Upper', draft.high || 'not taken yet'], ['Result', draft.result || '—']]
    : [['Points', 'none taken yet']];
  children(byId('cal-draft'), pairs, (pair) => pair[0], ([name]) => {
    const line = make('div');
    line.append(make('dt', '', name), make('dd', 'value'));
    return line;
  }, (line, [, text]) => say(line.lastChild, text));
  say(byId('cal-problem'), draft ? draft.problem : '');
  byId('cal-accept').disabled = !view.free || !draft || !draft.result;
  byId('cal-drop').disabled = !draft;
}
