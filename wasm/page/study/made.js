// A surface made of ingredients: each with its fields, and what is known of the whole before anything is evaluated.
import { el, fill, fillSelect } from '../shared/dom.js';
import { figure, withUnit } from '../shared/numbers.js';
import { prose } from '../worksheet/work.js';
import { pair, showPair } from './move.js';
import { hiddenWords } from './view.js';

/** @typedef {import('./study.js').Study} Study */
/** @typedef {import('../furrow.js').StudyField} Field */
/** @typedef {import('../furrow.js').StudyIngredient} Ingredient */

/** @type {(study: Study, tables: import('../furrow.js').StudyTables) => void} */
export function made(study, tables) {
  const { at } = study;
  const { ingredients } = tables;
  const parts = () => study.state.parts ?? [];
  const add = at.select('surface-add');
  const list = at.byId('surface-list');
  at.byId('surface-order').textContent = tables.order;

  /** The parts that are used, each with its number among those of its kind, from 1. @returns {{in: Ingredient, n: number, i: number}[]} */
  const used = () => {
    /** @type {Record<string, number>} */
    const count = {};
    return parts().flatMap((p, i) => {
      const found = ingredients.find((x) => x.kind === p.kind);
      count[p.kind] = (count[p.kind] ?? 0) + 1;
      return found ? [{ in: found, n: count[p.kind], i }] : [];
    });
  };
  /** The fields of the second scratch have ids with -2- for -1-. @type {(f: Field, n: number) => Field} */
  const numbered = (f, n) => (n > 1 ? { ...f, id: f.id.replace('-1-', `-${n}-`) } : f);

  at.press('surface-add-do', () => {
    const x = ingredients.find((y) => y.kind === add.value);
    if (!x) return;
    study.change({ parts: [...parts(), { kind: x.kind, values: x.fields.map((f) => f.first) }] }, 'surface-add');
    at.announce(`${x.words} added.`);
  });
  // Length and spacing of the whole.
  at.numberField('made-length', { unit: 'mm', low: 0.01 }, (length) => study.change({ length }, 'made-length'));
  at.numberField('made-spacing', { unit: 'µm', low: 0.001 }, (spacing) => study.change({ spacing }, 'made-spacing'));

  /** Ingredients whose fields are hidden, by kind and number. @type {Set<string>} */
  const hidden = new Set();
  let built = '';
  const build = () => {
    fill(list, ...used().map(({ in: x, n, i }) => {
      const name = x.most > 1 ? `${x.kind}-${n}` : x.kind;
      const body = el('div', { class: 'fields', id: `ingredient-${name}` }, el('p', { class: 'hint' }, prose(x.formula)),
        ...x.fields.map((f) => numbered(f, n)).map((f) => el('div', { class: 'field' }, el('label', { for: f.id }, `${f.words}${f.unit ? `, ${f.unit}` : ''}`),
          el('div', { class: 'slider' }, el('input', { type: 'range', id: `${f.id}-slide`, 'aria-label': `${x.words}, ${f.words}` }), el('input', { type: 'text', class: 'n', id: f.id, inputmode: 'decimal', autocomplete: 'off' })))),
        x.fields.some((f) => f.id.endsWith('-seed')) && el('button', { type: 'button', class: 'inline', id: `${x.kind}-new`, onclick: () => {
          const k = x.fields.findIndex((f) => f.id.endsWith('-seed'));
          study.move([{ id: x.fields[k].id, value: ((parts()[i]?.values[k] ?? 0) % 9999) + 1 }], { field: `${x.kind}-new` });
        } }, 'another seed'));
      body.hidden = hidden.has(name);
      const show = el('button', { type: 'button', class: 'quiet', id: `ingredient-show-${name}`, 'aria-expanded': String(!body.hidden), 'aria-controls': body.id, onclick: () => {
        body.hidden = !body.hidden;
        if (body.hidden) hidden.add(name);
        else hidden.delete(name);
        show.setAttribute('aria-expanded', String(!body.hidden));
        show.textContent = body.hidden ? 'Show' : 'Hide';
      } }, body.hidden ? 'Show' : 'Hide');
      return el('li', {}, el('p', { class: 'acts' }, el('b', {}, x.most > 1 ? `${x.words} ${n}` : x.words), show,
        el('button', { type: 'button', class: 'quiet', id: `take-out-${name}`, onclick: () => study.change({ parts: parts().filter((_, k) => k !== i) }, 'surface-list') }, 'Remove')), body);
    }));
    for (const { in: x, n } of used()) for (const f of x.fields) {
      const g = numbered(f, n);
      pair(study, at.input(`${g.id}-slide`), at.input(g.id), () => g);
    }
  };

  // What is known: asked for when it is shown, and again after each settled change.
  const known = at.byId('study-known');
  const table = at.byId('study-known-table');
  let open = false;
  let asked = 0;
  let of = '';
  const ask = async () => {
    const key = JSON.stringify({ ...study.state, symbol: '', move: '', way: '' });
    if (!open || study.state.surface !== 'made') return;
    if (study.hidden) {
      of = '';
      return fill(table, el('p', { class: 'hint' }, hiddenWords));
    }
    if (key === of) return;
    of = key;
    const mine = ++asked;
    fill(table, el('p', { class: 'wait' }, 'being calculated'));
    try {
      const answer = /** @type {import('../furrow.js').StudyKnown | null} */ (await study.beside(() => mine === asked, { do: 'known', state: study.state }));
      if (!answer || mine !== asked) return;
      fill(table, answer.reason && el('p', {}, answer.reason), answer.rows.length > 0 && knownTable(answer.rows));
    } catch (error) {
      of = '';
      if (mine === asked) fill(table, el('p', {}, `Nothing is known: ${/** @type {Error} */ (error).message}.`));
    }
  };
  at.press('study-known', () => {
    open = !open;
    known.setAttribute('aria-expanded', String(open));
    table.hidden = !open;
    ask().then(() => open && table.scrollIntoView({ block: 'nearest' }));
  });

  study.renderers.push(() => {
    const is = study.state.surface === 'made';
    known.hidden = !is;
    table.hidden = !is || !open;
    if (!is) return;
    const free = ingredients.filter((x) => parts().filter((p) => p.kind === x.kind).length < x.most);
    fillSelect(add, free.map((x) => [x.kind, x.words]), free.some((x) => x.kind === add.value) ? add.value : (free[0]?.kind ?? ''));
    /** @type {HTMLButtonElement} */ (at.byId('surface-add-do')).disabled = !free.length;
    at.showNumber('made-length', study.state.length ?? 4);
    at.showNumber('made-spacing', study.state.spacing ?? 0.5);
    const shape = parts().map((p) => p.kind).join();
    if (shape !== built) {
      built = shape;
      build();
    }
    for (const { in: x, n, i } of used()) x.fields.forEach((f, k) => {
      const g = numbered(f, n);
      showPair(study, at.input(`${g.id}-slide`), at.input(g.id), g, parts()[i].values[k]);
    });
    if (!study.live) ask();
  });
}

