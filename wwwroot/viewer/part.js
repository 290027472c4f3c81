// The section “Look at it closely” of a part's page: the picture that the server drew becomes a model to turn.
// Without this module, or where the browser cannot draw, the picture stays.

import { t } from '../words/words.js';
import { ask } from './model.js';
import { make } from './words.js';

for (const section of document.querySelectorAll('[data-look]')) prepare(section);

function prepare(section) {
  const told = JSON.parse(section.dataset.look);
  const box = section.querySelector('.look-stage');
  const status = make('p', { className: 'look-status', role: 'status' });
  const begin = make('button', { type: 'button', className: 'button', textContent: t('Turn it') });
  const tools = make('div', { className: 'buttons look-tools' }, begin);
  box.after(tools, status);
  let closeUp = null;
  begin.addEventListener('click', () => start());
  section.addEventListener('click', event => {
    const link = event.target.closest('a[data-finding]');
    if (link && closeUp) go(event, link.dataset.finding);
  });
  document.addEventListener('click', event => {
    const link = event.target.closest('a[data-finding]');
    if (!link || section.contains(link) || !told.findings.some(f => f.id === link.dataset.finding)) return;
    if (closeUp) go(event, link.dataset.finding);
  });
  if (told.finding) start();

  function go(event, id) {
    if (!closeUp.show(id)) return;
    event.preventDefault();
    history.replaceState(null, '', event.target.closest('a').href);
    section.scrollIntoView({ behavior: matchMedia('(prefers-reduced-motion: reduce)').matches ? 'auto' : 'smooth', block: 'start' });
  }

  async function start() {
    begin.disabled = true;
    status.textContent = t('Fetching the model …');
    try {
      const { canDraw } = await import('./stage.js');
      if (!canDraw()) {
        begin.remove();
        status.textContent = t('This browser cannot draw in three dimensions here, so the picture stays.');
        return;
      }

      const { CloseUp } = await import('./close-up.js');
      const shape = await ask(told.shape, undefined, () => { status.textContent = t('The model is being made from the file; the picture stays until it is there.'); });
      closeUp = new CloseUp({ section, box, tools, status, told, shape });
      await closeUp.open();
      begin.remove();
      section.dataset.looking = 'true';
    } catch (error) {
      status.textContent = `${error.message} ${t('The picture stays.')}`;
      begin.disabled = false;
    }
  }
}

