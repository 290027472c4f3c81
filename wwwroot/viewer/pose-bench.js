// Parts are taken in hand, moved and turned by dragging, keys, buttons and numbers, put together at joints; each step can be undone. Saving is the form's own.

import { t } from '../words/words.js';
import { ask, load } from './model.js';
import { axesOnScreen, placeOf, textsOf, turnedAbout, unit } from './pose-numbers.js';
import { PoseTools } from './pose-tools.js';
import { Stage, THREE } from './stage.js';
import { token } from './tints.js';

const MOST = 300_000;
const MOST_FOR_SOFTWARE = 60_000;
const CLAY = 0xd2c4ad;

export class PoseBench {
  #undo = [];
  #drag = null;
  #hand = null;
  #sending = false;

  constructor({ form, box, tools, status }) {
    Object.assign(this, { form, box, status, place: tools });
  }

  async open() {
    const scene = JSON.parse(this.form.dataset.scene);
    this.stage = new Stage(this.box, t('{0}: the figure, to put its parts where they sit. With a part in hand arrow keys, Page Up and Page Down move or turn it; Escape lets it go. Without one, arrow keys turn the view.', scene.name),
      (x, y) => this.#tap(x, y), this.#grip());
    this.copies = scene.copies.map((copy, i) => {
      const fieldset = this.form.querySelector(`[data-copy="${i}"]`);
      const group = new THREE.Group();
      group.matrixAutoUpdate = false;
      this.stage.parts.add(group);
      return { ...copy, i, group, fieldset, fields: [...fieldset.querySelectorAll('input.input-number')], middle: new THREE.Vector3() };
    });
    this.tools = new PoseTools(this);
    for (const copy of this.copies) this.#listen(copy);
    this.form.addEventListener('submit', () => { this.#sending = true; });
    addEventListener('beforeunload', (event) => { if (this.#undo.length > 0 && !this.#sending) event.preventDefault(); });
    this.#arrange();
    try {
      await this.#models(0);
    } catch (error) {
      this.stage.dispose();
      throw error;
    }

    for (const shown of this.box.querySelectorAll('img, p')) shown.hidden = true;
    this.#arrange();
    this.frame();
    this.form.classList.add('bench-ready');
    const wrong = this.copies.find((c) => c.fieldset.querySelector('[aria-invalid]'));
    this.take(wrong ?? null);
    await this.#models(1);
  }

  /** The copy in hand; null for none. */
  get hand() {
    return this.#hand;
  }

  get undoable() {
    return this.#undo.length > 0;
  }

  take(copy) {
    this.#hand = copy;
    for (const other of this.copies) {
      other.fieldset.toggleAttribute('data-in-hand', other === copy);
      this.#colour(other);
    }

    this.#arrange();
    this.tools.show();
    this.#sayPlace();
  }

  /** Along an axis of the figure, mm. */
  move(axis, mm) {
    this.#change((place) => place.premultiply(new THREE.Matrix4().makeTranslation(unit(axis).multiplyScalar(mm))));
  }

  /** About an axis of the figure through the part's middle, degrees. */
  turn(axis, degrees) {
    this.#change((place) => turnedAbout(place, this.#middle(this.#hand), unit(axis), degrees));
  }

  /** Gives a part that has no place one: as it lies in its file, copies beside each other; or takes its place away, of all copies. */
  putDown(down) {
    const same = this.copies.filter((c) => c.part === this.#hand.part);
    this.#remember(same);
    for (const [n, copy] of same.entries()) {
      const box = new THREE.Box3().setFromObject(copy.group);
      const wide = box.isEmpty() ? 20 : box.max.x - box.min.x;
      this.#write(copy, down ? new THREE.Matrix4().makeTranslation(n * 1.2 * wide, 0, 0) : null);
    }

    this.#changed();
  }

  undo() {
    const last = this.#undo.pop();
    if (!last) return;
    for (const { copy, texts } of last) copy.fields.forEach((field, i) => { field.value = texts[i]; });
    this.#changed();
    this.say(t('Taken back: {0}.', last.map(({ copy }) => copy.name).join(', ')));
  }

  frame() {
    const box = new THREE.Box3();
    for (const copy of this.copies) if (copy.group.visible && copy.group.children.length > 0) box.union(new THREE.Box3().setFromObject(copy.group));
    if (!box.isEmpty()) this.stage.frame(box);
  }

  say(words) {
    this.status.textContent = words;
  }

  #placeOf(copy) {
    return placeOf(copy.fields.map((f) => f.value));
  }

  #write(copy, place) {
    textsOf(place).forEach((text, i) => { copy.fields[i].value = text; });
  }

  #middle(copy) {
    return copy.middle.clone().applyMatrix4(this.#placeOf(copy) ?? new THREE.Matrix4());
  }

  #remember(copies, texts = copies.map((c) => c.fields.map((f) => f.value))) {
    this.#undo.push(copies.map((copy, i) => ({ copy, texts: texts[i] })));
  }

  #change(how) {
    const copy = this.#hand;
    const place = copy && this.#placeOf(copy);
    if (!place) return;
    this.#remember([copy]);
    this.#write(copy, how(place));
    this.#changed();
  }

  #changed() {
    this.#arrange();
    this.tools.show();
    this.#sayPlace();
  }

  #sayPlace() {
    const copy = this.#hand;
    if (!copy) return this.say(t('Take a part in hand: click it, or choose it from the list.'));
    const place = this.#placeOf(copy);
    if (place === undefined) return this.say(t('{0}: six numbers, or none.', copy.name));
    if (place === null) return this.say(t('{0} has no place yet.', copy.name));
    const [x, y, z, a, b, c] = copy.fields.map((f) => f.value);
    return this.say(t('{0}: at x {1}, y {2}, z {3} mm; turned {4}°, {5}°, {6}° about x, y, z.', copy.name, x, y, z, a, b, c));
  }

  #arrange() {
    for (const copy of this.copies) {
      const place = this.#placeOf(copy);
      const placed = place instanceof THREE.Matrix4;
      copy.group.visible = placed && (!copy.spare || copy === this.#hand || this.tools?.spares);
      if (placed) copy.group.matrix.copy(place);
      copy.group.updateMatrixWorld(true);
    }

    const at = this.#hand && this.#hand.group.visible ? this.#middle(this.#hand).toArray() : null;
    this.stage.label('hand', at, this.#hand?.name ?? '');
  }

  arrange() {
    this.#arrange();
    this.stage.changed();
  }

  #colour(copy) {
    for (const surface of copy.group.children) {
      if (copy === this.#hand) surface.material.color.set(token('--brass'));
      else surface.material.color.setHex(CLAY);
    }

    this.stage.changed();
  }

  async #models(pass) {
    const most = (this.stage.isSoftware ? MOST_FOR_SOFTWARE : MOST) / Math.max(1, this.copies.length);
    const shapes = Map.groupBy(this.copies.filter((c) => c.shape), (c) => c.shape);
    await Promise.all([...shapes].map(async ([address, copies]) => {
      const [first] = copies;
      first.levels ??= (await ask(address, undefined, () => this.say(t('Models are being made from the files …')))).levels;
      let level = 0;
      if (pass > 0) while (level + 1 < first.levels.length && first.levels[level + 1].triangles <= most) level++;
      if (first.level === level) return;
      first.level = level;
      const model = await load(first.levels[level].address);
      for (const copy of copies) {
        for (const old of [...copy.group.children]) this.stage.remove(old);
        const surface = this.stage.surface(model);
        surface.geometry.computeBoundingBox();
        surface.geometry.boundingBox.getCenter(copy.middle);
        copy.group.add(surface);
        this.#colour(copy);
      }
    }));
    this.#arrange();
    this.stage.changed();
  }

  #copyAt(x, y) {
    let hit = this.stage.pick(x, y)?.object;
    while (hit && !this.copies.some((c) => c.group === hit)) hit = hit.parent;
    return this.copies.find((c) => c.group === hit) ?? null;
  }