/** @type {(rows: import('../furrow.js').StudyKnown['rows']) => HTMLElement} */
function knownTable(rows) {
  const filtered = rows.some((r) => r.filtered !== null);
  const average = rows.some((r) => r.expected);
  const head = ['Symbol', 'Formula', average ? 'Known, on average over many seeds' : 'Known', 'Calculated without filters', 'Difference', ...(filtered ? ['Known behind the filters', 'Calculated behind the filters'] : [])];
  const said = (/** @type {number | null} */ v, /** @type {string} */ unit) => (v === null ? '–' : withUnit(figure(v, 4), unit));
  return el('table', {}, el('caption', {}, 'Known and calculated'), el('thead', {}, el('tr', {}, ...head.map((h) => el('th', { scope: 'col' }, h)))),
    el('tbody', {}, ...rows.map((r) => el('tr', {}, el('th', { scope: 'row' }, el('var', {}, r.symbol)), el('td', {}, prose(r.formula)), el('td', { class: 'num', 'data-known': r.known }, said(r.known, r.unit)), el('td', { class: 'num', 'data-calculated': r.plain ?? '' }, said(r.plain, r.unit)),
      el('td', {}, r.difference === null ? '' : withUnit(figure(r.difference, 2), '%'), r.why && ` ${prose(r.why)}`), ...(filtered ? [el('td', { class: 'num' }, said(r.knownFiltered, r.unit)), el('td', { class: 'num' }, said(r.filtered, r.unit))] : [])))));
}
