// Worked lines: the calculation with the printed figures, to one digit more than is sure. Where what is printed does not come out as
// printed, the line says ≈; no digits are added to make it agree.
import { decimalsFor, style } from './numbers.js';

/** How many digits a worked line prints: one more than is sure, four where that is not known. @type {(sure: number | null | undefined) => number} */
export const workedDigits = (sure) => (sure === null || sure === undefined ? 4 : Math.max(1, Math.min(4, sure + 1)));

/** The line as text, in the reader's style: the expression, where it is a sum that as well, and the result behind its sign. @type {(line: import('../furrow.js').WorkedLine, digits?: number) => {parts: string[], sign: string, result: string}} */
export function lineOf(line, digits = 4) {
  const { parts, sign, result } = line.printed[digits - 1];
  const own = (/** @type {string} */ text) => text.replaceAll('.', style.mark);
  return { parts: parts.map(own), sign, result: own(result) };
}

/**
 * How many decimals sections are printed with, the sum of the printed heights, and whether its mean is the printed result.
 * @type {(heights: number[], result: number, digits?: number) => {decimals: number, sum: number, agrees: boolean}}
 */
export function sections(heights, result, digits = 4) {
  const decimals = decimalsFor(result, digits);
  const sum = Number(heights.reduce((s, h) => s + Number(h.toFixed(decimals)), 0).toFixed(decimals));
  return { decimals, sum, agrees: (sum / heights.length).toFixed(decimals) === result.toFixed(decimals) };
}
