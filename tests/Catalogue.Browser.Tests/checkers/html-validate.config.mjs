// Every rule about what the HTML standard and WAI-ARIA allow is on. What is off or narrowed is taste, with the reason beside it.
export default {
  root: true,
  extends: ['html-validate:recommended', 'html-validate:document', 'html-validate:browser'],
  rules: {
    'form-dup-name': ['error', { shared: ['radio', 'checkbox', 'button', 'submit'] }], // Several checkboxes of one name are one answer of several values.
    'long-title': 'off', // A figure's name is its designer's; search engines cut it, readers do not.
    'require-sri': ['error', { target: 'crossorigin' }], // Our own files come from where the page comes from.
    'valid-id': ['error', { relaxed: true }], // The standard forbids white space only; a rule's code is its anchor.
  },
};
