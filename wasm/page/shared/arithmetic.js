// Worked lines: the calculation with the printed figures, to one digit more than is sure. Where what is printed does not come out as
// printed, the line says ≈; no digits are added to make it agree.
import { decimalsFor, fixed, style } from './numbers.js';

/** @typedef {import('../furrow.js').Construction} Construction */

/**
 * Works an expression of numbers, + - · / and brackets.
 * @type {(text: string) => number}
 */
export function work(text) {
  const tokens = text.match(/\d+(?:\.\d+)?(?:e[-+]?\d+)?|[-+·*/()√]/g) ?? [];
  let i = 0;
  /** @type {() => number} */
  const atom = () => {
    const t = tokens[i++];
    if (t === '-') return -atom();
    if (t === '√') return Math.sqrt(atom());
    if (t !== '(') return Number(t);
    const v = sum();
    i++;
    return v;
  };
  /** @type {() => number} */
  const product = () => {
    let v = atom();
    while (tokens[i] === '·' || tokens[i] === '*' || tokens[i] === '/') v = tokens[i++] === '/' ? v / atom() : v * atom();
    return v;
  };
  /** @type {() => number} */
  const sum = () => {
    let v = product();
    while (tokens[i] === '+' || tokens[i] === '-') v = tokens[i++] === '-' ? v - product() : v + product();
    return v;
  };
  return sum();
}

/** @type {(form: string, terms: readonly (number | string)[]) => string} */
const put = (form, terms) => form.replace(/\{(\d+)\}/g, (_, n) => String(terms[Number(n) - 1]));

/** Whether a form can be worked: it leaves no terms out, and uses no function that is not worked here. @type {(form: string) => boolean} */
const workable = (form) => !/…|\.\.\.|[a-zA-Z²³^]/.test(form);

/** @type {(form: string) => boolean} */
const onlyAdds = (form) => !/[·*]|\}\s*\/|\/\s*\(?\{|\/\s*\(/.test(form);

/** How many digits a worked line prints: one more than is sure, four where that is not known. @type {(sure: number | null | undefined) => number} */
export const workedDigits = (sure) => (sure === null || sure === undefined ? 4 : Math.max(1, Math.min(4, sure + 1)));

/**
 * The printed terms and result of a line, and whether the printed terms give the printed result.
 * @type {(line: Construction['worked'][number], digits?: number) => {terms: string[], result: string, decimals: number, agrees: boolean}}
 */
export function printed(line, digits = 4) {
  const { form, terms } = line;
  const result = line.result ?? NaN;
  const decimals = decimalsFor(result, digits);
  const alike = onlyAdds(form);
  const raw = terms.map((t) => (Number.isInteger(t) && Math.abs(t) >= 1 ? String(t) : t.toFixed(alike ? decimals : decimalsFor(t, digits))));
  const agrees = !workable(form) || work(put(form, raw)).toFixed(decimals) === result.toFixed(decimals);
  return { terms: raw.map((r) => dress(r)), result: fixed(result, decimals), decimals, agrees };
}

/** @type {(raw: string) => string} */
const dress = (raw) => fixed(Number(raw), (raw.split('.')[1] ?? '').length);

/** The line as text: the expression, where it is a mean the sum as well, and the result behind its sign. @type {(line: Construction['worked'][number], digits?: number) => {parts: string[], sign: string, result: string}} */
export function lineOf(line, digits) {
  const { terms, result, agrees } = printed(line, digits);
  const form = line.form.replace(/ \/ 1$/, '');
  // A negative term that is taken away stands in brackets.
  const shown = tidy(put(form, terms));
  const mean = form.match(/^\((\{\d+\}(?: \+ \{\d+\})+)\) \/ (\d+)$/);
  const parts = [shown];
  if (mean) {
    const decimals = Math.max(0, ...terms.map((t) => (t.split(style.mark)[1] ?? '').length));
    const sum = terms.reduce((s, t) => s + Number(t.replace('\u2212', '-').replace(/\u202f/g, '').replace(style.mark, '.')), 0);
    parts.push(`${fixed(sum, decimals)} / ${mean[2]}`);
  }
  return { parts, sign: agrees ? '=' : '≈', result };
}

/** @type {(text: string) => string} */
const tidy = (text) => text.replace(/ - /g, ' − ').replace(/ · /g, ' × ').replace(/\((\u2212[^()]*)\)/g, '($1)').replace(/(− )\(([^()\u2212][^() ]*)\)$/, '$1$2');

/**
 * How many decimals sections are printed with, the sum of the printed heights, and whether its mean is the printed result.
 * @type {(heights: number[], result: number, digits?: number) => {decimals: number, sum: number, agrees: boolean}}
 */
export function sections(heights, result, digits = 4) {
  const decimals = decimalsFor(result, digits);
  const sum = Number(heights.reduce((s, h) => s + Number(h.toFixed(decimals)), 0).toFixed(decimals));
  return { decimals, sum, agrees: (sum / heights.length).toFixed(decimals) === result.toFixed(decimals) };
}
