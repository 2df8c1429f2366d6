// A picture: drawn by the module for the width it gets, redrawn when that changes, with its numbers as a table below.
import { drawing, el, fill } from './dom.js';
import { style } from './numbers.js';
import { inView, watch } from './view.js';

/** @typedef {import('../furrow.js').Figure} Figure */

export class Picture {
  #asked = 0;
  #open = false;
  /** @type {Figure | null} */
  figure = null;
  /** What is asked of the module: name and options besides the width; null: there is nothing to draw. @type {() => {name: string, options: Record<string, unknown>} | null} */
  what = () => null;
  /** The caption, before the link to the numbers. @type {(figure: Figure) => (Node | string)[]} */
  caption = (f) => [f.caption];
  /** Called with the drawing in place. @type {(svg: SVGSVGElement) => void} */
  ondraw = () => {};

  /** What was drawn last, so that nothing is drawn twice. */
  #drawn = '';
  /** Whether it was out of view when it should have been drawn. */
  #late = false;

  /**
   * @param {string | HTMLElement} place figure element or its id
   * @param {string} numbers id of the link to the numbers, '' for a picture whose numbers stand beside it
   * @param {{at: import('./parts.js').Parts, client: import('./client.js').Client, revision: number, moving?: boolean, ask?: (name: string, ...args: unknown[]) => Promise<any>}} sheet
   */
  constructor(place, numbers, sheet) {
    this.sheet = sheet;
    this.root = typeof place === 'string' ? sheet.at.byId(place) : place;
    this.frame = el('div', { class: 'frame' });
    this.said = el('span');
    this.button = el('button', { type: 'button', class: 'quiet', id: numbers || undefined, 'aria-expanded': 'false', onclick: () => this.#toggle() }, 'The numbers of this picture');
    this.table = el('div', { class: 'numbers scroll', tabindex: 0, role: 'region', 'aria-label': 'Numbers of this picture', hidden: true });
    fill(this.root, this.frame, el('figcaption', {}, this.said, ' ', numbers && this.button), numbers && this.table);
    this.root.hidden = true;
    new ResizeObserver(() => this.#resized()).observe(this.frame);
    watch(this.root, () => this.#late && this.draw());
  }

  #resized() {
    const { width } = this.frame.getBoundingClientRect();
    if (width && Math.abs(width - (this.width ?? 0)) >= 1) this.draw();
  }

  #toggle() {
    this.#open = !this.#open;
    this.button.setAttribute('aria-expanded', String(this.#open));
    this.#numbers();
  }

  #numbers() {
    this.table.hidden = !this.#open;
    if (!this.#open || !this.figure) return;
    const { columns, rows } = this.figure.numbers;
    fill(this.table, el('table', {}, el('thead', {}, el('tr', {}, ...columns.map((c) => el('th', { scope: 'col' }, c)))),
      el('tbody', {}, ...rows.map((r) => el('tr', {}, ...r.map((c, i) => el(i ? 'td' : 'th', i ? {} : { scope: 'row' }, c)))))));
  }

  async draw() {
    const what = this.what();
    this.root.hidden = !what;
    if (!what) return;
    this.#late = !!this.sheet.moving && !inView(this.root);
    if (this.#late) return;
    await null; // everything is shown before it is measured
    const { width } = this.frame.getBoundingClientRect();
    if (!width) return; // folded; drawn when it is unfolded
    this.width = width;
    const { sheet } = this;
    const options = { width: Math.floor(width), id: this.root.id, comma: style.mark === ',', inch: style.inch, ...what.options };
    const key = JSON.stringify([sheet.revision, what.name, options]);
    if (key === this.#drawn) return;
    this.#drawn = key;
    const asked = ++this.#asked;
    let figure;
    try {
      figure = /** @type {Figure} */ (await (sheet.ask?.('figure', what.name, options) ?? sheet.client.call('figure', what.name, options)));
    } catch (error) {
      this.#drawn = '';
      if (asked === this.#asked) fill(this.frame, el('p', { class: 'hint' }, `This picture cannot be drawn: ${/** @type {Error} */ (error).message}.`));
      return;
    }
    if (asked !== this.#asked) return; // a later one is on its way
    this.figure = figure;
    const svg = drawing(figure.svg);
    fill(this.frame, svg);
    fill(this.said, ...this.caption(figure));
    this.#numbers();
    this.ondraw(svg);
  }
}
