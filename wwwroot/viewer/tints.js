// Colours from the site's own tokens, and the patterns that go with the numbers of a legend: a class is told by its number and its pattern, colour only repeats them.

import { number as written } from '../words/words.js';

/** Of class 1, 2, …: the token of its colour. */
const TOKENS = ['--mark-1', '--mark-2', '--mark-3', '--mark-4'];

export function token(name, element = document.documentElement) {
  return getComputedStyle(element).getPropertyValue(name).trim();
}

export function tintOf(number) {
  return token(TOKENS[(number - 1) % TOKENS.length]);
}

/** Whether a pixel of a class's pattern is inked. The same sums stand in the shader of stage.js. */
export function inked(number, x, y) {
  switch ((number - 1) % 4) {
    case 0: return (x + y) % 8 < 4; // slanting lines
    case 1: return Math.hypot(x % 8 - 4, y % 8 - 4) < 2.6; // dots
    case 2: return y % 8 < 3; // level lines
    default: return x % 8 < 2 || y % 8 < 2; // a net
  }
}

/** A swatch for a legend. */
export function swatch(number) {
  const canvas = document.createElement('canvas');
  [canvas.width, canvas.height] = [40, 24];
  canvas.className = 'look-swatch';
  canvas.setAttribute('aria-hidden', 'true');
  const ink = canvas.getContext('2d');
  ink.fillStyle = tintOf(number);
  ink.globalAlpha = 0.45;
  ink.fillRect(0, 0, 40, 24);
  ink.globalAlpha = 1;
  for (let y = 0; y < 24; y++)
    for (let x = 0; x < 40; x++)
      if (inked(number, x, y)) ink.fillRect(x, y, 1, 1);
  return canvas;
}

/** Lengths as the reader wants them. */
export function lengthWords(mm, inches) {
  const digits = mm < 1 ? 3 : mm < 10 ? 2 : 1;
  const text = `${written(mm, digits)} mm`;
  const fine = mm < 12.7 ? 3 : 2;
  return inches ? `${text} (${written(mm / 25.4, fine, fine)} in)` : text;
}
