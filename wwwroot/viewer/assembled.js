// The assembled figure: every copy in its place, choices switched, joints turned, all of it taken apart.

import { JointTurn, settleBalls } from './joint-turns.js';
import { t } from '../words/words.js';
import { ask, load } from './model.js';
import { turned } from './room.js';
import { Stage, THREE } from './stage.js';
import { make, toggle } from './words.js';

const MOST = 400_000;
const MOST_FOR_SOFTWARE = 90_000;

export class Assembled {
  #turns = new Map();
  #dragged = null;
  #sliders = [];
  #apart = 0;
  #fields = 0;

  constructor({ section, box, tools, status, figure }) {
    Object.assign(this, { section, box, tools, status, figure });
  }

  async open() {
    const { figure } = this;
    this.name = this.section.dataset.name;
    this.stage = new Stage(this.box, t('{0}, put together: turn it with the arrow keys, move it with Shift and the arrow keys, plus and minus bring it nearer and farther, 0 shows the whole again', this.name), undefined, this.#grip());
    this.shown = figure.parts.map(p => !p.optional && (p.choice === undefined || p.usual));
    for (const choice of this.#choices()) {
      const members = figure.parts.map((p, i) => [p, i]).filter(([p]) => p.choice === choice);
      if (!members.some(([, i]) => this.shown[i])) this.shown[members[0][1]] = true;
    }

    this.copies = figure.copies.map(copy => {
      const group = new THREE.Group();
      group.matrixAutoUpdate = false;
      const rest = turned(copy.rotation).setPosition(copy.x, copy.y, copy.z);
      this.stage.parts.add(group);
      return { group, rest, part: copy.part, middle: new THREE.Vector3() };
    });
    const carried = new Map(figure.joints.map(j => [j.carried, j]));
    for (const [i, copy] of this.copies.entries()) {
      copy.chain = [];
      for (let j = carried.get(i); j; j = carried.get(j.carrier)) copy.chain.unshift(j);
    }

    try {
      await this.#models(0);
      await settleBalls(figure.joints, this.copies);
    } catch (error) {
      this.stage.dispose();
      throw error;
    }

    this.joints = figure.joints.filter(j => j.at);
    for (const joint of this.joints) this.#turns.set(joint, new JointTurn(joint));
    this.box.querySelector('img')?.setAttribute('hidden', '');
    this.#arrange();
    this.#frame();
    this.#tools();
    this.stage.canvas.addEventListener('keyup', () => this.#say(this.stage.view.words()));
    this.#say(this.#unplaced());
    await this.#models(1);
  }

  #choices() {
    return [...new Set(this.figure.parts.map(p => p.choice).filter(Boolean))];
  }

  /** First the coarsest levels, so that something is there at once; then the finest the browser can turn smoothly. */
  async #models(pass) {
    const most = (this.stage.isSoftware ? MOST_FOR_SOFTWARE : MOST) / Math.max(1, this.copies.length);
    await Promise.all(this.figure.parts.map(async (part, i) => {
      part.levels ??= (await ask(part.shape, undefined, () => this.#say(t('Models are being made from the files; the picture stays until they are there.')))).levels;
      let level = 0;
      if (pass > 0) while (level + 1 < part.levels.length && part.levels[level + 1].triangles <= most) level++;
      if (part.level === level) return;
      part.level = level;
      const model = await load(part.levels[level].address);
      for (const copy of this.copies.filter(c => c.part === i)) {
        for (const old of [...copy.group.children]) this.stage.remove(old);
        const surface = this.stage.surface(model);
        copy.group.add(surface);
        surface.geometry.computeBoundingBox();
        surface.geometry.boundingBox.getCenter(copy.middle).applyMatrix4(copy.rest);
      }
    }));
    this.stage.changed();
  }

  #arrange() {
    const whole = new THREE.Vector3();
    const there = this.copies.filter(c => this.shown[c.part]);
    for (const copy of there) whole.add(copy.middle);
    whole.divideScalar(Math.max(1, there.length));
    for (const copy of this.copies) {
      copy.group.visible = this.shown[copy.part];
      const matrix = new THREE.Matrix4();
      for (const joint of copy.chain) {
        const turn = this.#turns.get(joint)?.matrix();
        if (turn) matrix.multiply(turn);
      }

      const away = copy.middle.clone().applyMatrix4(matrix).sub(whole).multiplyScalar(1.4 * this.#apart);
      matrix.premultiply(new THREE.Matrix4().makeTranslation(away.x, away.y, away.z));
      copy.group.matrix.multiplyMatrices(matrix, copy.rest);
      copy.group.updateMatrixWorld(true);
    }

    this.stage.changed();
  }

  #frame() {
    const box = new THREE.Box3();
    for (const copy of this.copies) if (copy.group.visible) box.union(new THREE.Box3().setFromObject(copy.group));
    if (!box.isEmpty()) this.stage.frame(box);
  }

  #tools() {
    const whole = make('button', { type: 'button', className: 'button button-plain', textContent: t('Whole again') });
    whole.addEventListener('click', () => {
      this.#frame();
      this.#say(t('The whole figure again.'));
    });
    this.tools.append(whole);
    const fields = make('div', { className: 'look-fields' });
    fields.append(this.#slider(t('Taken apart'), 0, 100, 0, '%', value => {
      this.#apart = value / 100;
      this.#arrange();
      this.#frame();
    }));
    for (const choice of this.#choices()) fields.append(this.#choice(choice));
    for (const [i, part] of this.figure.parts.entries()) {
      if (!part.optional) continue;
      const box = make('input', { type: 'checkbox' });
      box.addEventListener('change', () => {
        this.shown[i] = box.checked;
        this.#arrange();
        this.#say(box.checked ? t('{0}: with it.', part.name) : t('{0}: without it.', part.name));
      });
      fields.append(make('label', { className: 'look-check' }, box, part.name));
    }

    this.status.after(fields);
    if (this.joints.length === 0) return;
    const joints = make('details', { className: 'look-joints' }, make('summary', { textContent: t('Bend its joints ({0})', this.joints.length) }));
    const again = make('button', { type: 'button', className: 'button button-plain', textContent: t('As it was built') });
    this.#sliders = this.joints.flatMap(joint => {
      const part = this.figure.parts[this.copies[joint.carried].part];
      const same = this.joints.filter(j => this.copies[j.carried].part === this.copies[joint.carried].part);
      const number = same.length > 1 ? ` ${same.indexOf(joint) + 1}` : '';
      const turn = this.#turns.get(joint);
      const name = `${joint.name}: ${part.name}${number}`;
      return turn.angles.map((_, i) => {
        const field = this.#slider(turn.axis ? name : t('{0}, about {1}', name, 'xyz'[i]), -180, 180, 0, '°', value => {
          turn.angles[i] = value;
          this.#arrange();
        });
        return { field, turn, i };
      });
    });
    const drag = toggle(t('Drag the parts'), down => { this.dragging = down; });
    again.addEventListener('click', () => {
      for (const { turn } of this.#sliders) turn.angles.fill(0);
      this.#showTurns();
      this.#arrange();
    });
    joints.append(make('p', { className: 'soft', textContent: t('About the axes that holes and pegs in line tell, and freely about the centres of balls in their sockets. How far a joint really turns, and what stands in its way, is not worked out.') }),
      make('div', { className: 'look-fields' }, ...this.#sliders.map(s => s.field)), make('div', { className: 'buttons' }, drag, again));
    fields.after(joints);
  }

  #showTurns() {
    for (const { field, turn, i } of this.#sliders) {
      field.querySelector('input').value = turn.angles[i];
      field.querySelector('output').textContent = `${Math.round(turn.angles[i])}°`;
    }
  }

  /** A part that is pressed turns at the joint that carries it, when that was asked for. */
  #grip() {
    return {
      take: (x, y) => {
        if (!this.dragging) return false;
        let hit = this.stage.pick(x, y)?.object;
        while (hit && !this.copies.some(c => c.group === hit)) hit = hit.parent;
        const joint = this.copies.find(c => c.group === hit)?.chain.findLast(j => this.#turns.has(j));
        this.#dragged = joint ? this.#turns.get(joint) : null;
        return this.#dragged !== null;
      },
      drag: (dx, dy) => {
        this.#dragged.drag(dx, dy, this.stage.view);
        this.#showTurns();
        this.#arrange();
      },
      drop: () => { this.#dragged = null; },
      key: () => false,
    };
  }

  #slider(words, min, max, value, unit, act) {
    const amount = number => unit === '°' ? `${number}°` : `${number}\u00a0${unit}`;
    const said = make('output', { textContent: amount(value) });
    const input = make('input', { type: 'range', min, max, step: unit === '°' ? 5 : 1, value });
    input.addEventListener('input', () => {
      said.textContent = amount(input.value);
      act(Number(input.value));
    });
    input.id = `look-slider-${++this.#fields}`;
    return make('div', { className: 'look-slider' }, make('label', { htmlFor: input.id, textContent: words }), input, said);
  }

  #choice(choice) {
    const members = this.figure.parts.map((p, i) => [p, i]).filter(([p]) => p.choice === choice);
    const select = make('select', {}, ...members.map(([p, i]) => make('option', { value: i, textContent: p.name, selected: this.shown[i] })));
    select.addEventListener('change', () => {
      for (const [, i] of members) this.shown[i] = i === Number(select.value);
      this.#arrange();
      this.#say(`${choice}: ${this.figure.parts[Number(select.value)].name}.`);
    });
    select.id = `look-choice-${++this.#fields}`;
    return make('div', { className: 'look-choice' }, make('label', { htmlFor: select.id, textContent: choice }), select);
  }

  #unplaced() {
    const { unplaced } = this.figure;
    return unplaced.length
      ? t('Not shown, because the designer has not said where they sit: {0}.', unplaced.join(', '))
      : t('{0}, put together from {1} pieces.', this.name, this.copies.filter(c => this.shown[c.part]).length);
  }

  #say(words) {
    this.status.textContent = words;
  }
}
