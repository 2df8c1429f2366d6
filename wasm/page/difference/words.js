// What the four parts of the sheet say in the same way.
import { el, fill } from '../shared/dom.js';
import { number, unitName, withUnit } from '../shared/numbers.js';

/** The symbols that the sheet speaks of first: those with a limit, then those asked for. @type {(sheet: import('../worksheet/sheet.js').Sheet) => string[]} */
export const leading = (sheet) => [...new Set([...sheet.limits.flatMap((l) => l.symbol ?? []), ...sheet.state.asked])].slice(0, 3);

/** A value with its unit, for results. @type {(v: number | null | undefined, unit: string, digits?: number) => string} */
export const said = (v, unit, digits = 4) => (v === null || v === undefined ? 'not defined' : withUnit(number(v, unit, digits), unitName(unit)));

/** A difference with its sign. @type {(v: number, unit: string, digits?: number) => string} */
export const signed = (v, unit, digits = 3) => (v > 0 ? '+' : '') + said(v, unit, digits);

/** What a symbol stands for in an edition. @type {(sheet: import('../worksheet/sheet.js').Sheet, edition: string | undefined, symbol: string) => string} */
const meaning = (sheet, edition, symbol) => {
  const e = sheet.catalogue.editions.find((x) => x.id === edition);
  const key = e?.symbols[sheet.letter].find((x) => x.symbol === symbol)?.key;
  return (key && sheet.catalogue.parameters[key]?.name) || 'another parameter';
};

/** Why a difference is not shared out, '' where it can be: the shares follow one parameter, and the symbol may stand for something else on one
 * of the sides; then their ends are not the values shown.
 * @type {(sheet: import('../worksheet/sheet.js').Sheet, symbol: string, shares: {a: number | null, b: number | null}, sides: readonly {side: string, value: number | null | undefined, edition: string | undefined}[]) => string} */
export function unlike(sheet, symbol, shares, sides) {
  const ends = [shares.a, shares.b];
  const agree = sides.every(({ value }, i) => value === null || value === undefined || Math.abs((ends[i] ?? NaN) - value) <= 1e-9 * Math.abs(value));
  if (shares.a === null || agree) return '';
  return `${symbol} is not the same parameter on both sides: ${sides.map((s) => `${s.side} ${meaning(sheet, s.edition, symbol)}`).join(', ')}. The difference is not shared out.`;
}

/** Rows of a result. @type {(place: HTMLElement, rows: (readonly [import('../shared/dom.js').Child, import('../shared/dom.js').Child])[]) => void} */
export const results = (place, rows) => fill(place, ...rows.map(([name, value]) => el('div', {}, el('dt', {}, name), el('dd', {}, value))));

/** A note below a result; an empty one goes. @type {(place: HTMLElement, text: string) => void} */
export function note(place, text) {
  place.textContent = text;
  place.hidden = !text;
}
