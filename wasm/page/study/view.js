// What is seen: the value, both pictures with what can be dragged on them, the steps of the construction, and the numbers of the pictures.
import { become, drawing, el, fill } from '../shared/dom.js';
import { figure, withUnit } from '../shared/numbers.js';
import { prose } from '../worksheet/work.js';
import { Handles } from './handles.js';

/** @typedef {import('./study.js').Study} Study */
/** @typedef {import('../furrow.js').Figure} Figure */

export const hiddenWords = 'hidden until you answer';

/** A value as printed. @type {(v: import('../furrow.js').StudyValue, unit: string) => string} */
const printed = (v, unit) => (v.value === null ? 'not defined' : withUnit(prose(v.shown || figure(v.value)), unit === '1/10 mm' ? 'per 10 mm' : unit));

/** @type {(study: Study) => void} */
export function view(study) {
  const { at } = study;
  const places = { trace: at.byId('trace-frame'), construction: at.byId('construction-frame') };
  const finder = at.byId('finder');
  const handles = new Handles(study, places);

  /** The room as it was measured last; measured again unless a slider moves, which cannot wait for the page to be laid out. @type {{trace: import('./study.js').Size, construction: import('./study.js').Size} | null} */
  let measured = null;
  study.room = () => {
    if (!study.live) measured = null;
    measured ??= { trace: { width: places.trace.clientWidth, height: at.byId('study-trace').clientHeight }, construction: { width: places.construction.clientWidth, height: places.construction.clientHeight } };
    const { trace: { width, height }, construction } = measured;
    // The finder stands under a trace that is zoomed.
    return { trace: { width, height: height - (study.zoom ? finderHeight : 0) }, construction };
  };
  /** @type {Record<string, Figure | null>} */
  const drawn = {};
  const draw = (/** @type {'trace' | 'construction'} */ name, /** @type {Figure | null} */ f) => {
    if (drawn[name] === f) return;
    drawn[name] = f;
    const there = places[name].querySelector(':scope > svg, :scope > p');
    const picture = f && drawing(f.svg);
    if (picture && there?.tagName === picture.tagName) return become(there, picture);
    const e = picture ?? el('p', { class: 'hint' }, study.answer?.value.reason || 'There is no picture of this symbol here.');
    if (there) there.replaceWith(e);
    else places[name].prepend(e);
  };

  at.press('step-previous', () => study.step(-1));
  at.press('step-next', () => study.step(1));
  for (const id of ['step-previous', 'step-next']) {
    at.byId(id).addEventListener('keydown', (event) => {
      const way = event.key === 'ArrowLeft' ? -1 : event.key === 'ArrowRight' ? 1 : 0;
      if (!way) return;
      event.preventDefault();
      study.step(way);
    });
  }
  /** The part of the trace that is drawn, moved and scaled. @type {(by: number, scale?: number) => void} */
  const pan = (by, scale = 1) => {
    const whole = (study.answer?.points ?? 0) * (study.answer?.spacing ?? 0) / 1000;
    const [from, to] = study.zoom ?? [0, whole];
    const half = ((to - from) / 2) * scale;
    if (half * 2 >= whole) return study.view(null);
    const middle = Math.min(whole - half, Math.max(half, (from + to) / 2 + by * (to - from)));
    study.view([middle - half, middle + half]);
  };
  at.press('zoom-whole', () => study.view(null));
  for (const [i, id] of ['zoom-from', 'zoom-to'].entries()) {
    at.numberField(id, { unit: 'mm', low: 0 }, (v = 0) => {
      const whole = ((study.answer?.points ?? 0) * (study.answer?.spacing ?? 0)) / 1000;
      const [from, to] = study.zoom ?? [0, whole];
      /** @type {[number, number]} */
      const ends = i ? [from, v] : [v, to];
      if (ends[1] <= ends[0] || ends[0] >= whole) return at.refuse(id, 'The part drawn ends where it begins, or before. The earlier value stays in use.');
      study.view(ends);
    });
  }
  /** @type {(event: KeyboardEvent) => void} */
  const keys = (event) => {
    /** @type {Record<string, () => void>} */
    const acts = {
      ArrowLeft: () => pan(event.shiftKey ? -0.5 : -0.1), ArrowRight: () => pan(event.shiftKey ? 0.5 : 0.1), '+': () => pan(0, 0.5), '-': () => pan(0, 2), 0: () => study.view(null),
      Home: () => study.zoom && pan(-1e6), End: () => study.zoom && pan(1e6), PageUp: () => study.step(-1), PageDown: () => study.step(1),
    };
    if (event.target !== event.currentTarget || event.ctrlKey || event.metaKey || event.altKey || !acts[event.key]) return;
    event.preventDefault();
    acts[event.key]();
  };
  for (const e of [places.trace, places.construction, finder]) e.addEventListener('keydown', keys);

  let open = false;
  const table = at.byId('study-numbers-table');
  const numbers = () => {
    at.byId('study-numbers').setAttribute('aria-expanded', String(open));
    table.hidden = !open;
    const f = study.answer?.construction ?? study.answer?.trace;
    if (!open || !f) return;
    const { columns, rows } = f.numbers;
    fill(table, el('table', {}, el('thead', {}, el('tr', {}, ...columns.map((c) => el('th', { scope: 'col' }, c)))),
      el('tbody', {}, ...rows.map((r) => el('tr', {}, ...r.map((c, i) => el(i || !c ? 'td' : 'th', i || !c ? {} : { scope: 'row' }, c)))))));
  };
  at.press('study-numbers', () => {
    open = !open;
    numbers();
    if (open) table.scrollIntoView({ block: 'nearest' });
  });

  let said = '';
  study.renderers.push(() => {
    const { answer: a, hidden } = study;
    if (!a) return;
    at.byId('value-symbol').textContent = a.symbol;
    at.byId('value-name').textContent = a.name;
    at.byId('value-now').textContent = hidden ? hiddenWords : printed(a.value, a.unit);
    const now = at.byId('value-now');
    if (hidden || a.value.value === null) delete now.dataset.value;
    else now.dataset.value = String(a.value.value);
    at.byId('value-reason').textContent = hidden ? '' : a.value.value === null ? a.value.reason : '';
    at.byId('study-note').textContent = prose(a.value.note);
    at.byId('study-note').parentElement?.toggleAttribute('hidden', !a.value.note);
    at.byId('study-value').classList.toggle('pinned', !!a.before);
    at.byId('value-before').textContent = a.before ? (hidden ? hiddenWords : printed(a.before, a.unit)) : '';
    at.byId('value-beside').hidden = !a.before;
    at.byId('value-change').textContent = hidden ? '' : prose(a.change);
    draw('trace', a.trace);
    draw('construction', a.construction);
    finder.hidden = !a.finder;
    const whole = (a.points * a.spacing) / 1000;
    if (a.finder && study.zoom) {
      const part = el('div', { class: 'window' });
      part.style.left = `${(100 * study.zoom[0]) / whole}%`;
      part.style.width = `${(100 * (study.zoom[1] - study.zoom[0])) / whole}%`;
      fill(finder, drawing(a.finder.svg), part);
    }
    at.showNumber('zoom-from', study.zoom?.[0] ?? 0);
    at.showNumber('zoom-to', Number((study.zoom?.[1] ?? whole).toPrecision(6)));
    at.byId('zoom-whole').hidden = !study.zoom;
    for (const [name, f] of Object.entries({ trace: a.trace, construction: a.construction })) places[/** @type {'trace' | 'construction'} */ (name)].setAttribute('aria-label', f?.title ?? name);
    handles.place(a);
    const n = a.steps.length;
    for (const id of ['step-previous', 'step-next']) /** @type {HTMLButtonElement} */ (at.byId(id)).disabled = !n;
    const step = a.steps[study.picked - 1];
    const text = step && !hidden ? `${study.picked} of ${n}: ${prose(step.text)}` : n ? `${n} step${n === 1 ? '' : 's'}${hidden ? `, ${hiddenWords}` : ''}` : '';
    if (at.byId('step-text').textContent !== text) at.byId('step-text').textContent = text;
    at.byId('study-construction').title = step && !hidden ? prose(step.text) : '';
    numbers();
    at.byId('study').dataset.revision = String(study.revision);
    if (!study.live && !hidden && a.said !== said) {
      if (said && a.said) at.announce(a.said);
      said = a.said;
    }
  });

  // Pictures are drawn for the room that they get.
  let size = '';
  new ResizeObserver(() => {
    const now = JSON.stringify(Object.values(places).map((e) => [e.clientWidth, e.clientHeight]));
    measured = null;
    if (now !== size && size) study.run();
    size = now;
  }).observe(at.byId('study-seen'));
}

const finderHeight = 30; // px
