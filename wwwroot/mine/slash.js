// The key “/” goes to the search, unless the visitor writes somewhere or has switched it off on their list (WCAG 2.1.4).
import { read } from './store.js';

const search = document.querySelector('main input[type="search"]');
const writes = (target) => target instanceof Element && target.closest('input, textarea, select, [contenteditable]') !== null;

if (search && read().slash) search.setAttribute('aria-keyshortcuts', '/');
addEventListener('keydown', (event) => {
  if (!search || event.key !== '/' || event.ctrlKey || event.metaKey || event.altKey || event.isComposing || event.defaultPrevented) return;
  if (writes(event.target) || !read().slash) return;
  event.preventDefault();
  search.focus();
  search.select();
});
