// Answers as a code that people copy themselves, and the codes of a class. Nothing is sent, and nothing of the class is stored.
import { el, fill } from '../shared/dom.js';
import { figure } from '../shared/numbers.js';
import { prose } from '../worksheet/work.js';
import { lettersOf } from './exercise.js';

/** @typedef {import('./study.js').Study} Study */
/** @typedef {import('../furrow.js').StudyAnswers['codes']} Codes */

const unsure = 6;
const none = 7;

/** @type {(study: Study, kept: import('./exercise.js').Exercise) => void} */
export function code(study, kept) {
  const { at } = study;
  const copy = async (/** @type {string} */ text) => (await navigator.clipboard?.writeText(text).then(() => true, () => false)) ?? false;

  at.press('code-copy', async () => {
    const first = kept.coded;
    if (!first) return;
    const answers = lettersOf(first.state).map((l) => (l in first.answers ? (first.answers[l] < 0 ? unsure : first.answers[l]) : none));
    const place = at.byId('code-text');
    try {
      const { text } = await study.beside(() => true, { do: 'code', state: first.state, answers, guess: first.guess ?? null, tag: first.tag });
      place.textContent = text;
      at.byId('code-said').textContent = (await copy(text)) ? 'Copied.' : 'Copy it from here.';
    } catch (error) {
      at.byId('code-said').textContent = `No code can be made: ${/** @type {Error} */ (error).message}.`;
    }
  });

  let open = false;
  at.press('class-view', () => {
    open = !open;
    at.byId('class-view').setAttribute('aria-expanded', String(open));
    at.byId('class-box').hidden = !open;
    if (open) at.byId('class-codes').focus();
  });
  /** The lines of the table as they are copied. @type {string[][]} */
  let rows = [];
  at.press('class-copy', async () => {
    const done = await copy(rows.map((r) => r.join('\t')).join('\n'));
    at.byId('class-copied').textContent = done ? 'Copied.' : 'This browser does not let the page copy. Select the table and copy it.';
  });

  /** What the calculation gives is put into the page when it is opened, and not before. @type {(id: string, tell: () => Promise<string>) => HTMLElement} */
  const folded = (id, tell) => {
    const place = el('p', {});
    const box = el('details', { class: 'more', id }, el('summary', {}, 'What the calculation gives'), place);
    box.addEventListener('toggle', async () => {
      if (!box.open) return fill(place);
      fill(place, await tell().catch((error) => `No answer: ${error.message}.`));
    });
    return box;
  };

  at.press('class-read', async () => {
    const state = kept.linked ?? study.state;
    const text = /** @type {HTMLTextAreaElement} */ (at.byId('class-codes')).value;
    const place = at.byId('class-answers');
    try {
      const [codes, asked] = await Promise.all([
        /** @type {Promise<Codes>} */ (study.beside(() => true, { do: 'codes', state, text })),
        study.beside(() => true, { do: 'ask', state }),
      ]);
      fill(at.byId('class-said'), ...codes.said.map((s) => el('li', {}, s)));
      rows = [];
      /** @type {HTMLElement[]} */
      const blocks = [];
      lettersOf(state).forEach((letter, k) => {
        const q = /** @type {import('../furrow.js').StudyQuestion[]} */ (asked.offered).find((x) => x.letter === letter);
        const given = codes.read.map((r) => r.answers[k] ?? none).filter((a) => a !== none);
        if (!q || (!given.length && !state.questions)) return;
        const options = [...q.options.map((o, i) => ({ words: prose(o), n: given.filter((a) => a === i).length })), { words: 'I do not know', n: given.filter((a) => a === unsure).length }];
        rows.push([`Question ${letter}`, prose(q.words), ''], ...options.map((o) => ['', o.words, String(o.n)]));
        blocks.push(table(`Question ${letter}. ${prose(q.words)}`, options, given.length),
          folded(`class-answer-${letter}`, async () => prose((await study.beside(() => true, { do: 'answer', state, letter, option: -1 })).compared.replace(/^.*?\. (?=The calculation)/, ''))));
      });
      const guesses = codes.read.flatMap((r) => (r.guess === null ? [] : [r.guess])).sort((a, b) => a - b);
      if (guesses.length) {
        const middle = guesses.length % 2 ? guesses[(guesses.length - 1) / 2] : (guesses[guesses.length / 2 - 1] + guesses[guesses.length / 2]) / 2;
        rows.push(['Guesses', ...guesses.map((g) => figure(g, 3))], ['Median', figure(middle, 3)]);
        blocks.push(dots(guesses, middle, state.symbol ?? ''), folded('class-answer-guess', async () => {
          const view = { ...study.room(), hidden: false };
          const m = await study.beside(() => true, { do: 'move', state, set: [], before: null, view });
          return `The calculation gives: ${m.symbol} = ${prose(m.value.shown || m.value.reason)} ${m.unit}.`;
        }));
      }
      fill(place, ...blocks);
      at.byId('class-copy').hidden = !rows.length;
      at.byId('class-copied').textContent = '';
    } catch (error) {
      fill(at.byId('class-said'), el('li', {}, `The codes cannot be read: ${/** @type {Error} */ (error).message}.`));
    }
  });

  study.renderers.push(() => {
    const first = kept.coded;
    at.byId('code-box').hidden = !first || (!Object.keys(first.answers).length && first.guess === undefined);
  });
}

/** The answers to a question: a bar and a count for each option. @type {(caption: string, options: {words: string, n: number}[], all: number) => HTMLElement} */
function table(caption, options, all) {
  return el('table', { class: 'class-table' }, el('caption', {}, caption), el('thead', { class: 'vh' }, el('tr', {}, el('th', { scope: 'col' }, 'Option'), el('th', { scope: 'col' }, 'Answers'))),
    el('tbody', {}, ...options.map(({ words, n }) => {
      const bar = el('span', { class: 'bar', 'aria-hidden': 'true' });
      bar.style.width = `${all ? (60 * n) / all : 0}%`;
      return el('tr', {}, el('th', { scope: 'row' }, words), el('td', {}, bar, ` ${n}`));
    })));
}

/** Guesses as dots on a logarithmic line; those of 0 and below stand at its start. @type {(guesses: number[], middle: number, symbol: string) => HTMLElement} */
function dots(guesses, middle, symbol) {
  const above = guesses.filter((g) => g > 0);
  const [low, high] = [Math.log10(above[0] ?? 1) - 0.1, Math.log10(above.at(-1) ?? 1) + 0.1];
  const words = `${guesses.length} guess${guesses.length === 1 ? '' : 'es'} of ${symbol}, from ${figure(guesses[0], 3)} to ${figure(guesses.at(-1) ?? 0, 3)}, median ${figure(middle, 3)}`;
  const line = el('div', { class: 'dots', role: 'img', 'aria-label': words });
  for (const [g, kind] of [...guesses.map((v) => /** @type {const} */ ([v, 'dot'])), /** @type {const} */ ([middle, 'median'])]) {
    const e = el('span', { class: kind });
    e.style.left = `${g > 0 ? (100 * (Math.log10(g) - low)) / (high - low) : 0}%`;
    line.append(e);
  }
  return el('div', {}, el('p', {}, `${words}.`), line);
}
