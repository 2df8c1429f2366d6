// The one thing that moves: its list, slider and typed field; what is kept as before; and the fields of what is dragged in the pictures.
import { el, fill, fillSelect } from '../shared/dom.js';
import { parse, plain } from '../shared/numbers.js';

/** @typedef {import('./study.js').Study} Study */
/** @typedef {import('../furrow.js').StudyField} Field */

const steps = 1000; // of a slider
const held = 300; // ms from which a press is a hold

/** Where a value stands on its slider, and the value of a place. @type {(f: Field, v: number) => number} */
export const slid = (f, v) => Math.round(steps * Math.min(1, Math.max(0, f.log ? Math.log(v / f.low) / Math.log(f.high / f.low) : (v - f.low) / (f.high - f.low))));

/** @type {(f: Field, place: number) => number} */
export function unslid(f, place) {
  const share = place / steps;
  const v = f.log ? f.low * (f.high / f.low) ** share : f.low + (f.high - f.low) * share;
  // As fine as the slider, in digits that can be typed.
  const unit = 10 ** Math.floor(Math.log10((f.log ? v : f.high - f.low) / 400));
  return f.whole ? Math.round(v) : Number((Math.round(v / unit) * unit).toPrecision(12));
}

/** A number with its unit in full, for those who listen. @type {(v: number, unit: string) => string} */
export const inFull = (v, unit) => `${plain(v)} ${/** @type {Record<string, string>} */ ({ 'µm': 'micrometres', mm: 'millimetres', '%': 'percent' })[unit] ?? unit}`.trim();

/**
 * A slider and its typed field, both of one value.
 * @type {(study: Study, slide: HTMLInputElement | null, field: HTMLInputElement, of: () => Field | undefined) => void}
 */
export function pair(study, slide, field, of) {
  const { at } = study;
  const go = (/** @type {boolean} */ live) => {
    const f = of();
    if (f && slide) study.move([{ id: f.id, value: unslid(f, Number(slide.value)) }], { live, field: field.id });
  };
  if (slide) {
    Object.assign(slide, { min: '0', max: String(steps), step: '1' });
    slide.addEventListener('input', () => go(true));
    slide.addEventListener('change', () => go(false));
  }
  field.addEventListener('focus', () => field.select());
  field.addEventListener('change', () => {
    at.accept(field.id);
    const f = of();
    if (!f) return;
    const read = parse(field.value, /^(µm|mm)$/.test(f.unit) ? f.unit : '');
    const refuse = (/** @type {string} */ why) => at.refuse(field.id, `${why} The earlier value stays in use.`);
    if ('fault' in read) return refuse(read.fault);
    if (f.whole && !Number.isInteger(read.value)) return refuse('A whole number is needed.');
    if (read.value < f.least) return refuse(`At least ${plain(f.least)} is needed.`);
    if (read.value > f.most) return refuse(`At most ${plain(f.most)} is possible.`);
    study.move([{ id: f.id, value: read.value }], { field: field.id });
  });
}

/** Shows a value on both. @type {(study: Study, slide: HTMLInputElement | null, field: HTMLInputElement, f: Field, value: number) => void} */
export function showPair(study, slide, field, f, value) {
  if (slide && !(slide === document.activeElement && study.live)) slide.value = String(slid(f, value));
  slide?.setAttribute('aria-valuetext', inFull(value, f.unit));
  study.at.showNumber(field.id, Number(value.toPrecision(f.unit === '%' ? 4 : f.unit === 'µm' ? 5 : 6)));
}

/** @type {(study: Study, tables: import('../furrow.js').StudyTables) => void} */
export function move(study, tables) {
  const { at } = study;
  const slide = at.input('move-slide');
  const field = at.input('move-number');
  const what = at.select('move-what');
  /** The first values of what moves, by its id, the symbol and the surface. @type {{of: string, value: number}} */
  let first = { of: '', value: 0 };
  const moves = () => study.answer?.moves ?? [];
  const now = () => moves().find((m) => m.id === study.state.move) ?? moves()[0];

  pair(study, slide, field, now);
  what.addEventListener('change', () => study.change({ move: what.value }, 'move-what'));
  at.press('move-back', () => {
    const m = now();
    if (m) study.move([{ id: m.id, value: first.value }], { field: 'move-number' });
  });
  at.press('pin', () => study.keep(study.state));
  at.press('pin-remove', () => study.keep(null));
  // Held, the pictures of before are shown as long; pressed, until the next press. Where motion is not wanted it is always pressed.
  const swap = at.byId('pin-swap');
  let down = NaN;
  let was = false;
  const long = () => performance.now() - down > held; // false for a press by keys
  swap.addEventListener('pointerdown', () => {
    if (matchMedia('(prefers-reduced-motion: reduce)').matches) return;
    [down, was] = [performance.now(), study.swapped];
    study.swap(true);
  });
  for (const end of ['pointerup', 'pointerleave', 'pointercancel']) swap.addEventListener(end, () => long() && study.swap(false));
  swap.addEventListener('click', () => {
    if (!long()) study.swap(!(down > 0 ? was : study.swapped));
    down = NaN;
  });

  // A field of an ingredient says which one it is of.
  const words = (/** @type {Field} */ f) => {
    const x = tables.ingredients.find((y) => y.fields.some((g) => g.id === f.id || g.id.replace('-1-', '-') === f.id.replace(/-\d-/, '-')));
    return x ? `${x.words}: ${f.words}` : f.words;
  };
  // What is dragged in the pictures has its fields here.
  const twins = [{ box: at.byId('study-twins'), of: /^(cut-|window-from|shift$|limit-)/, built: '' }, { box: at.byId('study-ordinate'), of: /^ordinate-/, built: '' }];

  study.renderers.push(() => {
    const list = moves();
    const m = now();
    fillSelect(what, list.map((x) => [x.id, words(x)]), m?.id ?? '');
    for (const e of [slide, field, what]) e.disabled = !m || !!m.why;
    at.byId('move-note').textContent = m?.why ?? (m ? '' : 'Nothing can move here.');
    at.byId('move-unit').textContent = m?.unit ?? '';
    for (const id of ['pin-remove', 'pin-swap']) at.byId(id).hidden = !study.before;
    swap.setAttribute('aria-pressed', String(study.swapped));
    if (m) {
      const of = JSON.stringify([m.id, study.answer?.key, study.state.surface, study.state.demo]);
      if (of !== first.of) first = { of, value: m.value };
      slide.setAttribute('aria-label', words(m));
      field.setAttribute('aria-label', `${words(m)}${m.unit ? `, ${m.unit}` : ''}`);
      showPair(study, slide, field, m, m.value);
    }
    for (const t of twins) {
      const fields = list.filter((x) => t.of.test(x.id));
      t.box.hidden = !fields.length;
      const key = fields.map((f) => f.id).join();
      if (key !== t.built) {
        t.built = key;
        fill(t.box, ...fields.map((f) => el('div', { class: 'field' }, el('label', { for: f.id }, `${f.words}${f.unit ? `, ${f.unit}` : ''}`), el('input', { type: 'text', class: 'n', id: f.id, inputmode: 'decimal', autocomplete: 'off' }))));
        for (const f of fields) pair(study, null, at.input(f.id), () => moves().find((m2) => m2.id === f.id));
      }
      for (const f of fields) showPair(study, null, at.input(f.id), f, f.value);
    }
  });
}
