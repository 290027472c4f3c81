// The visitor's own list: everything on this page comes from this browser and stays there.
import { day, t } from '../words/words.js';
import { addressOf, change, put, read } from './store.js';

const page = document.querySelector('#mine');
const said = page.querySelector('#mine-said');
const slash = page.querySelector('#slash');

function row(entry, template, to) {
  const item = template.content.firstElementChild.cloneNode(true);
  const link = item.querySelector('a');
  link.href = addressOf(entry.slug);
  link.textContent = entry.title;
  const at = new Date(entry.at);
  item.querySelector('.mine-day').textContent = Number.isNaN(at.valueOf()) ? '' : day(at);
  for (const button of item.querySelectorAll('button')) {
    button.append(' ');
    const voice = document.createElement('span');
    voice.className = 'aside-voice';
    voice.textContent = entry.title;
    button.append(voice);
    button.addEventListener('click', () => {
      put(entry, button.dataset.put || null);
      show();
      said.textContent = button.dataset.said.replace('{0}', entry.title);
      to.focus(); // The button is gone with its row.
    });
  }

  return item;
}

function show() {
  const kept = read();
  for (const state of ['to-print', 'printed']) {
    const section = page.querySelector(`#${state}`);
    const entries = kept.list.filter((entry) => entry.state === state);
    section.querySelector('ul').replaceChildren(...entries.map((entry) => row(entry, section.querySelector('template'), section.querySelector('h2'))));
    section.querySelector('.mine-none').hidden = entries.length > 0;
  }

  page.querySelector('#seen ul').replaceChildren(...kept.seen.map((entry) => {
    const item = document.createElement('li');
    const link = document.createElement('a');
    link.href = addressOf(entry.slug);
    link.textContent = entry.title;
    item.append(link);
    return item;
  }));
  page.querySelector('#seen .mine-none').hidden = kept.seen.length > 0;
  page.querySelector('#mine-save').hidden = kept.list.length === 0;
  page.querySelector('#clear').hidden = kept.list.length + kept.seen.length === 0;
  slash.checked = kept.slash;
}

function save(name, type, text) {
  const link = document.createElement('a');
  link.href = URL.createObjectURL(new Blob([text], { type }));
  link.download = name;
  link.click();
  setTimeout(() => URL.revokeObjectURL(link.href), 1000);
}

page.querySelector('#save-text').addEventListener('click', () => {
  const lines = ['to-print', 'printed'].flatMap((state) => {
    const entries = read().list.filter((entry) => entry.state === state);
    return entries.length === 0 ? [] : [page.querySelector(`#${state} h2`).textContent, ...entries.map((entry) => `- ${entry.title}  ${addressOf(entry.slug)}`), ''];
  });
  save(`${t('my-figures')}.txt`, 'text/plain', lines.join('\n'));
});
page.querySelector('#save-json').addEventListener('click', () => {
  save(`${t('my-figures')}.json`, 'application/json', `${JSON.stringify({ list: read().list }, null, 2)}\n`);
});
page.querySelector('#clear').addEventListener('click', () => {
  change((kept) => {
    kept.seen = [];
    kept.list = [];
  });
  show();
  said.textContent = page.querySelector('#clear').dataset.said;
  page.querySelector('h1').focus();
});
slash.addEventListener('change', () => change((kept) => { kept.slash = slash.checked; }));

addEventListener('storage', show);
show();
page.hidden = false;
document.querySelector('#mine-without').hidden = true;
