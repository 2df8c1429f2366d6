// Number fields: text that is read on leaving or Enter, echoed as it was understood, refused with a sentence under it.
import { byId, el, input } from './dom.js';
import { parse, plain } from './numbers.js';

/** @type {(id: string) => Element} */
const holder = (id) => byId(id).closest('.field, fieldset, .ask-wave') ?? byId(id);

/** Says under a field what is wrong with it. @type {(id: string, message: string) => void} */
export function refuse(id, message) {
  const field = byId(id);
  accept(id);
  field.setAttribute('aria-invalid', 'true');
  field.setAttribute('aria-errormessage', `${id}-fault`);
  holder(id).append(el('p', { class: 'fault', id: `${id}-fault`, role: 'alert' }, message));
}

/** @type {(id: string) => void} */
export function accept(id) {
  document.getElementById(`${id}-fault`)?.remove();
  byId(id).removeAttribute('aria-invalid');
  byId(id).removeAttribute('aria-errormessage');
}

/**
 * A field for a number. unit is what stands behind it; scale turns the number into what the state holds.
 * @type {(id: string, options: {unit?: string, scale?: number, low?: number, high?: number, whole?: boolean, empty?: boolean}, use: (value: number | undefined, text: string) => void) => void}
 */
export function numberField(id, { unit = '', scale = 1, low, high, whole = false, empty = false }, use) {
  const field = input(id);
  field.addEventListener('focus', () => field.select());
  field.addEventListener('change', () => {
    accept(id);
    if (empty && !field.value.trim()) return use(undefined, '');
    const read = parse(field.value, unit);
    if ('fault' in read) return refuse(id, `${read.fault} The earlier value stays in use.`);
    const { value } = read;
    if (whole && !Number.isInteger(value)) return refuse(id, 'A whole number is needed. The earlier value stays in use.');
    if (low !== undefined && value < low) return refuse(id, `At least ${plain(low)} is needed. The earlier value stays in use.`);
    if (high !== undefined && value > high) return refuse(id, `At most ${plain(high)} is possible. The earlier value stays in use.`);
    field.value = plain(value);
    use(Number((value * scale).toPrecision(12)), field.value);
  });
}

/** Shows what a field stands at, unless someone is typing in it or it was refused. @type {(id: string, value: number | null | undefined) => void} */
export function showNumber(id, value) {
  const field = input(id);
  if (field === document.activeElement && field.value !== field.dataset.shown) return;
  if (field.getAttribute('aria-invalid')) return;
  field.value = value === null || value === undefined ? '' : plain(value);
  field.dataset.shown = field.value;
}

/** The radio of a group that is to be checked. @type {(name: string, value: string) => void} */
export function showRadio(name, value) {
  for (const r of /** @type {NodeListOf<HTMLInputElement>} */ (document.getElementsByName(name))) r.checked = r.value === value;
}

/** @type {(name: string, use: (value: string) => void) => void} */
export function radios(name, use) {
  for (const r of /** @type {NodeListOf<HTMLInputElement>} */ (document.getElementsByName(name))) r.addEventListener('change', () => r.checked && use(r.value));
}
