// A part in three dimensions: turned, measured, put into the printer, with what the checks found.

import { t } from '../words/words.js';
import { load } from './model.js';
import { Overlays } from './overlays.js';
import { room, lines, turned } from './room.js';
import { Stage, THREE } from './stage.js';
import { lengthWords, token } from './tints.js';
import { make, toggle } from './words.js';

const MOST_FOR_SOFTWARE = 80_000;

export class CloseUp {
  #ends = [];

  constructor({ section, box, tools, status, told, shape }) {
    Object.assign(this, { section, box, tools, status, told, shape });
  }

  async open() {
    const stage = this.stage = new Stage(this.box, t('{0}: turn it with the arrow keys, move it with Shift and the arrow keys, plus and minus bring it nearer and farther, 0 shows the whole again', this.told.name),
      (x, y) => this.#tap(x, y));
    this.pose = new THREE.Group();
    stage.parts.add(this.pose);
    this.box.addEventListener('look:lost', () => this.#say(t('The browser gave up drawing. Load the page again to go on.')));
    try {
      await this.#level(0);
    } catch (error) {
      stage.dispose();
      throw error;
    }

    this.box.querySelector('img')?.setAttribute('hidden', '');
    this.#frame();
    this.#tools();
    this.stage.canvas.addEventListener('keyup', () => this.#say(stage.view.words()));
    if (this.told.finding) this.show(this.told.finding);
    const finest = this.#finest();
    if (finest > 0) await this.#level(finest);
    this.overlays?.levelChanged();
    this.#saySurface();
  }

  /** Turns to the place of a finding and marks it; false where it has none. */
  show(id) {
    const finding = this.told.findings.find(f => f.id === id);
    if (!finding) return false;
    this.goTo(finding.at);
    this.stage.label('finding', finding.at, t('here'), 'look-mark-finding');
    for (const link of document.querySelectorAll('a[data-finding]')) {
      if (link.dataset.finding === id) link.setAttribute('aria-current', 'true');
      else link.removeAttribute('aria-current');
    }

    this.#say(finding.message);
    return true;
  }

  /** Turns to a place in the file's coordinates, from outside, and marks it. */
  goTo(at) {
    this.#roomOff();
    const size = Math.hypot(...this.shape.max.map((m, i) => m - this.shape.min[i]));
    this.stage.view.face(at, this.#free(at, size), Math.max(1.25 * size, 15));
    this.stage.label('finding', null);
    this.#ring(at, size / 45);
  }

  /** A place in the file's coordinates where it is shown now. */
  placed(at) {
    return new THREE.Vector3(...at).applyMatrix4(this.pose.matrixWorld).toArray();
  }

  #finest() {
    const levels = this.shape.levels;
    let finest = levels.length - 1;
    while (finest > 0 && this.stage.isSoftware && levels[finest].triangles > MOST_FOR_SOFTWARE) finest--;
    return finest;
  }

  async #level(number) {
    const model = await load(this.shape.levels[number].address);
    const fresh = this.stage.surface(model);
    const old = this.surface;
    if (number === 0) this.coarse = this.stage.probe(model);
    this.pose.add(fresh);
    [this.surface, this.level] = [fresh, number];
    if (old) this.stage.remove(old);
    this.stage.changed();
  }

  #tools() {
    const parts = [];
    this.measuring = toggle(t('Measure'), down => this.#measure(down));
    parts.push(this.measuring);
    if (this.told.room && this.told.rotation) {
      this.roomButton = toggle(t('In my printer'), down => this.#room(down));
      parts.push(this.roomButton);
    }

    const whole = make('button', { type: 'button', className: 'button button-plain', textContent: t('Whole again') });
    whole.addEventListener('click', () => {
      this.stage.view.reset();
      this.#ring(null);
      this.stage.label('finding', null);
      this.stage.changed();
      this.#say(t('The whole part again.'));
    });
    parts.push(whole);
    for (const [words, factor] of [[t('Nearer'), 1 / 1.3], [t('Farther'), 1.3]]) {
      const button = make('button', { type: 'button', className: 'button button-plain', textContent: words });
      button.addEventListener('click', () => {
        this.stage.view.near(factor);
        this.stage.changed();
      });
      parts.push(button);
    }

    this.tools.append(...parts);
    const help = make('details', { className: 'look-help' },
      make('summary', { textContent: t('How to turn it') }),
      make('p', { textContent: t('Drag to turn it. Two fingers, or the right button, move it; pinching, or the wheel once you have clicked it, brings it nearer. With keys: arrows turn, Shift with arrows moves, plus and minus, 0 for the whole.') }));
    this.status.after(help);
    if (this.told.overlays) {
      this.overlays = new Overlays({
        closeUp: this, stage: this.stage, told: this.told, after: this.status,
        say: words => this.#say(words),
      });
    }
  }

  // Measuring: two places, the straight line between them.
  #measure(down) {
    this.#ends = [];
    this.#line();
    this.#say(down ? t('Tap the two places to measure between. With keys: turn the place to the middle and press Enter.') : '');
    this.box.classList.toggle('look-aiming', down);
    if (down) this.stage.canvas.focus();
  }

  #tap(x, y) {
    if (this.measuring?.getAttribute('aria-pressed') !== 'true') return;
    const hit = this.stage.pick(x, y);
    if (!hit) {
      this.#say(t('There is nothing of the part there. Tap a place on it.'));
      return;
    }

    if (this.#ends.length === 2) this.#ends = [];
    this.#ends.push(hit.point.clone());
    this.#line();
    if (this.#ends.length === 1) {
      this.#say(t('The first place is marked. Tap the second.'));
      return;
    }

    const [a, b] = this.#ends;
    const off = this.shape.levels[this.level].deviationMm;
    const apart = this.#length(a.distanceTo(b));
    const [dx, dy, dz] = ['x', 'y', 'z'].map(k => this.#length(Math.abs(a[k] - b[k])));
    this.stage.label('measured', a.clone().add(b).multiplyScalar(0.5).toArray(), apart, 'look-mark-measure');
    const said = t('{0} apart: {1} along x, {2} along y, {3} along z.', apart, dx, dy, dz);
    this.#say(off > 0 ? `${said} ${t('What is shown is up to {0} off the file.', this.#length(off))}` : said);
  }

  #line() {
    if (this.ruler) this.stage.remove(this.ruler);
    this.ruler = null;
    this.stage.label('measured', null);
    if (this.#ends.length === 0) return;
    this.ruler = new THREE.Group();
    const radius = this.stage.view.radius / 70;
    for (const end of this.#ends) this.ruler.add(this.#ball(end.toArray(), radius));
    if (this.#ends.length === 2) this.ruler.add(onTop(lines([...this.#ends[0].toArray(), ...this.#ends[1].toArray()], token('--mark-place'))));
    this.stage.extras.add(this.ruler);
    this.stage.changed();
  }

  // The printer's volume around the part, laid as it fits best.
  #room(down) {
    if (this.roomLines) this.stage.remove(this.roomLines);
    this.roomLines = null;
    this.isLaid = down;
    this.pose.matrixAutoUpdate = false;
    this.pose.matrix.identity();
    this.#ends = [];
    this.#line();
    if (down) {
      this.#ring(null);
      this.stage.label('finding', null);
      this.pose.matrix.copy(turned(this.told.rotation));
      this.pose.updateMatrixWorld(true);
      const box = new THREE.Box3().setFromObject(this.surface, true);
      const middle = box.getCenter(new THREE.Vector3());
      const margin = this.told.room.margin ?? 0;
      this.pose.matrix.premultiply(new THREE.Matrix4().makeTranslation(-middle.x, -middle.y, margin - box.min.z));
      this.roomLines = room(this.told.room);
      this.stage.extras.add(this.roomLines);
      this.#say(this.told.fitWords);
    }

    this.pose.updateMatrixWorld(true);
    this.overlays?.moved();
    this.#frame();
    if (!down) this.#saySurface();
  }

  #roomOff() {
    if (this.roomButton?.getAttribute('aria-pressed') === 'true') this.roomButton.click();
  }

  #frame() {
    const box = new THREE.Box3().setFromObject(this.pose);
    if (this.roomLines) box.union(new THREE.Box3().setFromObject(this.roomLines));
    this.stage.frame(box);
  }

  /** A direction from which a place can be seen: as square to the surface as may be, with nothing of the part before it. */
  #free(at, size) {
    const normal = new THREE.Vector3(...this.#outward(at)).normalize();
    const ways = [normal];
    for (let above = -60; above <= 60; above += 30)
      for (let right = 0; right < 360; right += 45) {
        const [r, a] = [right * Math.PI / 180, above * Math.PI / 180];
        ways.push(new THREE.Vector3(Math.sin(r) * Math.cos(a), -Math.cos(r) * Math.cos(a), Math.sin(a)));
      }

    ways.sort((p, q) => q.dot(normal) - p.dot(normal));
    const ray = new THREE.Raycaster();
    for (const way of ways) {
      ray.set(new THREE.Vector3(...at).addScaledVector(way, size / 60), way);
      if (ray.intersectObject(this.coarse, false).length === 0) return way.toArray();
    }

    return normal.toArray();
  }

  /** Out of the part at a place: the normal of the nearest corner of the coarsest level. */
  #outward(at) {
    const { position, normal } = this.coarse.geometry.attributes;
    let [best, nearest] = [0, Infinity];
    for (let i = 0; i < position.count; i++) {
      const d = (position.getX(i) - at[0]) ** 2 + (position.getY(i) - at[1]) ** 2 + (position.getZ(i) - at[2]) ** 2;
      if (d < nearest) [best, nearest] = [i, d];
    }

    return [normal.getX(best), normal.getY(best), normal.getZ(best)];
  }

  #ring(at, radius) {
    if (this.marker) this.stage.remove(this.marker);
    this.marker = at ? this.#ball(at, radius) : null;
    if (this.marker) this.stage.extras.add(this.marker);
    this.stage.changed();
  }

  #ball(at, radius) {
    const ball = new THREE.Mesh(new THREE.IcosahedronGeometry(radius, 3), new THREE.MeshLambertMaterial({ color: new THREE.Color(token('--mark-place')), transparent: true, opacity: 0.8 }));
    ball.position.set(...at);
    return ball;
  }

  #saySurface() {
    const level = this.shape.levels[this.level];
    this.#say(level.deviationMm > 0
      ? t('Shown with {0} of its {1} triangles, at most {2} off the file.', level.triangles, this.shape.triangles, this.#length(level.deviationMm))
      : t('Shown with all of its {0} triangles.', level.triangles));
  }

  #length(mm) {
    return lengthWords(mm, this.told.inches);
  }

  #say(words) {
    this.status.textContent = words;
  }
}

function onTop(object) {
  object.material.depthTest = false;
  object.renderOrder = 1;
  return object;
}

