// While meshes are being inspected: fetches the page again and puts the pieces marked data-live in place of the old ones.
// Without this module the page reloads itself as a whole (see _Live.cshtml).

const pause = 1500;

/** Puts the new pieces in place, except where the reader is just at work. */
function show(fresh) {
  for (const old of document.querySelectorAll('[data-live]')) {
    const piece = fresh.getElementById(old.id);
    if (!piece || old.contains(document.activeElement) || old.innerHTML === piece.innerHTML) continue;
    for (const opened of old.querySelectorAll('details[id]')) {
      const again = piece.querySelector('#' + CSS.escape(opened.id));
      if (again) again.open = opened.open;
    }

    old.replaceChildren(...document.adoptNode(piece).childNodes);
  }
}

async function look() {
  try {
    const answer = await fetch(location.href, { headers: { Accept: 'text/html' }, cache: 'no-store' });
    if (!answer.ok || answer.redirected) return;
    const fresh = new DOMParser().parseFromString(await answer.text(), 'text/html');
    show(fresh);
    if (!fresh.querySelector('script[src*="drafts/live.js"]')) return; // Nothing runs any more.
  } catch {
    // The server is away for a moment: look again later.
  }

  setTimeout(look, document.hidden ? 10 * pause : pause);
}

setTimeout(look, pause);
