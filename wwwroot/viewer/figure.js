// A figure page: the picture of the assembled figure becomes a model to turn, to bend and to take apart.
// Without this module, or where the browser cannot draw, the picture stays.

import { t } from '../words/words.js';
import { ask } from './model.js';
import { make } from './words.js';

for (const section of document.querySelectorAll('[data-assembled]')) {
  const box = section.querySelector('.look-stage');
  const status = make('p', { className: 'look-status', role: 'status' });
  const begin = make('button', { type: 'button', className: 'button button-plain', textContent: t('Turn it') });
  const tools = make('div', { className: 'buttons look-tools' }, begin);
  box.after(tools, status);
  begin.addEventListener('click', async () => {
    begin.disabled = true;
    status.textContent = t('Fetching the models …');
    try {
      const { canDraw } = await import('./stage.js');
      if (!canDraw()) {
        begin.remove();
        status.textContent = t('This browser cannot draw in three dimensions here, so the picture stays.');
        return;
      }

      const { Assembled } = await import('./assembled.js');
      const figure = await ask(section.dataset.assembled);
      await new Assembled({ section, box, tools, status, figure }).open();
      begin.remove();
      section.dataset.looking = 'true';
    } catch (error) {
      status.textContent = `${error.message} ${t('The picture stays.')}`;
      begin.disabled = false;
    }
  });
}
