// Six numbers of a copy, in fields and as a place: turned about the figure's x, then y, then z axis, then moved.

import { THREE } from './stage.js';

const RADIANS = Math.PI / 180;
const ORDER = 'ZYX'; // three.js names the axes from the last turn to the first.

const text = (value) => String(Number(value.toFixed(4)) + 0);

/** The place that six texts say; null where they are empty, undefined where they are not all numbers. */
export function placeOf(texts) {
  if (texts.every((t) => t.trim() === '')) return null;
  const [x, y, z, a, b, c] = texts.map((t) => (t.trim() === '' ? NaN : Number(t.trim().replace(',', '.'))));
  if (![x, y, z, a, b, c].every(Number.isFinite)) return undefined;
  return new THREE.Matrix4().makeRotationFromEuler(new THREE.Euler(a * RADIANS, b * RADIANS, c * RADIANS, ORDER)).setPosition(x, y, z);
}

export function textsOf(place) {
  if (!place) return Array(6).fill('');
  const at = new THREE.Vector3().setFromMatrixPosition(place);
  const { x, y, z } = new THREE.Euler().setFromRotationMatrix(place, ORDER);
  return [at.x, at.y, at.z, x / RADIANS, y / RADIANS, z / RADIANS].map(text);
}

/** Turned by degrees about an axis through a point; all in the figure's coordinates. */
export function turnedAbout(place, point, axis, degrees) {
  return new THREE.Matrix4().makeTranslation(point)
    .multiply(new THREE.Matrix4().makeRotationAxis(axis, degrees * RADIANS))
    .multiply(new THREE.Matrix4().makeTranslation(point.clone().negate()))
    .multiply(place);
}

/** Which axis of the figure lies nearest to the right, to the top and towards the viewer on the screen, and which way: each axis once. */
export function axesOnScreen(view) {
  const { across, upright, towards } = view.axes();
  const left = [0, 1, 2];
  return [across, upright, towards].map((direction) => {
    left.sort((i, j) => Math.abs(direction[j]) - Math.abs(direction[i]));
    const axis = left.shift();
    return { axis, sign: direction[axis] < 0 ? -1 : 1 };
  });
}

export const unit = (axis, sign = 1) => new THREE.Vector3().setComponent(axis, sign);
