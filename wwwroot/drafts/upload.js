// Tells that a file is too large before it is sent, and that sending goes on. Without this module the server tells the first.

import { number, t } from '../words/words.js';

const file = document.querySelector('input[type="file"][data-max-bytes]');
const form = file?.form;

file?.addEventListener('change', () => {
  const most = Number(file.dataset.maxBytes);
  const chosen = file.files[0];
  file.setCustomValidity(chosen && chosen.size > most
    ? t('This file has {0} MB; {1} MB is the most. Choose a smaller mesh.', number(chosen.size / 1e6, 1, 1), number(most / 1e6, 1, 1))
    : '');
  file.reportValidity();
});

form?.addEventListener('submit', () => {
  const button = form.querySelector('button[type="submit"]');
  button.textContent = t('Sending… stay on this page until it is done');
  button.disabled = true;
});

// Coming back by the browser's own button: the form can be sent again.
addEventListener('pageshow', (event) => {
  if (event.persisted) location.reload();
});
