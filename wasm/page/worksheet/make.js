// Make a surface: a wave, the cusps of turning, noise, a scratch, a worn level; what is known from its formula
// beside what is calculated here.
import { el, fill } from '../shared/dom.js';
import { aloud, fixed, height, mm, um, withUnit } from '../shared/numbers.js';
import { newId } from '../shared/store.js';
import { shown } from './state.js';

/** @typedef {import('./sheet.js').Sheet} Sheet */
/** @typedef {import('../furrow.js').Surface} Surface */
/** @typedef {'wave' | 'length' | 'noise' | 'scratch' | 'feed' | 'nose' | 'plateau'} Part */

/** Scale of each field to µm, and its unit. @type {Record<Part, {scale: number, unit: string, high: number}>} */
const parts = {
  wave: { scale: 1, unit: 'µm', high: 1e5 }, length: { scale: 1000, unit: 'mm', high: 1000 }, noise: { scale: 1, unit: 'µm', high: 1e4 }, scratch: { scale: 1, unit: 'µm', high: 1e5 },
  feed: { scale: 1000, unit: 'mm', high: 100 }, nose: { scale: 1000, unit: 'mm', high: 1000 }, plateau: { scale: 1, unit: '', high: 100 },
};

const first = { wave: 2, length: 250, noise: 0, scratch: 0, feed: 0, nose: 800, plateau: 0 };

/** The slider of the length is logarithmic, 0.01 to 10 mm. @type {(um: number) => number} */
const slid = (um) => (100 * Math.log10(um / 10)) / 3;
/** @type {(position: number) => number} */
const unslid = (position) => Number((10 * 10 ** ((3 * position) / 100)).toPrecision(2));

/** @type {(sheet: Sheet) => void} */
export function make(sheet) {
  const box = sheet.at.byId('make');
  const button = sheet.at.byId('trace-make');
  /** @type {Record<Part, number>} */
  let wanted = { ...first };
  let asked = 0;
  /** @type {import('./state.js').State | undefined} */
  let before;

  /** @type {(patch: Partial<Record<Part, number>>, live?: boolean) => Promise<void>} */
  async function surface(patch, live = false) {
    wanted = { ...wanted, ...patch };
    before ??= sheet.state;
    const from = before;
    if (!live) before = undefined;
    const now = ++asked;
    const { row } = sheet;
    const spacing = row.maxSpacing || 0.5;
    const whole = { points: Math.round((row.evaluation + row.section) / spacing), spacing, ...wanted };
    const { profile, known } = await sheet.client.call('make', whole);
    if (now !== asked) return;
    sheet.replace([{ id: newId(), profile, label: 'Made surface', origin: 'A surface made here', note: '', demo: '', reading: null, made: { surface: whole, known } }], { live, from });
  }

  /** @type {(open: boolean) => void} */
  const show = (open) => {
    box.hidden = !open;
    button.setAttribute('aria-expanded', String(open));
  };
  button.addEventListener('click', () => {
    show(!!box.hidden);
    if (!box.hidden && !sheet.trace?.made) surface({});
    if (!box.hidden) sheet.at.input('make-wave').focus();
  });
  const close = () => {
    show(false);
    button.focus();
  };
  sheet.at.byId('make-close').addEventListener('click', close);
  box.addEventListener('keydown', (event) => event.key === 'Escape' && close());

  for (const [name, { scale, unit, high }] of Object.entries(parts)) {
    const part = /** @type {Part} */ (name);
    sheet.at.numberField(`make-${part}`, { unit, scale, low: part === 'length' || part === 'nose' ? 1e-3 : 0, high }, (value = 0) => void surface({ [part]: value }));
    const slide = /** @type {HTMLInputElement | null} */ (sheet.at.find(`make-${part}-slide`));
    const at = () => (part === 'length' ? unslid(Number(slide?.value)) : Number(slide?.value));
    slide?.addEventListener('input', () => void surface({ [part]: at() }, true));
    slide?.addEventListener('change', () => void surface({ [part]: at() }));
  }

  sheet.renders(() => {
    const made = sheet.trace?.made;
    if (made) wanted = { ...wanted, ...Object.fromEntries(Object.entries(made.surface).filter(([k]) => k in parts)) };
    for (const [name, { scale }] of Object.entries(parts)) {
      const part = /** @type {Part} */ (name);
      sheet.at.showNumber(`make-${part}`, wanted[part] / scale);
      const slide = /** @type {HTMLInputElement | null} */ (sheet.at.find(`make-${part}-slide`));
      if (!slide || (slide === document.activeElement && before)) continue;
      slide.value = String(part === 'length' ? slid(wanted[part]) : wanted[part]);
      slide.setAttribute('aria-valuetext', aloud(part === 'length' ? mm(wanted.length) : um(wanted[part])));
    }
    compare(sheet);
  });
}

// Known beside calculated.
/** @type {(sheet: Sheet) => Promise<void>} */
async function compare(sheet) {
  const place = sheet.at.byId('make-known');
  const made = sheet.trace?.made;
  if (!made || !sheet.evaluation || sheet.settled !== sheet.state) return void fill(place, made ? '' : 'Change a number, and the trace follows.');
  const { surface, known } = made;
  const both = known.filter((k) => k.unit === 'µm' && sheet.value(sheet.spelled(k.symbol))).slice(0, 3);
  if (!both.length) return void fill(place, el('b', {}, 'Known: '), 'nothing; with a scratch or a worn share there is no closed formula.');
  // Only a single wave passes the filters as a whole.
  const alone = !!surface.wave && !surface.feed && !surface.noise;
  const share = alone ? (await sheet.client.call('transmit', surface.length)).roughness : null;
  fill(place, ...both.flatMap((k, i) => {
    const v = sheet.value(sheet.spelled(k.symbol));
    const passed = share !== null && k.unit === 'µm' && ['Ra', 'Rq', 'Rz', 'Rp', 'Rv', 'Rt'].includes(k.symbol) ? `; ${withUnit(fixed(share, 3), '%')} of it pass the filters: ${height((k.value * share) / 100, 4)}` : '';
    const unit = k.unit === 'µm' ? height(k.value, 4) : withUnit(fixed(k.value, 4), k.unit);
    return [i > 0 && el('br'), el('b', {}, 'Known: '), `${k.symbol} = ${k.formula} = ${unit}${k.expected ? ' on average' : ''}${passed}. `, el('b', {}, 'Calculated: '), v ? el('span', { class: 'now' }, shown(v, 4)) : '', '.'];
  }));
}
