// What the four parts of the sheet say in the same way.
import { el, fill } from '../shared/dom.js';
import { number, unitName, withUnit } from '../shared/numbers.js';

/** The symbols that the sheet speaks of first: those with a limit, then those asked for. @type {(sheet: import('../worksheet/sheet.js').Sheet) => string[]} */
export const leading = (sheet) => [...new Set([...sheet.limits.flatMap((l) => l.symbol ?? []), ...sheet.state.asked])].slice(0, 3);

/** A value with its unit, for results. @type {(v: number | null | undefined, unit: string, digits?: number) => string} */
export const said = (v, unit, digits = 4) => (v === null || v === undefined ? 'not defined' : withUnit(number(v, unit, digits), unitName(unit)));

/** A difference with its sign. @type {(v: number, unit: string, digits?: number) => string} */
export const signed = (v, unit, digits = 3) => (v > 0 ? '+' : '') + said(v, unit, digits);

/** Rows of a result. @type {(place: HTMLElement, rows: (readonly [import('../shared/dom.js').Child, import('../shared/dom.js').Child])[]) => void} */
export const results = (place, rows) => fill(place, ...rows.map(([name, value]) => el('div', {}, el('dt', {}, name), el('dd', {}, value))));

/** A note below a result; an empty one goes. @type {(place: HTMLElement, text: string) => void} */
export function note(place, text) {
  place.textContent = text;
  place.hidden = !text;
}
