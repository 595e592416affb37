// Ways to the parts of the page. Each part that carries a name for it gets a link while it is shown.

import { byId, children, make, say, show } from './dom.js';

export function setUpNav() {
  const parts = [...document.querySelectorAll('main section[data-nav]')];
  const refresh = () => {
    const shown = parts.filter((part) => !part.hidden);
    children(byId('nav-list'), shown, (part) => part.id, (part) => {
      const item = make('li');
      const link = make('a', '', part.dataset.nav);
      link.href = `#${part.id}`;
      item.append(link);
      return item;
    }, (item, part) => say(item.firstChild, part.dataset.nav));
    show(byId('nav'), shown.length > 1);
  };
  const watcher = new MutationObserver(refresh);
  parts.forEach((part) => watcher.observe(part, { attributes: true, attributeFilter: ['hidden'] }));
  refresh();
}
