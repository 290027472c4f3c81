// The row of tools under the bench: which part is in hand, what a drag or a key does to it, along which axis and by how much.

import { number, t } from '../words/words.js';
import { make, toggle } from './words.js';

const AXES = ['x', 'y', 'z'];
const STEPS = { move: [0.1, 1, 10], turn: [1, 15, 90] };

export class PoseTools {
  mode = 'move';
  axis = null;
  spares = false;
  #steps = { move: 1, turn: 15 };

  constructor(bench) {
    this.bench = bench;
    this.hand = this.#list('hand', t('Part in hand'), [['', t('no part')], ...bench.copies.map((c) => [c.i, c.name])], (value) => bench.take(value === '' ? null : bench.copies[Number(value)]));
    this.how = this.#list('how', t('Dragging and arrow keys'), [['move', t('move the part')], ['turn', t('turn the part')], ['view', t('turn the view')]], (value) => {
      this.mode = value;
      this.show();
    });
    this.along = this.#list('along', t('Dragging goes'), [['', t('as it is seen')], ...AXES.map((a, i) => [i, t('along or about {0} only', a)])], (value) => { this.axis = value === '' ? null : Number(value); });
    this.by = {
      move: this.#list('move-by', t('Step'), STEPS.move.map((s) => [s, `${number(s, 1)} mm`]), (value) => { this.#steps.move = Number(value); }, this.#steps.move),
      turn: this.#list('turn-by', t('Step'), STEPS.turn.map((s) => [s, `${s}°`]), (value) => { this.#steps.turn = Number(value); }, this.#steps.turn),
    };
    this.nudges = make('div', { className: 'buttons bench-nudges', role: 'group' });
    for (const [axis, name] of AXES.entries()) {
      for (const way of [-1, 1]) {
        const button = make('button', { type: 'button', className: 'button button-plain', textContent: `${name} ${way < 0 ? '−' : '+'}` });
        button.addEventListener('click', () => (this.mode === 'turn' ? bench.turn(axis, way * this.step) : bench.move(axis, way * this.step)));
        this.nudges.append(button);
      }
    }

    this.undo = make('button', { type: 'button', className: 'button button-plain', textContent: t('Undo') });
    this.undo.addEventListener('click', () => bench.undo());
    const whole = make('button', { type: 'button', className: 'button button-plain', textContent: t('Whole again') });
    whole.addEventListener('click', () => bench.frame());
    this.put = make('button', { type: 'button', className: 'button button-plain' });
    this.put.addEventListener('click', () => bench.putDown(!this.#isPlaced()));
    const all = toggle(t('All numbers'), (down) => bench.form.classList.toggle('bench-all', down));
    const buttons = [this.undo, whole, this.put, all];
    if (bench.copies.some((c) => c.spare)) {
      buttons.push(toggle(t('With what is spare'), (down) => {
        this.spares = down;
        bench.arrange();
      }));
    }

    bench.place.append(
      make('div', { className: 'bench-lists' }, this.hand, this.how, this.along, this.by.move, this.by.turn),
      this.nudges,
      make('div', { className: 'buttons' }, ...buttons),
      make('details', { className: 'look-help' }, make('summary', { textContent: t('With mouse, fingers and keys') }),
        make('p', { textContent: t('Press a part and drag it; beside the parts a drag turns the view, the wheel brings it nearer. On the picture, with a part in hand: arrow keys go along the axes of the figure that lie nearest to left, right, up and down, Page Up and Page Down away from you and towards you; Ctrl and Z takes a step back; Escape lets the part go, and then arrow keys turn the view.') })));
    this.show();
  }

  get step() {
    return this.#steps[this.mode] ?? 1;
  }

  /** What can be done now. */
  show() {
    const { hand, undoable } = this.bench;
    this.hand.querySelector('select').value = hand ? String(hand.i) : '';
    const placed = this.#isPlaced();
    const moves = Boolean(placed) && this.mode !== 'view';
    for (const button of this.nudges.children) button.disabled = !moves;
    this.nudges.setAttribute('aria-label', this.mode === 'turn' ? t('Turn the part in hand about an axis of the figure') : t('Move the part in hand along an axis of the figure'));
    this.by.move.hidden = this.mode !== 'move';
    this.by.turn.hidden = this.mode !== 'turn';
    this.along.hidden = this.mode === 'view';
    this.undo.disabled = !undoable;
    this.put.disabled = !hand;
    this.put.textContent = placed ? t('Take its place away') : t('Give it a place');
  }

  #isPlaced() {
    return this.bench.hand?.fields.some((f) => f.value.trim() !== '') ?? false;
  }

  #list(name, words, options, act, chosen = '') {
    const select = make('select', {}, ...options.map(([value, text]) => make('option', { value, textContent: text, selected: value === chosen })));
    select.addEventListener('change', () => act(select.value));
    select.id = `bench-${name}`;
    return make('div', { className: 'field' }, make('label', { htmlFor: select.id, textContent: words }), select);
  }
}
