// Small helpers for elements.

/** @typedef {Node | string | null | undefined | false} Child */

/**
 * An element with attributes and children; what is null or false is left out.
 * @type {<K extends keyof HTMLElementTagNameMap>(tag: K, attributes?: Record<string, string | number | boolean | null | undefined | ((event: any) => void)>, ...children: Child[]) => HTMLElementTagNameMap[K]}
 */
export function el(tag, attributes = {}, ...children) {
  const e = document.createElement(tag);
  for (const [name, value] of Object.entries(attributes)) {
    if (value === undefined || value === null || value === false) continue;
    if (typeof value === 'function') e.addEventListener(name.slice(2), value);
    else e.setAttribute(name, value === true ? '' : String(value));
  }
  e.append(...children.filter((c) => c !== null && c !== undefined && c !== false));
  return e;
}

/** @type {(e: Element, ...children: Child[]) => void} */
export function fill(e, ...children) {
  e.replaceChildren(...children.filter((c) => c !== null && c !== undefined && c !== false));
}

/** Options of a select, kept when they are the same; those with a third string stand in the group of that name. @type {(s: HTMLSelectElement, options: readonly (readonly string[])[], value: string) => void} */
export function fillSelect(s, options, value) {
  const key = JSON.stringify(options);
  if (s.dataset.options !== key) {
    s.dataset.options = key;
    const names = [...new Set(options.map(([, , group]) => group))];
    fill(s, ...names.flatMap((name) => {
      const list = options.filter(([, , group]) => group === name).map(([v, text]) => el('option', { value: v }, text));
      return name ? [el('optgroup', { label: name }, ...list)] : list;
    }));
  }
  s.value = value;
}

/** A symbol with its index: N, ic. @type {(letter: string, index: string) => HTMLElement} */
export const symbol = (letter, index) => el('var', {}, letter, el('sub', {}, index));

/** A source with what it rests on. @type {(source: string, basis: string) => HTMLElement} */
export const src = (source, basis) =>
  el('span', { class: 'src' }, el('cite', {}, source), basis && ' ', basis && el('span', { class: 'basis' }, basis));

/** A picture that the module drew, as an element. @type {(svg: string) => SVGSVGElement} */
export function drawing(svg) {
  const place = document.createElement('template');
  place.innerHTML = svg;
  const e = /** @type {SVGSVGElement} */ (place.content.firstElementChild);
  e.setAttribute('role', 'img');
  return e;
}

/** Makes an element into another one of the same name; what is the same in both stays, so that a browser need not lay it out again. @type {(e: Element, next: Element) => void} */
export function become(e, next) {
  for (const { name, value } of next.attributes) if (e.getAttribute(name) !== value) e.setAttribute(name, value);
  for (const name of e.getAttributeNames()) if (!next.hasAttribute(name)) e.removeAttribute(name);
  const there = [...e.childNodes];
  const wanted = [...next.childNodes];
  for (const [i, n] of wanted.entries()) {
    const old = there[i];
    if (!old) e.append(n);
    else if (old instanceof Element && n instanceof Element && old.tagName === n.tagName) become(old, n);
    else if (!old.isEqualNode(n)) old.replaceWith(n);
  }
  for (const old of there.slice(wanted.length)) old.remove();
}

/** The parts of a step that its renderer fills. */
export class Step {
  /**
   * @param {import('./parts.js').Parts} at
   * @param {string} id
   */
  constructor(at, id) {
    this.root = at.byId(id);
    const [goes, chosen, because] = this.root.querySelectorAll(':scope > .body > .work > .why dd');
    this.goes = goes;
    this.chosen = chosen;
    this.because = because;
    this.gist = /** @type {Element} */ (this.root.querySelector('summary .gist'));
    this.list = /** @type {Element} */ (this.root.querySelector('.out dl'));
    this.note = /** @type {HTMLElement} */ (this.root.querySelector('.out .note'));
  }

  /** @type {(goes: Child | Child[], chosen: Child | Child[], because: Child | Child[]) => void} */
  why(goes, chosen, because) {
    fill(this.goes, ...[goes].flat());
    fill(this.chosen, ...[chosen].flat());
    fill(this.because, ...[because].flat());
  }

  /** What comes out, label and figure. @type {(rows: [Child, Child][], note?: Child) => void} */
  out(rows, note) {
    fill(this.list, ...rows.map(([label, figure]) => el('div', {}, el('dt', {}, label), el('dd', {}, figure))));
    fill(this.note, note);
    this.note.hidden = !note;
  }
}