  #tap(x, y) {
    const copy = this.#copyAt(x, y);
    if (copy !== this.#hand) this.take(copy);
  }

  /** What the canvas asks before it turns the view. */
  #grip() {
    return {
      take: (x, y) => {
        if (this.tools.mode === 'view') return false;
        const copy = this.#copyAt(x, y);
        if (!copy) return false;
        if (copy !== this.#hand) this.take(copy);
        this.#drag = { x: 0, y: 0, copy, from: this.#placeOf(copy), texts: [copy.fields.map((f) => f.value)], middle: this.#middle(copy), moved: false };
        return true;
      },
      drag: (dx, dy) => this.#dragged(dx, dy),
      drop: () => {
        if (this.#drag?.moved) this.#remember([this.#drag.copy], this.#drag.texts);
        this.#drag = null;
        this.tools.show();
      },
      key: (event) => this.#key(event),
    };
  }

  #dragged(dx, dy) {
    const drag = this.#drag;
    drag.x += dx;
    drag.y -= dy;
    const { view, canvas } = this.stage;
    const { across, upright, towards } = view.axes();
    const step = this.tools.step;
    const stepped = (value) => Math.round(value / step) * step;
    let place;
    if (this.tools.mode === 'move') {
      const near = view.distance - drag.middle.clone().sub(new THREE.Vector3(...view.target)).dot(new THREE.Vector3(...towards));
      const mm = 2 * near * Math.tan(view.field * Math.PI / 360) / canvas.clientHeight;
      const by = new THREE.Vector3();
      const only = this.tools.axis;
      if (only === null) {
        for (let i = 0; i < 3; i++) by.setComponent(i, stepped((drag.x * across[i] + drag.y * upright[i]) * mm));
      } else {
        const seen = across[only] ** 2 + upright[only] ** 2;
        if (seen > 0.02) by.setComponent(only, stepped((drag.x * across[only] + drag.y * upright[only]) * mm / seen));
      }

      place = drag.from.clone().premultiply(new THREE.Matrix4().makeTranslation(by));
    } else {
      const [right, up] = axesOnScreen(view);
      const along = Math.abs(drag.x) > Math.abs(drag.y);
      const only = this.tools.axis;
      const { axis, sign } = only !== null ? { axis: only, sign: 1 } : along ? up : right;
      const degrees = stepped((along ? drag.x : only !== null ? drag.y : -drag.y) * 0.5) * sign;
      place = turnedAbout(drag.from, drag.middle, unit(axis), degrees);
    }

    this.#write(drag.copy, place);
    drag.moved = textsOf(place).some((t, i) => t !== drag.texts[0][i]);
    this.#arrange();
    this.#sayPlace();
  }

