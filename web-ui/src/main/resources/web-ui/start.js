// Where a batch begins: the way to the recipes, shown when one may be started.

import { byId, show } from './dom.js';

export function showStart(status) {
  show(byId('start'), status.state === 'idle' || (status.mayAsk || []).includes('start'));
}
