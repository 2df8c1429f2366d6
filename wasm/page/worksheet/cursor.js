// The mark in the picture of the profile: moved by keys or a pointer, told in words, and two of them make a part.
import { aloud, height, place } from '../shared/numbers.js';

/** What moves the mark. */
const keys = ['ArrowLeft', 'ArrowRight', 'Home', 'End', 'PageDown', 'PageUp', '+', '-', '0', 'Enter', 'Escape'];

const svgNS = 'http://www.w3.org/2000/svg';

/** The heights of the profile that is evaluated, asked for when they are needed first; null where another evaluation came meanwhile. @type {(sheet: import('./sheet.js').Sheet) => Promise<Float64Array | null>} */
export async function heights(sheet) {
  const e = sheet.evaluation;
  if (!e || e.problem) return null;
  e.drawn ??= sheet.client.call('drawn').then((z) => (e === sheet.evaluation ? z : null), () => null);
  return e.drawn;
}

export class Cursor {
  /** @type {number | null} point of the drawn profile */
  #at = null;
  /** @type {number | null} point where a part to leave out starts */
  #from = null;
  /** @type {SVGSVGElement | null} */
  #svg = null;

  /**
   * @param {import('../shared/picture.js').Picture} picture
   * @param {import('./sheet.js').Sheet} sheet
   * @param {{view: (from: number, to: number) => void, seen: () => number[], length: () => number, leaveOut: (from: number, to: number) => void}} acts
   */
  constructor(picture, sheet, acts) {
    this.picture = picture;
    this.sheet = sheet;
    this.acts = acts;
    const { frame } = picture;
    frame.tabIndex = 0;
    frame.setAttribute('role', 'group');
    frame.setAttribute('aria-label', 'Profile. Left and right move a mark along it.');
    frame.addEventListener('keydown', (event) => this.#key(event));
    frame.addEventListener('click', (event) => this.#point(event));
  }

  /** Where the drawing has its points. @type {() => Promise<{z: Float64Array, dx: number, first: number} | null>} */
  async #profile() {
    const { evaluation } = this.sheet;
    const z = await heights(this.sheet);
    return evaluation && z && { z, dx: evaluation.result.profile.spacing, first: evaluation.first };
  }

  /** @param {SVGSVGElement} svg */
  place(svg) {
    this.#svg = svg;
    this.picture.frame.setAttribute('aria-label', `${this.picture.figure?.title}. Left and right move a mark along it.`);
    this.#show(false);
  }

  /** @param {KeyboardEvent} event */
  async #key(event) {
    if (!keys.includes(event.key) || event.ctrlKey || event.metaKey || event.altKey) return;
    event.preventDefault();
    const p = await this.#profile();
    if (!p) return;
    const [from, to] = this.acts.seen();
    const low = Math.max(0, Math.ceil(from / p.dx - p.first));
    const high = Math.min(p.z.length - 1, Math.floor(to / p.dx - p.first));
    const at = this.#at ?? Math.round((low + high) / 2);
    const { evaluation } = this.sheet;
    const pace = Math.max(1, Math.round((high - low) / 700)) * (event.shiftKey ? 10 : 1);
    /** @type {(n: number) => void} */
    const go = (n) => {
      this.#at = Math.min(high, Math.max(low, n));
      this.#show(true);
    };
    switch (event.key) {
      case 'ArrowLeft': go(at - pace); break;
      case 'ArrowRight': go(at + pace); break;
      case 'Home': go(low); break;
      case 'End': go(high); break;
      case 'PageDown': go(at + (evaluation?.sectionPoints ?? 0)); break;
      case 'PageUp': go(at - (evaluation?.sectionPoints ?? 0)); break;
      case '+': case '-': {
        const middle = (at + p.first) * p.dx;
        const half = ((to - from) / 2) * (event.key === '+' ? 0.5 : 2);
        this.acts.view(middle - half, middle + half);
        break;
      }
      case '0': this.acts.view(0, Infinity); break;
      case 'Enter':
        if (this.#from === null || this.#from === at) {
          this.#from = at;
          this.#at = at;
          this.#show(false);
          this.sheet.at.announce(`Start of a part to leave out: ${place((at + p.first) * p.dx)}. Enter again marks its end.`);
        } else {
          const ends = [this.#from, at].sort((a, b) => a - b).map((i) => (i + p.first) * p.dx);
          this.#from = null;
          this.acts.leaveOut(ends[0], ends[1]);
        }
        break;
      case 'Escape':
        this.#at = null;
        this.#from = null;
        this.#show(false);
        break;
    }
  }

  /** @param {MouseEvent} event */
  async #point(event) {
    const p = await this.#profile();
    const plot = this.picture.figure?.frames[0];
    if (!p || !plot || !this.#svg) return;
    const box = this.#svg.getBoundingClientRect();
    const x = ((event.clientX - box.left) * (this.picture.figure?.width ?? 1)) / box.width;
    const along = plot.xLow + ((x - plot.left) / (plot.right - plot.left)) * (plot.xHigh - plot.xLow);
    this.#at = Math.min(p.z.length - 1, Math.max(0, Math.round(along / p.dx - p.first)));
    this.#show(true);
  }

  /** @param {boolean} say */
  async #show(say) {
    this.#svg?.querySelector('.cursor')?.remove();
    if (this.#at === null) return;
    const p = await this.#profile();
    const svg = this.#svg;
    svg?.querySelector('.cursor')?.remove();
    const plot = this.picture.figure?.frames[0];
    if (!svg || !p || !plot || this.#at === null || this.#at >= p.z.length) return;
    const group = document.createElementNS(svgNS, 'g');
    group.setAttribute('class', 'cursor');
    const x = (this.#at + p.first) * p.dx;
    const z = p.z[this.#at];
    /** @type {(v: number) => number} */
    const px = (v) => plot.left + ((v - plot.xLow) / (plot.xHigh - plot.xLow)) * (plot.right - plot.left);
    /** @type {(v: number) => number} */
    const py = (v) => plot.bottom - ((v - plot.yLow) / (plot.yHigh - plot.yLow)) * (plot.bottom - plot.top);
    if (px(x) < plot.left - 1 || px(x) > plot.right + 1) return;
    /** @type {(name: string, attributes: Record<string, string | number>, text?: string) => void} */
    const add = (name, attributes, text) => {
      const e = document.createElementNS(svgNS, name);
      for (const [k, v] of Object.entries(attributes)) e.setAttribute(k, String(v));
      if (text) e.textContent = text;
      group.append(e);
    };
    if (this.#from !== null) {
      const [a, b] = [px((this.#from + p.first) * p.dx), px(x)].sort((m, n) => m - n);
      add('rect', { class: 'mark', x: a, y: plot.top, width: Math.max(1, b - a), height: plot.bottom - plot.top });
    }
    add('path', { class: 'acc', d: `M${px(x)} ${plot.top}V${plot.bottom}` });
    add('circle', { class: 'accf', cx: px(x), cy: py(z), r: 3.5 });
    const right = px(x) > (plot.left + plot.right) / 2;
    add('text', { class: 'tp', x: px(x) + (right ? -6 : 6), y: plot.top + 12, 'text-anchor': right ? 'end' : 'start' }, `${height(z)} at ${place(x)}`);
    svg.append(group);
    if (!say) return;
    const { evaluation } = this.sheet;
    const k = evaluation ? Math.floor((this.#at - evaluation.start) / evaluation.sectionPoints) + 1 : 0;
    const where = evaluation && k >= 1 && k <= evaluation.sections ? `section ${k}` : 'outside the sections';
    this.sheet.at.announce(`${aloud(place(x))}, ${aloud(height(z))}, ${where}.`);
  }
}
