// While meshes are being inspected: follows them over one connection, says how far they are, and puts fresh pieces (data-live) in place when one is done.
// Without a connection that stays open it asks for the page every now and then; without this module the page reloads itself as a whole (see _Live.cshtml).

import { t } from '../words/words.js';

const pause = 1500;
const most = 50; // of inspections over one connection; the others follow when these are done
const address = document.querySelector('script[data-events]').dataset.events;
let source;
let next;

/** What somebody who does not see the page should hear: that something is done, never each per cent. */
const voice = document.createElement('p');
voice.className = 'aside-voice';
voice.setAttribute('role', 'status');
document.querySelector('main').append(voice);

/** Puts the new pieces in place, except where the reader is just at work; true when one was left for later. */
function show(fresh) {
  let left = false;
  for (const old of document.querySelectorAll('[data-live]')) {
    const piece = fresh.getElementById(old.id);
    if (!piece || old.innerHTML === piece.innerHTML) continue;
    if (old.contains(document.activeElement)) {
      left = true;
      continue;
    }

    for (const opened of old.querySelectorAll('details[id]')) {
      const again = piece.querySelector('#' + CSS.escape(opened.id));
      if (again) again.open = opened.open;
    }

    old.replaceChildren(...document.adoptNode(piece).childNodes);
  }

  return left;
}

/** Asks for the page again and shows what is new; goes on as long as something is under way. */
async function look() {
  let goesOn = true;
  try {
    const answer = await fetch(location.href, { headers: { Accept: 'text/html' }, cache: 'no-store' });
    if (!answer.ok || answer.redirected) return;
    const fresh = new DOMParser().parseFromString(await answer.text(), 'text/html');
    goesOn = fresh.querySelector('script[data-events]') !== null;
    if (show(fresh)) document.addEventListener('focusout', () => setTimeout(look), { once: true });
  } catch {
    // The server is away for a moment: look again later.
  }

  if (!goesOn || source?.readyState === EventSource.OPEN) return;
  clearTimeout(next);
  next = setTimeout(follow, document.hidden ? 10 * pause : pause);
}

/** What an event says, on every place of the page that waits for it. */
function tell({ id, percent, words }) {
  for (const place of document.querySelectorAll(`[data-inspection="${id}"]`)) {
    place.querySelector('span').textContent = words;
    place.querySelector('progress').value = percent;
  }
}

function follow() {
  const waiting = new Set([...document.querySelectorAll('[data-inspection]')].slice(0, most).map((place) => place.dataset.inspection));
  if (waiting.size === 0) return void look(); // What is left are comparisons, which nobody tells of.
  source?.close();
  source = new EventSource(`${address}?${[...waiting].map((id) => 'id=' + id).join('&')}`);
  source.addEventListener('progress', ({ data }) => tell(JSON.parse(data)));
  source.addEventListener('finished', ({ data }) => {
    const done = JSON.parse(data);
    tell(done);
    waiting.delete(done.id);
    voice.textContent = waiting.size === 0 ? done.words : `${done.words} ${t('{0} more to go.', waiting.size)}`;
    if (waiting.size === 0) source.close();
    look();
  });
  source.addEventListener('error', () => {
    if (source.readyState === EventSource.CLOSED && waiting.size > 0) setTimeout(look, pause); // Refused; a connection that broke comes back by itself.
  });
}

addEventListener('pagehide', () => source?.close());
addEventListener('pageshow', (event) => event.persisted && look());
follow();
