// What can be dragged on a picture: each a slider of its own behind the picture in the order of focus, with the same keys as its typed field.

/** @typedef {import('./study.js').Study} Study */
/** @typedef {import('../furrow.js').StudyHandle} Handle */
/** @typedef {import('../furrow.js').StudyMove} StudyMove */

import { el } from '../shared/dom.js';

export class Handles {
  /** @type {Map<string, HTMLElement>} */
  #there = new Map();
  /** @type {readonly Handle[]} */
  #list = [];
  /** The handle that is dragged, and where. @type {{id: string, on: 'trace' | 'construction', x: number, y: number, value: number, across: number} | null} */
  #drag = null;
  /** The value at which the present move began. @type {{id: string, value: number} | null} */
  #began = null;

  /**
   * @param {Study} study
   * @param {{trace: HTMLElement, construction: HTMLElement}} places
   */
  constructor(study, places) {
    this.study = study;
    this.places = places;
  }

  /** Puts the handles of an answer where they are. @type {(a: StudyMove) => void} */
  place(a) {
    this.#list = a.handles;
    const now = new Set();
    for (const h of a.handles) {
      const key = `${h.on}-${h.id}`;
      now.add(key);
      const e = this.#there.get(key) ?? this.#make(h, key);
      const figure = h.on === 'trace' ? a.trace : a.construction;
      const frame = figure?.frames[0];
      e.setAttribute('aria-label', h.words);
      // Where values are hidden the ends would tell the heights: the place on the way between them stands for it.
      const { hidden } = this.study;
      const share = Math.round((100 * (h.value - h.low)) / (h.high - h.low || 1));
      for (const [name, value] of Object.entries({ valuemin: hidden ? 0 : h.low, valuemax: hidden ? 100 : h.high, valuenow: hidden ? share : h.value })) e.setAttribute(`aria-${name}`, String(value));
      e.setAttribute('aria-valuetext', hidden ? h.words : h.said);
      // A level is as wide as its plot; a point has its own place.
      const level = h.kind === 'level' && frame;
      e.style.left = `${level ? frame.left : h.x}px`;
      e.style.top = `${h.y}px`;
      e.style.width = level ? `${frame.right - frame.left}px` : '';
    }
    for (const [key, e] of this.#there) {
      if (now.has(key)) continue;
      e.remove();
      this.#there.delete(key);
    }
  }

  /** @type {(h: Handle, key: string) => HTMLElement} */
  #make(h, key) {
    const e = el('div', { class: `handle ${h.kind}`, id: `handle-${key}`, role: 'slider', tabindex: 0, 'aria-orientation': h.kind === 'along' ? 'horizontal' : 'vertical' });
    this.#there.set(key, e);
    this.places[h.on].append(e);
    const now = () => this.#list.find((x) => x.id === h.id && x.on === h.on);
    e.addEventListener('focus', () => (this.#began = { id: h.id, value: now()?.value ?? h.value }));
    e.addEventListener('keydown', (event) => {
      const x = now();
      if (x) this.#key(x, event);
    });
    e.addEventListener('pointerdown', (event) => {
      const x = now();
      if (!x || event.button) return;
      event.preventDefault();
      e.focus();
      e.setPointerCapture(event.pointerId);
      this.#drag = { id: h.id, on: h.on, x: event.clientX, y: event.clientY, value: x.value, across: x.acrossValue };
    });
    e.addEventListener('pointermove', (event) => this.#drag?.id === h.id && this.#to(event, true));
    const end = (/** @type {PointerEvent} */ event) => {
      if (this.#drag?.id === h.id) this.#to(event, false);
      this.#drag = null;
    };
    e.addEventListener('pointerup', end);
    e.addEventListener('pointercancel', end);
    return e;
  }

  // Where the pointer went, in the scale of the picture.
  /** @type {(event: PointerEvent, live: boolean) => void} */
  #to(event, live) {
    const drag = this.#drag;
    const { answer } = this.study;
    const frame = (drag?.on === 'trace' ? answer?.trace : answer?.construction)?.frames[0];
    const h = this.#list.find((x) => x.id === drag?.id && x.on === drag?.on);
    if (!drag || !frame || !h) return;
    const up = ((drag.y - event.clientY) / (frame.bottom - frame.top)) * (frame.yHigh - frame.yLow);
    const value = Math.min(h.high, Math.max(h.low, drag.value + up));
    const set = [{ id: h.id, value: Number(value.toPrecision(4)) }];
    if (h.kind === 'along') {
      const along = ((event.clientX - drag.x) / (frame.right - frame.left)) * (frame.xHigh - frame.xLow);
      return this.study.move([{ id: h.id, value: Number(Math.min(h.high, Math.max(h.low, drag.value + along * this.#scale(h))).toPrecision(6)) }], { live, field: h.id });
    }
    // Only scratches and specks go along the trace with the pointer.
    if (h.kind === 'part' && h.across) {
      const along = ((event.clientX - drag.x) / (frame.right - frame.left)) * (frame.xHigh - frame.xLow);
      set.push({ id: h.across, value: Number((drag.across + along / 1000).toPrecision(6)) });
    }
    this.study.move(set, { live, field: h.id });
  }

  /** Of a length along the trace in µm, in the unit of its field. @type {(h: Handle) => number} */
  #scale(h) {
    return this.study.answer?.moves.find((m) => m.id === h.id)?.unit === 'mm' ? 0.001 : 1;
  }

  /** @type {(h: Handle, event: KeyboardEvent) => void} */
  #key(h, event) {
    if (event.ctrlKey || event.metaKey || event.altKey) return;
    const times = event.shiftKey ? 10 : 1;
    const go = (/** @type {number | null} */ value) => value !== null && this.study.move([{ id: h.id, value: Number(Math.min(h.high, Math.max(h.low, value)).toPrecision(6)) }], { field: h.id });
    const along = (/** @type {number} */ way) => h.across && this.study.move([{ id: h.across, value: Number((h.acrossValue + way * h.acrossStep * times).toPrecision(9)) }], { field: h.across });
    /** @type {Record<string, () => unknown>} */
    const acts = {
      ArrowUp: () => go(h.value + h.step * times), ArrowDown: () => go(h.value - h.step * times), ArrowLeft: () => along(-1), ArrowRight: () => along(1),
      PageUp: () => go(h.up), PageDown: () => go(h.down), Home: () => go(h.high), End: () => go(h.low),
      Delete: () => h.kind === 'point' && this.study.change({ moved: this.study.state.moved?.slice(0, -1) }, h.id),
      Escape: () => this.#began?.id === h.id && go(this.#began.value),
    };
    // A length along the trace has no up and down; End leads to the place of the value.
    if (h.kind === 'along') Object.assign(acts, { ArrowLeft: () => go(h.value - h.acrossStep * times), ArrowRight: () => go(h.value + h.acrossStep * times), ArrowUp: undefined, ArrowDown: undefined, PageUp: undefined, PageDown: undefined, Home: () => go(h.low), End: () => go(h.up) });
    if (!acts[event.key]) return;
    event.preventDefault();
    event.stopPropagation();
    acts[event.key]();
  }
}
