// Audits pages with Lighthouse (the npm package) in one browser, and prints one line of JSON for each page and form.
//   node audit.mjs [--chrome PATH] [--only accessibility,best-practices,seo] [--form mobile|desktop] ADDRESS…
// Without --form both are audited. Performance is judged on a slow phone that is reckoned, not waited for; on a busy machine it says more about the machine.
import { parseArgs } from 'node:util';
import { existsSync } from 'node:fs';
import { launch } from 'chrome-launcher';
import lighthouse, { desktopConfig } from 'lighthouse';

const { values, positionals } = parseArgs({ allowPositionals: true, options: { chrome: { type: 'string' }, only: { type: 'string' }, form: { type: 'string' } } });
const chromePath = values.chrome ?? [process.env.CHROMIUM, '/usr/bin/chromium', '/usr/bin/chromium-browser', '/usr/bin/google-chrome'].find((path) => path && existsSync(path));
const chrome = await launch({ chromePath, chromeFlags: ['--headless=new', '--no-sandbox', '--disable-gpu', '--disable-quic', '--no-first-run', '--disable-background-networking', '--disable-component-update'] });

/** What cost points, with the places it names. */
const faults = (lhr) => Object.values(lhr.categories).flatMap((category) => category.auditRefs)
  .filter(({ id, weight }) => weight > 0 && lhr.audits[id].score !== null && lhr.audits[id].score < 0.9)
  .map(({ id }) => ({ id, title: lhr.audits[id].title, places: (lhr.audits[id].details?.items ?? []).slice(0, 5).map((item) => item.node?.snippet ?? item.url ?? item.description ?? '') }));

try {
  for (const address of positionals) {
    for (const form of values.form ? [values.form] : ['mobile', 'desktop']) {
      const { lhr } = await lighthouse(address, { port: chrome.port, onlyCategories: values.only?.split(','), logLevel: 'error' }, form === 'desktop' ? desktopConfig : undefined);
      if (lhr.runtimeError) throw new Error(`${address} could not be audited: ${lhr.runtimeError.message}`);
      const number = (audit) => lhr.audits[audit]?.numericValue;
      console.log(JSON.stringify({
        address,
        form,
        scores: Object.fromEntries(Object.values(lhr.categories).map(({ id, score }) => [id, Math.round(score * 100)])),
        firstPaintMs: number('first-contentful-paint') && Math.round(number('first-contentful-paint')),
        layoutShift: number('cumulative-layout-shift'),
        bytes: number('total-byte-weight'),
        faults: faults(lhr),
      }));
    }
  }
} finally {
  await chrome.kill();
}
