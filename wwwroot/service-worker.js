// Keeps the figures looked at last, so that they can be read beside a printer without a connection. The network always comes first: what is kept is only shown when it does not answer.

const store = 'figures-1';
const spare = 'offline-1';
const most = 12;
const mostFiles = 300;
const here = new URL('.', self.location.href).pathname;

const isFigure = (url) => new RegExp(`^${here}figures/[^/]+/?$`).test(url.pathname);
const belongsToPages = (url) => /\.(css|js|svg|webp|png)$/.test(url.pathname);

/** The page for “no connection”, with the styles and scripts that it names. */
async function keepSpare() {
  const cache = await caches.open(spare);
  const answer = await fetch(new Request(`${here}offline`, { cache: 'reload' }));
  const page = await answer.clone().text();
  await cache.put(`${here}offline`, answer);
  await cache.addAll([...page.matchAll(/(?:href|src)="([^"]+\.(?:css|js|svg)(?:\?[^"]*)?)"/g)].map((found) => found[1]));
}

self.addEventListener('install', (event) => event.waitUntil(keepSpare().then(() => self.skipWaiting())));

self.addEventListener('activate', (event) => {
  event.waitUntil((async () => {
    for (const name of await caches.keys()) if (/^(figures|offline)-/.test(name) && name !== store && name !== spare) await caches.delete(name);
    await self.clients.claim();
  })());
});

/** A figure's page under its address without the query: the last printer asked about is what counts. */
const keyOf = (url) => url.origin + url.pathname;

async function keep(key, answer) {
  const cache = await caches.open(store);
  await cache.delete(key);
  await cache.put(key, answer);
  const figures = (await cache.keys()).filter((request) => isFigure(new URL(request.url)));
  for (const old of figures.slice(0, Math.max(0, figures.length - most))) await cache.delete(old);
}

/** Pictures and styles, the oldest going first. */
async function keepFile(request, answer) {
  const cache = await caches.open(store);
  await cache.put(request, answer);
  const files = (await cache.keys()).filter((kept) => belongsToPages(new URL(kept.url)));
  if (files.length > mostFiles) for (const old of files.slice(0, files.length - mostFiles + 50)) await cache.delete(old);
}

async function page(request, url) {
  try {
    const answer = await fetch(request);
    if (answer.ok && isFigure(url)) await keep(keyOf(url), answer.clone());
    return answer;
  } catch (error) {
    return (isFigure(url) && await caches.match(keyOf(url))) || (await caches.match(`${here}offline`)) || Promise.reject(error);
  }
}

async function file(request, url) {
  try {
    const answer = await fetch(request);
    if (answer.ok && url.searchParams.has('v')) await keepFile(request, answer.clone());
    return answer;
  } catch (error) {
    return (await caches.match(request)) || Promise.reject(error);
  }
}

self.addEventListener('fetch', (event) => {
  const { request } = event;
  const url = new URL(request.url);
  if (request.method !== 'GET' || url.origin !== self.location.origin) return;
  if (request.mode === 'navigate') event.respondWith(page(request, url));
  else if (belongsToPages(url)) event.respondWith(file(request, url));
});
