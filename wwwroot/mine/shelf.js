// On the range: what was looked at lately below the shelf, and marks on figures that are on the visitor's own list.
import { addressOf, read } from './store.js';

const strip = document.querySelector('#lately'); // Not there where the shelf is empty.

function show() {
  const kept = read();
  for (const card of document.querySelectorAll('[data-figure]')) {
    const mark = card.querySelector('.card-mine');
    const state = kept.list.find((entry) => entry.slug === card.dataset.figure)?.state;
    mark.textContent = state ? mark.getAttribute(`data-${state}`) : '';
    mark.hidden = !state;
  }

  if (!strip) return;
  strip.querySelector('ul').replaceChildren(...kept.seen.slice(0, 6).map((entry) => {
    const item = document.createElement('li');
    const link = document.createElement('a');
    link.href = addressOf(entry.slug);
    link.textContent = entry.title;
    item.append(link);
    return item;
  }));
  strip.hidden = kept.seen.length === 0 && kept.list.length === 0;
}

addEventListener('storage', show);
addEventListener('pageshow', show);
show();
