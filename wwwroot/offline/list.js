// On the page for “no connection”: the figures this browser keeps.
const list = document.querySelector('#kept');
const kept = [];
for (const name of 'caches' in window ? await caches.keys() : []) {
  const cache = await caches.open(name);
  for (const request of await cache.keys()) {
    if (!/\/figures\/[^/]+\/?$/.test(new URL(request.url).pathname)) continue;
    const page = new DOMParser().parseFromString(await (await cache.match(request)).text(), 'text/html');
    kept.unshift({ address: request.url, title: page.querySelector('h1')?.textContent ?? request.url });
  }
}

if (kept.length > 0) {
  list.replaceChildren(...kept.map(({ address, title }) => {
    const item = document.createElement('li');
    const link = document.createElement('a');
    link.href = address;
    link.textContent = title;
    item.append(link);
    return item;
  }));
}
