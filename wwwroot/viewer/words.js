// Small pieces of a page, made in code.

export function make(name, properties = {}, ...children) {
  const element = document.createElement(name);
  for (const [key, value] of Object.entries(properties)) {
    if (key in element && key !== 'list') element[key] = value;
    else element.setAttribute(key, value);
  }

  element.append(...children.filter(c => c !== null && c !== undefined));
  return element;
}

/** A button that stays down. */
export function toggle(words, act) {
  const button = make('button', { type: 'button', className: 'button button-plain', textContent: words });
  button.setAttribute('aria-pressed', 'false');
  button.addEventListener('click', () => {
    const down = button.getAttribute('aria-pressed') !== 'true';
    button.setAttribute('aria-pressed', String(down));
    act(down);
  });
  return button;
}