  /** True when the key was for the part in hand. */
  #key(event) {
    if ((event.ctrlKey || event.metaKey) && event.key === 'z') {
      this.undo();
      return true;
    }

    if (event.ctrlKey || event.metaKey || event.altKey || event.shiftKey || !this.#hand) return false;
    if (event.key === 'Escape') {
      this.take(null);
      return true;
    }

    const pressed = { ArrowRight: [0, 1], ArrowLeft: [0, -1], ArrowUp: [1, 1], ArrowDown: [1, -1], PageDown: [2, 1], PageUp: [2, -1] }[event.key];
    if (!pressed || this.tools.mode === 'view') return false;
    const screen = axesOnScreen(this.stage.view);
    const [which, way] = pressed;
    if (this.tools.mode === 'move') {
      this.move(screen[which].axis, way * screen[which].sign * this.tools.step);
    } else {
      const about = screen[[1, 0, 2][which]]; // Left and right turn about what is upright, up and down about what lies across.
      this.turn(about.axis, way * about.sign * (which === 1 ? -1 : 1) * this.tools.step);
    }

    return true;
  }

  #listen(copy) {
    let before;
    copy.fieldset.addEventListener('focusin', () => { before = copy.fields.map((f) => f.value); });
    copy.fieldset.addEventListener('input', () => { this.arrange(); this.#sayPlace(); });
    copy.fieldset.addEventListener('change', () => {
      this.#remember([copy], [before]);
      before = copy.fields.map((f) => f.value);
      this.tools.show();
    });
    for (const button of copy.fieldset.querySelectorAll('[data-join]')) {
      button.addEventListener('click', (event) => {
        if (button.dataset.plain) return;
        event.preventDefault();
        this.#join(button, copy);
      });
    }
  }

  /** The server knows the holes: it answers with the numbers. */
  async #join(button, copy) {
    const sent = new FormData(this.form, button);
    const answer = await fetch(button.formAction, { method: 'POST', body: sent, headers: { Accept: 'application/json' } }).catch(() => null);
    if (!answer?.ok) { // Let the page itself say what is wrong.
      button.dataset.plain = 'true';
      this.#sending = true;
      button.click();
      return;
    }

    const { said, next, numbers } = await answer.json();
    if (numbers) {
      this.#remember([copy]);
      copy.fields.forEach((field, i) => { field.value = String(numbers[i]); });
      button.value = button.dataset.join + next;
      this.#changed();
      this.frame();
    }

    this.say(said);
  }
}
