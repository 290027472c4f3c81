// What the checks found, on the surface: one overlay at a time, with a legend of numbers, patterns and words.

import { number, t } from '../words/words.js';
import { ask, bytesOf } from './model.js';
import { lengthWords, swatch } from './tints.js';
import { make } from './words.js';

export class Overlays {
  #shown = null;
  #labels = [];
  #inPose = new Set();

  constructor({ closeUp, stage, told, after, say }) {
    Object.assign(this, { closeUp, stage, told, say });
    this.select = make('select', { id: `look-overlay-${told.id}` }, make('option', { value: '', textContent: t('nothing') }));
    this.legend = make('div', { className: 'look-legend' });
    this.legend.setAttribute('aria-live', 'polite');
    this.box = make('div', { className: 'look-overlays' },
      make('div', { className: 'field' }, make('label', { htmlFor: this.select.id, textContent: t('Show on the surface') }), this.select), this.legend);
    after.after(this.box);
    this.select.addEventListener('change', () => this.#choose());
    this.#list();
  }

  /** Another level of detail is shown: what was on the old one goes onto it. */
  levelChanged() {
    if (this.select.value) this.#choose();
  }

  /** The part lies another way: labels follow, and what depends on it is worked out for it. */
  moved() {
    if (this.#inPose.has(this.select.value)) this.#choose();
    else if (this.#shown) this.#mark(this.#shown);
  }

  async #list() {
    try {
      const list = await ask(this.#address(''));
      this.#inPose = new Set(list.items.filter(o => o.inPose).map(o => o.code));
      this.select.append(...list.items.map(o => make('option', { value: o.code, textContent: o.name })));
    } catch (error) {
      this.box.replaceChildren(make('p', { className: 'soft', textContent: error.message }));
    }
  }

  #address(code) {
    const address = new URL(this.told.overlays + (code ? `/${code}` : ''), location.href);
    if (this.told.process) address.searchParams.set('process', this.told.process);
    if (code) address.searchParams.set('level', this.closeUp.level);
    if (code && this.closeUp.isLaid) address.searchParams.set('rotation', this.told.rotation.join(','));
    return address;
  }

  async #choose() {
    this.stopped?.abort();
    const { signal } = this.stopped = new AbortController();
    const code = this.select.value;
    this.#clear();
    if (!code) {
      this.legend.replaceChildren();
      return;
    }

    this.legend.replaceChildren(make('p', { textContent: t('Being worked out …') }));
    try {
      const overlay = await ask(this.#address(code), signal, () => {});
      if (signal.aborted) return;
      this.#shown = overlay;
      this.stage.mark(this.closeUp.surface, bytesOf(overlay.triangles));
      this.#mark(overlay);
      this.#tell(overlay);
    } catch (error) {
      if (signal.aborted) return;
      this.legend.replaceChildren(make('p', { textContent: error.message }));
    }
  }

  #clear() {
    if (this.closeUp.surface) this.stage.mark(this.closeUp.surface, null);
    for (const id of this.#labels) this.stage.label(id, null);
    this.#labels = [];
    this.#shown = null;
  }

  #mark(overlay) {
    for (const id of this.#labels) this.stage.label(id, null);
    this.#labels = overlay.places.map((place, i) => {
      const id = `place-${i}`;
      this.stage.label(id, this.closeUp.placed(place.at), this.#number(place, i), 'look-mark-place');
      return id;
    });
  }

  #number(place, i) {
    return place.diameterMm ? `Ø ${this.#length(place.diameterMm)}` : String.fromCharCode(65 + i % 26);
  }

  #tell(overlay) {
    const rows = overlay.kinds.map(kind => make('li', {}, swatch(kind.number),
      make('span', {}, make('strong', { textContent: `${kind.number} ` }), `${this.#kind(kind)}: ${this.#area(kind.areaMm2)}`)));
    const places = overlay.places.map((place, i) => {
      const button = make('button', { type: 'button', className: 'button button-plain', textContent: `${this.#number(place, i)}: ${place.words}` });
      button.addEventListener('click', () => {
        this.closeUp.goTo(place.at);
        this.say(place.words);
      });
      return make('li', {}, button);
    });
    this.legend.replaceChildren(
      make('p', { textContent: overlay.about }),
      make('ul', { className: 'look-kinds' }, ...rows),
      ...(places.length ? [make('ul', { className: 'look-places' }, ...places)] : []));
    this.say(`${overlay.name}: ${overlay.kinds.map(k => `${this.#kind(k)}, ${this.#area(k.areaMm2)}`).join('; ')}.`);
  }

  /** What a kind stands for, with its ends. */
  #kind({ words, from, to, unit }) {
    const say = value => unit === 'mm' ? this.#length(value) : unit === '°' ? `${number(value, 1)}°` : `${number(value, 1)}\u00a0${unit}`;
    if (from == null && to == null) return words;
    if (from == null) return t('{0}, under {1}', words, say(to));
    return to == null ? t('{0}, {1} and more', words, say(from)) : t('{0}, {1} to {2}', words, say(from), say(to));
  }

  #area(mm2) {
    if (!(mm2 > 0)) return t('none');
    return mm2 < 100 ? `${number(mm2, 1)} mm²` : `${number(mm2 / 100, 1)} cm²`;
  }

  #length(mm) {
    return lengthWords(mm, this.told.inches);
  }
}
