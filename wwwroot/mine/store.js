// What this browser remembers of figures: those looked at lately, and those to print or printed. Nothing of it is ever sent.

const mostSeen = 12;

/** Catalogues on one host keep apart by the path they are served under. */
export const base = new URL('..', import.meta.url).pathname;
const key = `catalogue.mine ${base}`;
const empty = () => ({ seen: [], list: [], slash: true });

const isFigure = (entry) => typeof entry?.slug === 'string' && /^[a-z0-9-]{1,80}$/.test(entry.slug) && typeof entry.title === 'string';

/** What is kept; what cannot be read counts as nothing. */
export function read() {
  try {
    const kept = JSON.parse(localStorage.getItem(key) ?? '{}');
    return {
      seen: Array.isArray(kept.seen) ? kept.seen.filter(isFigure) : [],
      list: Array.isArray(kept.list) ? kept.list.filter((entry) => isFigure(entry) && (entry.state === 'to-print' || entry.state === 'printed')) : [],
      slash: kept.slash !== false,
    };
  } catch {
    return empty();
  }
}

/** Changes what is kept; false when the browser keeps nothing, as some private windows do. */
export function change(how) {
  const kept = read();
  how(kept);
  try {
    localStorage.setItem(key, JSON.stringify(kept));
    return true;
  } catch {
    return false;
  }
}

export function look({ slug, title }) {
  return change((kept) => {
    kept.seen = [{ slug, title, at: new Date().toISOString() }, ...kept.seen.filter((entry) => entry.slug !== slug)].slice(0, mostSeen);
  });
}

export const stateOf = (slug) => read().list.find((entry) => entry.slug === slug)?.state ?? null;

/** Puts a figure on the list as to print or printed; null takes it off. */
export function put({ slug, title }, state) {
  return change((kept) => {
    kept.list = kept.list.filter((entry) => entry.slug !== slug);
    if (state) kept.list.unshift({ slug, title, state, at: new Date().toISOString() });
  });
}

/** A figure's page, for the same printer as this one. */
export function addressOf(slug) {
  const address = new URL(`${base}figures/${slug}`, location.href);
  const here = new URLSearchParams(location.search);
  for (const name of ['process', 'volume', 'round', 'margin', 'layer', 'cycle', 'flow', 'line', 'also', 'unit']) {
    for (const value of here.getAll(name)) address.searchParams.append(name, value);
  }

  return address.href;
}
