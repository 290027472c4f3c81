// Lets the browser keep the figures looked at last; see service-worker.js.
if ('serviceWorker' in navigator) {
  navigator.serviceWorker.register(new URL('../service-worker.js', import.meta.url), { scope: new URL('..', import.meta.url).pathname }).catch(() => {
    // Private windows forbid it: the site works without.
  });
}
