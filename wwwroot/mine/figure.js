// On a figure's page: remembers that it was looked at, and puts it on the visitor's own list.
import { look, put, stateOf } from './store.js';

const place = document.querySelector('[data-mine]');
const figure = { slug: place.dataset.mine, title: place.dataset.title };
if (look(figure)) {
  const buttons = [...place.querySelectorAll('button[data-state]')];
  const said = place.querySelector('[role="status"]');
  const show = () => {
    const state = stateOf(figure.slug);
    for (const button of buttons) button.setAttribute('aria-pressed', String(button.dataset.state === state));
  };
  for (const button of buttons) {
    button.addEventListener('click', () => {
      const state = button.getAttribute('aria-pressed') === 'true' ? null : button.dataset.state;
      said.textContent = put(figure, state) ? (state ? button.dataset.said : said.dataset.off) : said.dataset.full;
      show();
    });
  }

  addEventListener('storage', show); // Another window of this browser.
  addEventListener('pageshow', show); // Come back to by the back button.
  show();
  place.classList.add('keep-ready');
}
