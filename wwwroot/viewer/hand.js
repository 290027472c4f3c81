// Turns what fingers, mouse and keys do into a view: turned about the upright axis, raised, moved, nearer or farther.

import { t } from '../words/words.js';

const RIGHT = -28;
const ABOVE = 16;
const STEP = 8;

/** Where a scene is seen from. Angles in degrees as the pictures have them: from the front (−y), to the right, above the horizon. */
export class View {
  right = RIGHT;
  above = ABOVE;
  distance = 100;
  target = [0, 0, 0];
  #home = { right: RIGHT, above: ABOVE, distance: 100, target: [0, 0, 0] };

  /** What “whole again” goes back to: all of a ball of that radius. */
  settle(center, radius, fieldDegrees) {
    this.radius = radius;
    this.#home = { right: RIGHT, above: ABOVE, distance: 1.04 * radius / Math.sin(fieldDegrees * Math.PI / 360), target: [...center] };
    this.reset();
  }

  reset() {
    Object.assign(this, { ...this.#home, target: [...this.#home.target] });
  }

  turn(right, above) {
    this.right = (this.right + right) % 360;
    this.above = Math.max(-89.5, Math.min(89.5, this.above + above));
  }

  /** By a factor; never into the part nor out of sight. */
  near(factor) {
    this.distance = Math.max(0.02 * this.radius, Math.min(12 * this.radius, this.distance * factor));
  }

  /** In mm of the plane through the target. */
  move(right, up) {
    const { across, upright } = this.axes();
    for (let i = 0; i < 3; i++) this.target[i] -= right * across[i] + up * upright[i];
  }

  axes() {
    const [r, a] = [this.right * Math.PI / 180, this.above * Math.PI / 180];
    const across = [Math.cos(r), Math.sin(r), 0];
    const towards = [Math.sin(r) * Math.cos(a), -Math.cos(r) * Math.cos(a), Math.sin(a)];
    const upright = [
      towards[1] * across[2] - towards[2] * across[1],
      towards[2] * across[0] - towards[0] * across[2],
      towards[0] * across[1] - towards[1] * across[0],
    ];
    return { across, towards, upright };
  }

  /** Looks at a place from the side that a normal points to. */
  face(at, normal, distance) {
    this.target = [...at];
    this.distance = distance;
    const length = Math.hypot(...normal);
    if (!(length > 0)) return;
    const [x, y, z] = normal.map(n => n / length);
    this.above = Math.max(-80, Math.min(80, Math.asin(z) * 180 / Math.PI));
    if (Math.hypot(x, y) > 0.05) this.right = Math.atan2(x, -y) * 180 / Math.PI;
  }

  /** “Seen from the front and above.” */
  words() {
    const sides = [t('the front'), t('the front right'), t('the right'), t('the back right'), t('the back'), t('the back left'), t('the left'), t('the front left')];
    const side = sides[Math.round(((this.right % 360) + 360) % 360 / 45) % 8];
    if (this.above > 70) return t('Seen from above.');
    if (this.above < -70) return t('Seen from below.');
    return this.above > 30 ? t('Seen from {0} and above.', side) : this.above < -30 ? t('Seen from {0} and below.', side) : t('Seen from {0}.', side);
  }
}

/**
 * Lets a canvas be handled. `changed` is called after each change of the view, `tapped` with a place on the canvas; returns what takes all of it off again.
 * A `grip` is asked first whether a press or a key is for something in the scene: take(x, y), drag(dx, dy), drop(), key(event).
 */
export function handle(canvas, view, changed, tapped, grip) {
  const fingers = new Map();
  let travelled = 0;
  let spread = 0;
  let gripped = false;
  const pixel = () => 2 * view.distance * Math.tan(view.field * Math.PI / 360) / canvas.clientHeight;
  const off = new AbortController();
  const on = (type, act, options = {}) => canvas.addEventListener(type, act, { signal: off.signal, ...options });

  on('pointerdown', event => {
    canvas.setPointerCapture(event.pointerId);
    fingers.set(event.pointerId, [event.clientX, event.clientY]);
    if (fingers.size === 1) travelled = 0;
    if (fingers.size === 1 && event.button === 0 && !event.shiftKey) gripped = grip?.take(event.offsetX, event.offsetY) ?? false;
    spread = gap();
  });
  on('pointermove', event => {
    const last = fingers.get(event.pointerId);
    if (!last) return;
    const [dx, dy] = [event.clientX - last[0], event.clientY - last[1]];
    fingers.set(event.pointerId, [event.clientX, event.clientY]);
    travelled += Math.abs(dx) + Math.abs(dy);
    if (gripped) {
      if (fingers.size === 1) grip.drag(dx, dy);
    } else if (fingers.size > 1) {
      const now = gap();
      if (spread > 0 && now > 0) view.near(spread / now);
      spread = now;
      view.move(dx * pixel() / fingers.size, -dy * pixel() / fingers.size);
    } else if (event.shiftKey || event.buttons === 2 || event.buttons === 4) {
      view.move(dx * pixel(), -dy * pixel());
    } else {
      view.turn(-dx * 0.4, dy * 0.4);
    }

    changed();
  });
  for (const type of ['pointerup', 'pointercancel']) {
    on(type, event => {
      if (fingers.delete(event.pointerId) && type === 'pointerup' && fingers.size === 0 && travelled < 6) tapped?.(event.offsetX, event.offsetY);
      spread = gap();
      if (gripped && fingers.size === 0) {
        gripped = false;
        grip.drop();
      }
    });
  }

  on('contextmenu', event => event.preventDefault());
  on('wheel', event => {
    // Pages scroll with the wheel unless the canvas has been taken in hand.
    if (document.activeElement !== canvas && !event.ctrlKey) return;
    event.preventDefault();
    view.near(Math.exp(Math.max(-1, Math.min(1, event.deltaY / 400))));
    changed();
  }, { passive: false });
  on('keydown', event => {
    if (grip?.key(event)) {
      event.preventDefault();
      changed();
      return;
    }

    if (event.altKey || event.metaKey || event.ctrlKey) return;
    const shift = event.shiftKey;
    const far = 40 * pixel();
    const acts = {
      ArrowLeft: () => shift ? view.move(-far, 0) : view.turn(-STEP, 0),
      ArrowRight: () => shift ? view.move(far, 0) : view.turn(STEP, 0),
      ArrowUp: () => shift ? view.move(0, far) : view.turn(0, STEP),
      ArrowDown: () => shift ? view.move(0, -far) : view.turn(0, -STEP),
      '+': () => view.near(1 / 1.2),
      '=': () => view.near(1 / 1.2),
      '-': () => view.near(1.2),
      0: () => view.reset(),
      Home: () => view.reset(),
      Enter: () => tapped?.(canvas.clientWidth / 2, canvas.clientHeight / 2),
    };
    const act = acts[event.key];
    if (!act) return;
    event.preventDefault();
    act();
    changed();
  });
  return () => off.abort();

  function gap() {
    if (fingers.size < 2) return 0;
    const [a, b] = [...fingers.values()];
    return Math.hypot(a[0] - b[0], a[1] - b[1]);
  }
}
