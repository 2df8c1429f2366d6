// Heights typed by hand: their text, what they count from, and the table that a calculation by hand fills.
import { el, fill } from '../shared/dom.js';
import { plain, style } from '../shared/numbers.js';
import { prose } from '../worksheet/work.js';
import { hiddenWords } from './view.js';

/** @typedef {import('./study.js').Study} Study */
/** @typedef {import('../furrow.js').StudyHand} Hand */

/** @type {(study: Study) => void} */
export function hand(study) {
  const { at, client } = study;
  const area = /** @type {HTMLTextAreaElement} */ (at.byId('hand-heights'));
  const said = at.byId('hand-echo');
  const text = (/** @type {readonly number[]} */ heights) => heights.map((h) => plain(h)).join(style.mark === ',' ? '; ' : ' ');
  const take = (/** @type {Hand} */ read) => {
    said.textContent = prose(read.problem || read.echo);
    area.setAttribute('aria-invalid', String(!!read.problem));
    if (!read.problem) study.change({ heights: read.heights, moved: undefined, point: undefined }, 'hand-heights');
  };
  area.addEventListener('change', async () => take(await client.call('study', { do: 'hand', text: area.value })));
  at.numberField('hand-spacing', { unit: 'µm', low: 0.001 }, (spacing) => study.change({ spacing }, 'hand-spacing'));
  at.numberField('hand-sections', { low: 1, whole: true }, (number) => study.change({ sections: { number } }, 'hand-sections'));
  at.radios('hand-line', (line) => study.change({ line: /** @type {any} */ (line) }, 'hand-line'));
  const number = (/** @type {string} */ id) => Number(at.input(id).value.replace(',', '.'));
  at.press('hand-new', async () => {
    try {
      at.input('hand-seed').value = String((number('hand-seed') % 9999) + 1);
      take(await client.call('study', { do: 'heights', count: number('hand-count'), size: number('hand-size'), seed: number('hand-seed') }));
    } catch (error) {
      said.textContent = `${/** @type {Error} */ (error).message}.`;
    }
  });
  at.press('hand-clear', () => {
    area.value = '';
    study.change({ heights: [] }, 'hand-heights');
  });

  const box = at.byId('hand-table');
  const slope = at.select('hand-slope');
  let all = false;
  let of = '';
  let turn = 0;
  at.press('hand-columns', () => {
    all = !all;
    at.byId('hand-columns').setAttribute('aria-pressed', String(all));
    of = '';
    table();
  });
  slope.addEventListener('change', () => {
    of = '';
    table();
  });
  async function table() {
    const now = JSON.stringify([study.state, style.mark]);
    if (now === of || study.live) return;
    of = now;
    const mine = ++turn;
    try {
      const t = /** @type {import('../furrow.js').StudyTable | null} */ (await study.beside(() => mine === turn, { do: 'table', state: study.state, slope: /** @type {any} */ (slope.value) }));
      if (!t || mine !== turn) return;
      const show = t.columns.map((c, i) => i === 0 || all || c.used);
      const cells = (/** @type {readonly string[]} */ row, /** @type {string} */ head) => row.map((c, i) => show[i] && el(i ? 'td' : 'th', i ? { class: t.columns[i].used ? 'num cur' : 'num' } : { scope: 'row' }, i ? prose(c) : head || c));
      fill(box, el('table', { class: 'arith' }, el('caption', { class: 'vh' }, 'The heights and what is worked from them'), el('thead', {}, el('tr', {}, ...t.columns.map((c, i) => show[i] && el('th', { scope: 'col', class: i ? 'num' : undefined }, c.head)))),
        el('tbody', {}, ...t.rows.map((r) => el('tr', {}, ...cells(r, '')))),
        el('tfoot', {}, el('tr', { class: 'total' }, ...cells(t.sums, 'sum')), el('tr', { class: 'total' }, ...cells(t.means, 'mean')))),
        ...t.notes.map((n) => el('p', { class: 'hint' }, prose(n))));
    } catch (error) {
      if (mine === turn) fill(box, el('p', { class: 'hint' }, `${/** @type {Error} */ (error).message}.`));
    }
  }

  study.renderers.push(() => {
    const is = study.state.surface === 'typed';
    at.byId('study-hand').hidden = !is;
    if (!is) return;
    const { heights = [], spacing = 100, line = 'zero', sections } = study.state;
    if (area !== document.activeElement && area.getAttribute('aria-invalid') !== 'true') area.value = text(heights);
    at.showNumber('hand-spacing', spacing);
    at.showNumber('hand-sections', sections?.number || 1);
    at.showRadio('hand-line', line);
    if (study.hidden) {
      of = '';
      return fill(box, el('p', { class: 'hint' }, hiddenWords));
    }
    table();
  });
}
