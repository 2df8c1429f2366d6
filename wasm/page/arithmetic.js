// Worked lines: the calculation with the printed figures. What is printed comes out as printed, or one more digit is shown.
import { decimalsFor, fixed, style } from './numbers.js';

/** @typedef {import('./furrow.js').Construction} Construction */

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

/**
 * The printed terms and result of a line, with as many digits as it takes for them to agree.
 * @type {(line: Construction['worked'][number], digits?: number) => {terms: string[], result: string, decimals: number}}
 */
export function printed(line, digits = 4) {
  const { form, terms } = line;
  const result = line.result ?? NaN;
  const alike = onlyAdds(form);
  for (let extra = 0; ; extra++) {
    const decimals = decimalsFor(result, digits + extra);
    const raw = terms.map((t) => (Number.isInteger(t) && Math.abs(t) >= 1 ? String(t) : t.toFixed(alike ? decimals : decimalsFor(t, digits + extra))));
    if (extra === 3 || !workable(form) || work(put(form, raw)).toFixed(decimals) === result.toFixed(decimals)) {
      return { terms: raw.map((r) => dress(r)), result: fixed(result, decimals), decimals };
    }
  }
}

/** @type {(raw: string) => string} */
const dress = (raw) => fixed(Number(raw), (raw.split('.')[1] ?? '').length);

/** The line as text: the expression, where it is a mean the sum as well, and the result. @type {(line: Construction['worked'][number]) => {parts: string[], result: string}} */
export function lineOf(line) {
  const { terms, result } = printed(line);
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
  return { parts, result };
}

/** @type {(text: string) => string} */
const tidy = (text) => text.replace(/ - /g, ' − ').replace(/ · /g, ' × ').replace(/\((\u2212[^()]*)\)/g, '($1)').replace(/(− )\(([^()\u2212][^() ]*)\)$/, '$1$2');

/**
 * How many decimals sections are printed with: so many that the mean of the printed heights is the printed result. Peaks
 * and pits take one more, so that each printed height is their sum, rounded.
 * @type {(peaks: number[], pits: number[], result: number, digits?: number) => {decimals: number, sum: number}}
 */
export function sections(peaks, pits, result, digits = 4) {
  for (let extra = 0; ; extra++) {
    const decimals = decimalsFor(result, digits + extra);
    const heights = peaks.map((p, i) => Number((p + pits[i]).toFixed(decimals)));
    const sum = Number(heights.reduce((s, h) => s + h, 0).toFixed(decimals));
    const finer = (/** @type {number} */ v) => Number(v.toFixed(decimals + 1));
    const whole = heights.every((h, i) => (finer(finer(peaks[i]) + finer(pits[i])) + 1e-12).toFixed(decimals) === h.toFixed(decimals));
    if (extra === 3 || (whole && (sum / heights.length).toFixed(decimals) === result.toFixed(decimals))) return { decimals, sum };
  }
}
