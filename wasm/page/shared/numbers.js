// Numbers as people write and read them: both decimal marks are understood, the reader's own is shown. Values are
// rounded here for the eye and nowhere else.

const minus = '\u2212';
const thin = '\u202f'; // narrow no-break space: thousands, and between number and unit

/** How the reader has numbers: the decimal mark, and whether in µin and in; inches are the catalogue's. @type {{mark: string, inch: boolean, inches: import('../furrow.js').Catalogue['inches']}} */
export const style = { mark: '.', inch: false, inches: {} };

/** A value and its unit in what the reader counts in. @type {<V extends number | null>(value: V, unit: string) => {value: V, unit: string}} */
export function counted(value, unit) {
  const other = style.inch ? style.inches[unit] : undefined;
  return other ? { value: /** @type {typeof value} */ (value === null ? null : value * other.factor), unit: other.unit } : { value, unit };
}

/** The name of a unit as the reader has it. @type {(unit: string) => string} */
export function unitName(unit) {
  const { unit: name } = counted(null, unit);
  return name === '1/10 mm' ? 'per 10 mm' : name;
}

/** Without its unit, in what the reader counts in. @type {(v: number, unit: string, digits?: number) => string} */
export const number = (v, unit, digits = 3) => figure(counted(v, unit).value, digits);

/** Exact in the unit given, and to so many digits in the other. @type {(v: number, unit: string, digits?: number) => string} */
export function exactly(v, unit, digits = 4) {
  const { value, unit: theirs } = counted(v, unit);
  return plain(theirs === unit ? v : Number(value.toPrecision(digits)));
}

const words = /** @type {Record<string, string>} */ ({ 'µm': 'micrometres', mm: 'millimetres', 'µin': 'microinches', in: 'inches', '%': 'percent', '1/mm': 'per millimetre', '1/in': 'per inch', 'per 10 mm': 'per 10 millimetres' });

/** A number with its unit for those who listen. @type {(shown: string) => string} */
export const aloud = (shown) => shown.replace(/\u00a0(.*)$/, (_, unit) => ` ${words[unit] ?? unit}`);

/** @type {(digits: string) => string} */
const group = (digits) => (digits.length > 3 ? digits.replace(/\B(?=(\d{3})+$)/g, thin) : digits);

/** A plain decimal string in the reader's style. @type {(text: string) => string} */
function dress(text) {
  const [, sign, whole, , part] = /** @type {RegExpMatchArray} */ (text.match(/^(-?)(\d+)(\.(\d*))?$/));
  const nothing = !/[1-9]/.test(text);
  return (sign && !nothing ? minus : '') + group(whole) + (part ? style.mark + part : '');
}

/** How many decimals show v with so many significant digits; never fewer than none. @type {(v: number, digits: number) => number} */
export function decimalsFor(v, digits) {
  if (v === 0 || !Number.isFinite(v)) return digits - 1;
  const exponent = Number(Math.abs(v).toExponential(digits - 1).split('e')[1]);
  return Math.min(20, Math.max(0, digits - 1 - exponent));
}

/** With so many decimals. @type {(v: number, decimals: number) => string} */
export function fixed(v, decimals) {
  return Math.abs(v) < 1e15 ? dress(v.toFixed(decimals)) : scientific(v, 3);
}

/** With so many significant digits, three by default. @type {(v: number, digits?: number) => string} */
export function figure(v, digits = 3) {
  if (v !== 0 && (Math.abs(v) < 1e-6 || Math.abs(v) >= 1e9)) return scientific(v, digits);
  return fixed(v, decimalsFor(v, digits));
}

/** @type {(v: number, digits: number) => string} */
function scientific(v, digits) {
  const [mantissa, exponent] = v.toExponential(digits - 1).split('e');
  return `${mantissa.replace('-', minus).replace('.', style.mark)}${thin}×${thin}10^${exponent.replace('-', minus).replace('+', '')}`;
}

/** As it was given, without noise of the last bits. @type {(v: number) => string} */
export function plain(v) {
  const tidy = Number(v.toPrecision(12));
  return /e/.test(String(tidy)) ? figure(tidy, 6) : dress(String(tidy));
}

/** A count. @type {(n: number) => string} */
export const count = (n) => dress(String(Math.round(n)));

/** Number and unit, never parted. @type {(number: string, unit: string) => string} */
export const withUnit = (number, unit) => (unit ? number + '\u00a0' + unit : number);

/** A length given in µm, in mm. @type {(v: number) => string} */
export const mm = (v) => withUnit(exactly(v / 1000, 'mm'), unitName('mm'));

/** A place along the trace given in µm, in mm to the micrometre or in inches to the ten-thousandth. @type {(v: number) => string} */
export const place = (v) => withUnit(fixed(counted(v / 1000, 'mm').value, style.inch ? 4 : 3), unitName('mm'));

/** @type {(v: number) => string} */
export const um = (v) => withUnit(exactly(v, 'µm'), unitName('µm'));

/** A height given in µm. @type {(v: number | null, digits?: number) => string} */
export const height = (v, digits = 3) => (v === null ? 'none' : withUnit(number(v, 'µm', digits), unitName('µm')));

/** From the lowest to the highest. @type {(span: {low: number | null, high: number | null}) => string} */
export const range = ({ low, high }) => `${number(low ?? 0, 'µm')} to ${height(high ?? 0)}`;

const factors = /** @type {Record<string, number>} */ ({ nm: 1e-3, 'µm': 1, 'μm': 1, um: 1, mm: 1e3, cm: 1e4, m: 1e6, in: 25400, 'µin': 0.0254, uin: 0.0254 });

/**
 * Reads what was typed. The unit of the field is assumed unless another length unit is written.
 * @type {(text: string, unit?: string) => {value: number} | {fault: string}}
 */
export function parse(text, unit = '') {
  const found = text.normalize('NFC').replace(/[\s\u00a0\u202f\u2009']/g, '').replace(/[\u2212\u2013]/g, '-').match(/^([-+]?[\d.,]+(?:e[-+]?\d+)?)([a-zµμ]*)$/i);
  if (!found) return { fault: text.trim() ? `“${text.trim()}” is not a number.` : 'A number is missing.' };
  let [, digits, given] = found;
  const [mantissa, exponent] = digits.split(/e/i);
  const marks = mantissa.match(/[.,]/g) ?? [];
  const last = marks.at(-1);
  let whole = mantissa;
  let part = '';
  if (last && (marks.length === 1 || marks.filter((m) => m === last).length === 1)) {
    [whole, part] = [mantissa.slice(0, mantissa.lastIndexOf(last)), mantissa.slice(mantissa.lastIndexOf(last) + 1)];
  }
  if (/[.,]/.test(whole) && !/^[-+]?\d{1,3}([.,])\d{3}(?:\1\d{3})*$/.test(whole)) {
    return { fault: `“${text.trim()}” can be read in more than one way; write it with one decimal mark.` };
  }
  const plainText = whole.replace(/[.,]/g, '') + (part ? '.' + part : '');
  const value = Number(exponent ? `${plainText}e${exponent}` : plainText);
  if (!/\d/.test(plainText) || !Number.isFinite(value)) return { fault: `“${text.trim()}” is not a number.` };
  if (given && unit) {
    if (!(given in factors)) return { fault: `“${given}” is not a unit of length known here.` };
    return { value: given === unit ? value : Number(((value * factors[given]) / factors[unit]).toPrecision(15)) };
  }
  if (given) return { fault: `“${given}” does not belong here.` };
  return { value };
}
