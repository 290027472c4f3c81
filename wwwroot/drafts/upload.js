// Tells that a file is too large before it is sent, and that sending goes on. Without this module the server tells the first.

const file = document.querySelector('input[type="file"][data-max-bytes]');
const form = file?.form;

file?.addEventListener('change', () => {
  const most = Number(file.dataset.maxBytes);
  const chosen = file.files[0];
  file.setCustomValidity(chosen && chosen.size > most
    ? `This file has ${(chosen.size / 1e6).toFixed(1)} MB; ${(most / 1e6).toFixed(1)} MB is the most. Choose a smaller mesh.`
    : '');
  file.reportValidity();
});

form?.addEventListener('submit', () => {
  const button = form.querySelector('button[type="submit"]');
  button.textContent = 'Sending… stay on this page until it is done';
  button.disabled = true;
});

// Coming back by the browser's own button: the form can be sent again.
addEventListener('pageshow', (event) => {
  if (event.persisted) location.reload();
});
