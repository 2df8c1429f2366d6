// The parts of a sheet: what has an id is found under one root, so that a script works on any page that holds its parts. Fields for
// numbers are read on leaving or Enter, echoed as they were understood, and refused with a sentence under them.
import { el } from './dom.js';
import { counted, exactly, parse, plain, style } from './numbers.js';

export class Parts {
  #timer = 0;
  /** The unit of each field for a number. @type {Map<string, string>} */
  #units = new Map();
  /** Texts beside fields that name a unit, as they are written on the page. @type {Map<Text, string>} */
  #labels = new Map();
  #inch = false;
  #last = '';

  /** @param {ParentNode} root */
  constructor(root) {
    this.root = root;
  }

  /** @type {(id: string) => HTMLElement | null} */
  find(id) {
    return this.root.querySelector(`#${CSS.escape(id)}`);
  }

  /** A part that the page must have. @type {(id: string) => HTMLElement} */
  byId(id) {
    const e = this.find(id);
    if (!e) throw new Error(`no element #${id}`);
    return e;
  }

  /** @type {(id: string) => HTMLInputElement} */
  input(id) {
    return /** @type {HTMLInputElement} */ (this.byId(id));
  }

  /** @type {(id: string) => HTMLSelectElement} */
  select(id) {
    return /** @type {HTMLSelectElement} */ (this.byId(id));
  }

  /** Calls act when a button is pressed. @type {(id: string, act: () => void) => void} */
  press(id, act) {
    this.byId(id).addEventListener('click', () => act());
  }

  /** Says under a field what is wrong with it. @type {(id: string, message: string) => void} */
  refuse(id, message) {
    const field = this.byId(id);
    this.accept(id);
    field.setAttribute('aria-invalid', 'true');
    field.setAttribute('aria-errormessage', `${id}-fault`);
    (field.closest('.field, fieldset, .ask-wave') ?? field).append(el('p', { class: 'fault', id: `${id}-fault`, role: 'alert' }, message));
  }

  /** @type {(id: string) => void} */
  accept(id) {
    this.find(`${id}-fault`)?.remove();
    this.byId(id).removeAttribute('aria-invalid');
    this.byId(id).removeAttribute('aria-errormessage');
  }

  /**
   * A field for a number. unit is what stands behind it; scale turns the number into what the state holds.
   * @type {(id: string, options: {unit?: string, scale?: number, low?: number, high?: number, whole?: boolean, empty?: boolean}, use: (value: number | undefined, text: string) => void) => void}
   */
  numberField(id, { unit = '', scale = 1, low, high, whole = false, empty = false }, use) {
    const field = this.input(id);
    this.#units.set(id, unit);
    field.addEventListener('focus', () => field.select());
    field.addEventListener('change', () => {
      this.accept(id);
      if (empty && !field.value.trim()) return use(undefined, '');
      const { value: one, unit: theirs } = counted(1, unit);
      const read = parse(field.value, theirs);
      const refuse = (/** @type {string} */ why) => this.refuse(id, `${why} The earlier value stays in use.`);
      if ('fault' in read) return refuse(read.fault);
      const value = read.value / one;
      if (whole && !Number.isInteger(value)) return refuse('A whole number is needed.');
      if (low !== undefined && value < low) return refuse(`At least ${exactly(low, unit)} is needed.`);
      if (high !== undefined && value > high) return refuse(`At most ${exactly(high, unit)} is possible.`);
      field.value = plain(read.value);
      use(Number((value * scale).toPrecision(12)), field.value);
    });
  }

  /** Shows what a field stands at, unless someone is typing in it or it was refused. @type {(id: string, value: number | null | undefined) => void} */
  showNumber(id, value) {
    const field = this.input(id);
    if (field === document.activeElement && field.value !== field.dataset.shown) return;
    if (field.getAttribute('aria-invalid')) return;
    field.value = value === null || value === undefined ? '' : exactly(value, this.#units.get(id) ?? '', 5);
    field.dataset.shown = field.value;
  }

  /** Names the units beside the fields as the reader has them. */
  showUnits() {
    if (this.#inch === style.inch) return;
    this.#inch = style.inch;
    if (!this.#labels.size) {
      for (const e of this.root.querySelectorAll('label, .label, .unit')) for (const t of e.childNodes) if (t instanceof Text && length.test(t.data)) this.#labels.set(t, t.data);
    }
    for (const [t, own] of this.#labels) t.data = style.inch ? own.replace(length, (name) => inches[name]) : own;
  }

  /** @type {(name: string) => NodeListOf<HTMLInputElement>} */
  #group(name) {
    return this.root.querySelectorAll(`input[name="${CSS.escape(name)}"]`);
  }

  /** The radio of a group that is to be checked. @type {(name: string, value: string) => void} */
  showRadio(name, value) {
    for (const r of this.#group(name)) r.checked = r.value === value;
  }

  /** @type {(name: string, use: (value: string) => void) => void} */
  radios(name, use) {
    for (const r of this.#group(name)) r.addEventListener('change', () => r.checked && use(r.value));
  }

  /** Takes back what was said last, and what is still to be said: it no longer holds. */
  hush() {
    clearTimeout(this.#timer);
    this.#last = '';
    this.byId('announce').textContent = '';
  }

  /** Says a sentence to those who listen, once per settled change. @type {(sentence: string) => void} */
  announce(sentence) {
    clearTimeout(this.#timer);
    this.#timer = setTimeout(() => {
      if (sentence === this.#last) return;
      this.#last = sentence;
      this.byId('announce').textContent = sentence;
    }, 500);
  }
}

const inches = /** @type {Record<string, string>} */ ({ 'µm': 'µin', mm: 'in', micrometres: 'microinches', millimetres: 'inches' });
const length = /µm|\bmm\b|micrometres|millimetres/;
