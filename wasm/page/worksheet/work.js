// How a value came about: sentence, formula, picture, the steps to go through, the arithmetic, what it does not see.
import { el, fill, src } from '../shared/dom.js';
import { lineOf, sections, workedDigits } from '../shared/arithmetic.js';
import { counted, figure, fixed, number, place, style, unitName, withUnit } from '../shared/numbers.js';
import { base, shown } from './state.js';
import { Picture } from '../shared/picture.js';

/** @typedef {import('./sheet.js').Sheet} Sheet */
/** @typedef {import('../furrow.js').Construction} Construction */
/** @typedef {import('../furrow.js').Entry} Entry */
/** @typedef {import('../furrow.js').Parameter} Parameter */

/** The start of the ids of a symbol: rz, rmr-0-5. @type {(symbol: string) => string} */
export const idOf = (symbol) => symbol.toLowerCase().replace(/[^a-z0-9]+/g, '-').replace(/-$/, '');

/** Text of the module in the reader's style. @type {(text: string) => string} */
export const prose = (text) => text.replace(/(^|[\s(])-(?=\d)/g, '$1\u2212').replace(/(\d)\.(?=\d)/g, `$1${style.mark}`).replace(/(\d) (µm|mm|%)/g, '$1\u00a0$2');

export class Work {
  #asked = 0;
  /** @type {Construction | null} */
  #construction = null;
  /** The digits that are sure, null while that is not known. @type {number | null} */
  #sure = null;

  /**
   * @param {Sheet} sheet
   * @param {string} symbol
   * @param {Entry | undefined} entry
   * @param {Parameter | undefined} parameter
   */
  constructor(sheet, symbol, entry, parameter) {
    this.sheet = sheet;
    this.symbol = symbol;
    this.id = idOf(symbol);
    this.stepper = el('div', { class: 'stepper', role: 'group', 'aria-label': `Steps of ${symbol}`, hidden: true });
    this.table = el('div', { class: 'scroll', hidden: true });
    this.worked = el('p', { class: 'worked', id: `${this.id}-worked`, hidden: true });
    const place = el('figure', { id: `${this.id}-picture` });
    this.steady = el('dd');
    this.cell = el('td', { colspan: 5 },
      parameter && el('p', { class: 'say' }, prose(parameter.sentence)), formula(symbol, parameter), letters(parameter), place, this.stepper, this.table, this.worked,
      el('p', { class: 'acts' }, el('a', { id: `${this.id}-study`, href: `study.html#symbol=${encodeURIComponent(symbol)}` }, 'Study this symbol')),
      el('dl', { class: 'facts' },
        parameter?.blind && el('div', {}, el('dt', {}, `What ${base(symbol)} does not show`), el('dd', {}, parameter.blind)),
        parameter?.practice && el('div', {}, el('dt', {}, 'Common practice'), el('dd', {}, parameter.practice)),
        el('div', {}, el('dt', {}, 'How steady'), this.steady),
        entry && el('div', {}, el('dt', {}, 'Evaluated over'), el('dd', {}, entry.over)),
        entry && el('div', {}, el('dt', {}, 'Source'), el('dd', {}, src(entry.source, entry.basis)))));
    this.picture = new Picture(place, `${this.id}-numbers`, sheet);
    this.picture.what = () => (this.#construction?.steps.length ? { name: 'construction', options: { symbol, picked: this.picked + 1 } } : null);
    this.previous = el('button', { type: 'button', id: 'mark-previous', onclick: () => this.#go(-1) }, 'Previous');
    this.next = el('button', { type: 'button', id: 'mark-next', onclick: () => this.#go(1) }, 'Next');
    for (const b of [this.previous, this.next]) {
      b.addEventListener('keydown', (event) => {
        const way = event.key === 'ArrowLeft' ? -1 : event.key === 'ArrowRight' ? 1 : 0;
        if (!way) return;
        event.preventDefault();
        this.#go(way);
      });
    }
    this.at = el('span', { role: 'status' });
    fill(this.stepper, this.previous, this.at, this.next);
  }

  /** The picked step, from 0; at first the one that adds most. */
  get picked() {
    const steps = this.#construction?.steps ?? [];
    return Math.min(this.sheet.picked, Math.max(0, steps.length - 1));
  }

  /** @param {number} way */
  #go(way) {
    const n = this.#construction?.steps.length ?? 0;
    if (!n) return;
    this.sheet.picked = (this.picked + way + n) % n;
    this.#show();
    this.picture.draw();
  }

  /** Asks for the construction on the trace as it is now. */
  async update() {
    const { evaluation } = this.sheet;
    const value = this.sheet.value(this.symbol);
    if (!evaluation || evaluation.problem || !value || value.value === null) {
      this.#construction = null;
      this.#show();
      this.picture.draw();
      return;
    }
    const asked = ++this.#asked;
    let construction = null;
    try {
      construction = /** @type {Construction} */ (await this.sheet.ask('construct', this.symbol));
    } catch {
      // There is none for this parameter; sentence, formula and source stand all the same.
    }
    if (asked !== this.#asked) return;
    this.#construction = construction;
    this.#sure = null;
    this.#show();
    this.picture.draw();
    if (asked !== this.#asked) return;
    this.#steadiness(asked);
  }

  // How far the value moves, worked beside everything else.
  /** @param {number} asked */
  async #steadiness(asked) {
    const { sheet } = this;
    const { trace } = sheet;
    if (!trace || trace.profile.z.length > longest) return fill(this.steady, 'not calculated, because the trace is long and this takes about thirty evaluations');
    fill(this.steady, el('span', { class: 'wait' }, 'being calculated'));
    try {
      const s = await sheet.client.beside(() => asked === this.#asked && this.cell.isConnected, 'steady', trace.profile, sheet.compose(), this.symbol);
      if (!s || asked !== this.#asked) return;
      fill(this.steady, ...steadily(s, sheet.value(this.symbol)));
      this.#sure = s.digits;
      this.#show();
    } catch (error) {
      if (asked === this.#asked) fill(this.steady, `not known: ${/** @type {Error} */ (error).message}`);
    }
  }

  #show() {
    const c = this.#construction;
    const steps = c?.steps ?? [];
    this.stepper.hidden = steps.length < 2;
    this.table.hidden = true;
    this.worked.hidden = !c?.worked.length;
    if (!c) return;
    if (steps.length) fill(this.at, ...said(steps[this.picked], this.picked, steps.length));
    const bySection = steps.length > 1 && steps.every((s, i) => s.section === i + 1);
    if (bySection && steps.length <= 12) this.#arithmetic(c);
    else this.#lines(c);
  }

  /** @param {Construction} c */
  #lines(c) {
    fill(this.worked, ...c.worked.flatMap((line, i) => [i > 0 && el('br'), ...workedLine(line, workedDigits(this.#sure))]));
  }

  // The table of the sections, and the line that makes one value of them.
  /** @param {Construction} c */
  #arithmetic(c) {
    const result = c.result ?? 0;
    const extreme = (/** @type {string} */ kind) => c.steps.map((s) => s.marks.find((m) => m.kind === kind)?.points[0][1]);
    const peaks = extreme('peak');
    const pits = extreme('pit');
    const both = peaks.every((p) => p !== undefined) && pits.every((p) => p !== undefined);
    const mean = c.steps.reduce((sum, s) => sum + (s.value ?? 0), 0) / c.steps.length;
    const heights = c.steps.every((s, i) => both && Math.abs((s.value ?? 0) - (/** @type {number} */ (peaks[i]) - /** @type {number} */ (pits[i]))) < 1e-9 * Math.abs(s.value ?? 1));
    if (!heights || Math.abs(mean - result) > 1e-9 * Math.abs(result)) {
      this.#plainTable(c);
      this.#lines(c);
      return;
    }
    const letter = this.symbol[0];
    const own = (/** @type {number} */ v) => counted(v, c.unit).value;
    const high = /** @type {number[]} */ (peaks).map(own);
    const deep = /** @type {number[]} */ (pits).map((v) => own(-v));
    const { decimals, sum, agrees } = sections(high.map((p, i) => p + deep[i]), own(result), workedDigits(this.#sure));
    const show = (/** @type {number} */ v) => fixed(v, decimals);
    const all = high.map((p, i) => show(p + deep[i]));
    this.#table([
      [['highest peak ', el('var', {}, `${letter}p`, el('sub', {}, 'k'))], high.map(show)],
      [['lowest pit ', el('var', {}, `${letter}v`, el('sub', {}, 'k'))], deep.map(show)],
      [['height'], all],
    ]);
    const n = all.length;
    fill(this.worked, el('var', {}, this.symbol), ` = (${all.slice(0, -1).join(' + ')} + `, el('span', { class: 'nb' }, `${all[n - 1]}) / ${n}`), ' ',
      el('span', { class: 'nb' }, `= ${show(sum)} / ${n}`), ' ', el('span', { class: 'nb' }, agrees ? '= ' : '≈ ', el('b', {}, withUnit(show(own(result)), unitName(c.unit)))));
  }

  /** @param {Construction} c */
  #plainTable(c) {
    this.#table([[['value'], c.steps.map((s) => (s.value === null ? '–' : number(s.value, c.unit, workedDigits(this.#sure))))]]);
  }

  /** @param {[import('../shared/dom.js').Child[], string[]][]} rows */
  #table(rows) {
    this.table.hidden = false;
    const cur = (/** @type {number} */ i) => (i === this.picked ? 'num cur' : 'num');
    const unit = this.#construction && unitName(this.#construction.unit);
    fill(this.table, el('table', { class: 'arith', id: `${this.id}-arithmetic` }, el('caption', {}, unit ? `Calculated, in ${unit}` : 'Calculated'),
      el('thead', {}, el('tr', {}, el('th', { scope: 'col' }, 'section'), ...rows[0][1].map((_, i) => el('th', { scope: 'col', class: cur(i) }, String(i + 1))))),
      el('tbody', {}, ...rows.map(([label, cells], r) => el('tr', r === rows.length - 1 ? { class: 'total' } : {}, el('th', { scope: 'row' }, ...label), ...cells.map((v, i) => el('td', { class: cur(i) }, v)))))));
  }
}

export const longest = 50000; // points, beyond which steadiness is not tried

/** @type {(s: import('../furrow.js').Steadiness, v: import('../furrow.js').Value | undefined) => import('../shared/dom.js').Child[]} */
export function steadily(s, v) {
  if (s.digits === null || s.low === null || s.high === null || !v || v.value === null) return ['The trace has no room to move the sections, so nothing can be said about steadiness.'];
  const digits = Math.max(3, s.digits + 1);
  const there = s.trials.filter((t) => t.value !== null);
  const list = (/** @type {typeof there} */ some) => some.map((t) => `${prose(t.text)} ${number(/** @type {number} */ (t.value), v.unit, digits)}`).join('; ');
  const counted = there.filter((t) => t.counts);
  const filters = there.filter((t) => !t.counts);
  return [`Moved along the trace, the sections give ${number(s.low, v.unit, digits)} to ${shown({ value: s.high, unit: v.unit }, digits)} (${s.places} places). Other conditions: ${list(counted)}. `,
    `With these, ${words[s.digits]} sure.`, filters.length > 0 && ` With another filter, which is another value: ${list(filters)}.`, ' This says nothing about the instrument.'];
}

const words = ['no digit is', 'one digit is', 'two digits are', 'three digits are', 'four digits are'];

/** A worked line. @type {(line: Construction['worked'][number], digits?: number) => import('../shared/dom.js').Child[]} */
export function workedLine(line, digits) {
  const { parts, sign, result } = lineOf(line, digits);
  const other = counted(line.result, line.unit);
  const also = other.unit === line.unit || other.value === null ? '' : ` = ${withUnit(figure(other.value, digits), unitName(line.unit))}`;
  return [el('var', {}, line.symbol), ' ', ...parts.flatMap((p, i) => [i ? el('span', { class: 'nb' }, `= ${p}`) : `= ${p}`, ' ']), el('span', { class: 'nb' }, `${sign} `, el('b', {}, withUnit(result, line.unit)), also)];
}

// "section 3 of 5: peak 1.31 at 2.502 mm, pit 1.98 at 2.459 mm"
/** @type {(step: Construction['steps'][number], i: number, n: number) => import('../shared/dom.js').Child[]} */
export function said(step, i, n) {
  const peak = step.marks.find((m) => m.kind === 'peak')?.points[0];
  const pit = step.marks.find((m) => m.kind === 'pit')?.points[0];
  if (step.section > 0 && peak && pit) {
    return [el('b', {}, `section ${step.section} of ${n}`), `: peak ${number(peak[1], 'µm')} at ${place(peak[0])}, pit ${number(-pit[1], 'µm')} at ${place(pit[0])}`];
  }
  const text = prose(step.text);
  return [el('b', {}, `${i + 1} of ${n}`), ': ', text];
}

/** What the letters of the formula mean. @type {(parameter: Parameter | undefined) => HTMLElement | null} */
function letters(parameter) {
  if (!parameter?.letters.length) return null;
  return el('details', {}, el('summary', {}, 'Letters of the formula'), el('dl', {}, ...parameter.letters.map((l) => el('div', {}, el('dt', {}, l.shown), el('dd', {}, l.meaning)))));
}

/** The formula for the eye, and a sentence for those who listen. @type {(symbol: string, parameter: Parameter | undefined) => HTMLElement | null} */
function formula(symbol, parameter) {
  const math = parameter && mathOf(symbol, parameter.equation);
  math?.setAttribute('aria-hidden', 'true');
  return math ? el('p', { class: 'formula', id: `${idOf(symbol)}-formula` }, math, el('span', { class: 'vh' }, parameter?.equation.spoken)) : null;
}

/** An equation in MathML; null without one. @type {(symbol: string, equation: import('../furrow.js').Equation) => Element | null} */
export function mathOf(symbol, equation) {
  const math = new DOMParser().parseFromString(equation.mathml, 'text/html').querySelector('math');
  // Symbols of another profile have its letter.
  for (const e of math?.querySelectorAll('[data-symbol^=R]') ?? []) if (/^[WP]/.test(symbol)) e.textContent = symbol[0] + (e.textContent ?? '').slice(1);
  return math && document.importNode(math, true);
}
