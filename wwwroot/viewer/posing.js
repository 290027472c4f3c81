// The page “Where its parts sit”: the numbers become a figure to take in hand. Without this module, or where the browser cannot draw, the numbers serve.

import { t } from '../words/words.js';
import { make } from './words.js';

const form = document.querySelector('[data-scene]');
if (form) {
  const box = form.querySelector('.look-stage');
  const status = make('p', { className: 'look-status', role: 'status', textContent: t('Fetching the models …') });
  const tools = make('div', { className: 'bench-tools' });
  box.after(status, tools);
  try {
    const { canDraw } = await import('./stage.js');
    if (canDraw()) {
      const { PoseBench } = await import('./pose-bench.js');
      await new PoseBench({ form, box, tools, status }).open();
      form.dataset.looking = 'true';
    } else {
      status.textContent = t('This browser cannot draw in three dimensions here. The numbers say and change the same.');
    }
  } catch (error) {
    status.textContent = `${error.message} ${t('The numbers say and change the same.')}`;
  }
}
