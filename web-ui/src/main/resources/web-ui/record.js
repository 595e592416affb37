// What happened to the record itself: a damaged file set aside, an archive, a new version.

import { byId, children, make, say, show } from './dom.js';
import { read } from './service.js';
import { wallTime } from './words.js';

export async function refreshRecord() {
  const { remark, notes } = await read('/api/record');
  say(byId('record-remark'), remark ? `▲ ${remark}` : '');
  show(byId('record-remark'), Boolean(remark));
  show(byId('record-notes'), notes.length > 0);
  children(byId('record-note-list'), notes, (note, i) => notes.length - i, () => make('li'), (item, note) =>
    say(item, `${wallTime(note.wallTime)}, ${note.kind}: ${note.sentence}`));
}
