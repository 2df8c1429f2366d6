// Work it out: the worked line with blanks. What stands in them is looked at by the module; the page only asks.
import { el, fill, fillSelect } from '../shared/dom.js';
import { withUnit } from '../shared/numbers.js';
import { prose } from '../worksheet/work.js';
import { hiddenWords } from './view.js';

/** @typedef {import('./study.js').Study} Study */
/** @typedef {import('../furrow.js').StudyBlanks} Blanks */

const levels = ['all shown', 'the last step is blank', 'the single steps are blank too', 'the terms are blank too'];

/** @type {(study: Study) => void} */
export function fade(study) {
  const { at } = study;
  const box = at.byId('study-work');
  const select = at.select('fade-level');
  const lines = at.byId('fade-lines');
  /** @type {Blanks | null} */
  let blanks = null;
  /** What stands in the blanks. @type {string[]} */
  let entries = [];
  /** The blank that was in use last. */
  let last = 0;
  let of = '';
  let turn = 0;
  /** Blanks that go on. @type {Set<number>} */
  let done = new Set();

  const level = () => study.state.fade ?? 0;
  const to = (/** @type {number} */ n) => study.change({ fade: Math.min(levels.length - 1, Math.max(0, n)) }, 'fade-level');
  select.addEventListener('change', () => to(Number(select.value)));
  at.press('fade-more', () => to(level() - 1));
  at.press('fade-less', () => to(level() + 1));
  const hide = () => {
    const now = study.state.way === 'work' && blanks && blanks.blanks.length > done.size ? [study.symbol] : [];
    if (study.closed && study.state.way === 'work' && blanks?.blanks.length && !now.length) return study.show();
    if (String(now) === String(study.hides.work)) return;
    study.hides.work = now;
    study.run();
  };

  /** Has one blank looked at, or filled. @type {(i: number, show?: boolean) => Promise<void>} */
  const check = async (i, show = false) => {
    const b = blanks?.blanks[i];
    if (!b || (!show && !entries[i]?.trim())) return;
    const mine = turn;
    const place = at.byId(`blank-${i + 1}-reply`);
    try {
      const answer = await study.beside(() => mine === turn, { do: 'check', state: study.state, level: level(), ...(study.picked ? { picked: study.picked } : {}), entries, blank: i, ...(show ? { show: true } : {}) });
      if (!answer || mine !== turn) return;
      if (show) at.input(`blank-${i + 1}`).value = entries[i] = answer.value;
      if (answer.goes || show) done.add(i);
      else done.delete(i);
      place.textContent = prose(answer.reply);
      hide();
    } catch (error) {
      if (mine === turn) place.textContent = `${/** @type {Error} */ (error).message}.`;
    }
  };
  at.press('blank-show', () => {
    const i = blanks?.blanks.findIndex((_, k) => k >= last && !done.has(k)) ?? -1;
    check(i < 0 ? last : i, true);
  });

  const build = () => {
    entries = blanks?.blanks.map(() => '') ?? [];
    done = new Set();
    last = 0;
    const field = (/** @type {number} */ i) => {
      const b = /** @type {Blanks} */ (blanks).blanks[i];
      const input = el('input', { type: 'text', class: 'n', id: `blank-${i + 1}`, inputmode: 'decimal', autocomplete: 'off', 'aria-label': b.name, 'aria-describedby': `blank-${i + 1}-reply blank-${i + 1}-hint` });
      input.addEventListener('focus', () => (last = i));
      input.addEventListener('input', () => (entries[i] = input.value));
      input.addEventListener('change', () => check(i));
      input.addEventListener('keydown', (event) => {
        if (event.key !== 'Enter') return;
        event.preventDefault();
        check(i);
        at.find(`blank-${i + 1 + (event.shiftKey ? -1 : 1)}`)?.focus();
      });
      return input;
    };
    if (study.closed && !blanks?.blanks.length) return fill(lines, el('li', {}, hiddenWords));
    fill(lines, ...(blanks?.lines ?? []).map((parts) => el('li', {}, el('p', { class: 'row' }, ...parts.map((p) => (typeof p === 'number' ? field(p) : prose(p)))),
      ...parts.filter((p) => typeof p === 'number').flatMap((i) => {
        const b = /** @type {Blanks} */ (blanks).blanks[/** @type {number} */ (i)];
        return [el('p', { class: 'vh', id: `blank-${Number(i) + 1}-hint` }, `${b.decimals} decimal${b.decimals === 1 ? '' : 's'}${b.unit ? `, ${withUnit('', b.unit).trim()}` : ''}`), el('p', { class: 'hint', id: `blank-${Number(i) + 1}-reply`, role: 'status' })];
      }))));
  };

  study.renderers.push(async () => {
    const is = study.state.way === 'work';
    box.hidden = !is;
    if (!is) {
      of = '';
      if (study.hides.work.length) [blanks, study.hides.work] = [null, []], study.run();
      return;
    }
    fillSelect(select, levels.map((l, i) => [String(i), l]), String(level()));
    /** @type {HTMLButtonElement} */ (at.byId('fade-more')).disabled = level() === 0;
    /** @type {HTMLButtonElement} */ (at.byId('fade-less')).disabled = level() === levels.length - 1;
    const now = JSON.stringify([{ ...study.state, move: '', point: 0, width: 0 }, study.closed]);
    if (now === of || study.live) return;
    of = now;
    const mine = ++turn;
    try {
      const answer = await study.beside(() => mine === turn, { do: 'blanks', state: study.state, level: level(), ...(study.picked ? { picked: study.picked } : {}) });
      if (!answer || mine !== turn) return;
      blanks = answer;
    } catch (error) {
      if (mine !== turn) return;
      blanks = { symbol: study.symbol, level: 0, why: `${/** @type {Error} */ (error).message}.`, lines: [], blanks: [] };
    }
    build();
    at.byId('fade-why').textContent = prose(blanks?.why ?? '');
    at.byId('fade-why').hidden = !blanks?.why;
    at.byId('blank-show').hidden = !blanks?.blanks.length;
    hide();
  });
}
