// The formula, what its letters mean and are here, the worked line, and what the symbol says and does not show.
import { el, fill, src } from '../shared/dom.js';
import { lineOf, workedDigits } from '../shared/arithmetic.js';
import { style } from '../shared/numbers.js';
import { longest, mathOf, prose, steadily, workedLine } from '../worksheet/work.js';
import { base } from './symbols.js';
import { hiddenWords } from './view.js';

/** @typedef {import('./study.js').Study} Study */

/** @type {(study: Study) => void} */
export function formula(study) {
  const { at } = study;
  const box = at.byId('study-formula');
  const line = at.byId('letter-line');
  /** The key of the letter that is open. */
  let letter = '';
  let of = '';

  const tell = () => {
    const l = study.parameter?.letters.find((x) => x.key === letter);
    for (const e of at.byId('study-worked').querySelectorAll('[data-letter]')) {
      const on = e.getAttribute('data-letter') === letter;
      e.classList.toggle('on', on);
      if (e.id) e.setAttribute('aria-expanded', String(on));
    }
    const here = study.answer?.letters[letter];
    fill(line, l && shown(l.shown), l && ` ${prose(l.meaning)}`, l && here && ' Here: ', l && here && el('b', {}, study.hidden ? hiddenWords : prose(here)));
    line.hidden = !l;
    study.explained = !!l;
  };
  const toggle = (/** @type {string} */ key) => {
    letter = letter === key ? '' : key;
    tell();
  };

  const build = () => {
    const { parameter, symbol } = study;
    letter = '';
    fill(at.byId('study-letters'));
    if (!parameter) return fill(box);
    const math = mathOf(symbol, parameter.equation);
    math?.setAttribute('aria-hidden', 'true');
    // A pointer opens a letter in the formula; a button beside it does so by keys as well.
    for (const e of math?.querySelectorAll('[data-letter]') ?? []) e.addEventListener('click', () => toggle(e.getAttribute('data-letter') ?? ''));
    const letters = parameter.letters.map((l) => el('button', { type: 'button', class: 'quiet', id: `letter-${l.key}`, 'data-letter': l.key, 'aria-expanded': 'false', 'aria-controls': 'letter-line', onclick: () => toggle(l.key) }, shown(l.shown)));
    fill(at.byId('study-letters'), ...letters);
    fill(box, math, el('span', { class: 'vh' }, parameter.equation.spoken));
  };

  // How steady the value is takes some thirty evaluations: beside everything else, once nothing moves.
  let asked = 0;
  /** The digits that are sure of the value shown; null while that is not known. @type {number | null} */
  let sure = null;
  const steadiness = async () => {
    const mine = ++asked;
    sure = null;
    const place = at.byId('study-steady');
    const { answer, state } = study;
    fill(place, study.hidden ? hiddenWords : '');
    if (study.hidden || !answer || answer.value.value === null) return;
    if (answer.points > longest) return fill(place, 'not calculated, because the trace is long and this takes about thirty evaluations');
    await new Promise((done) => setTimeout(done, 800));
    if (mine !== asked || study.live) return;
    try {
      fill(place, el('span', { class: 'wait' }, 'being calculated'));
      const s = await study.beside(() => mine === asked, { do: 'steady', state });
      if (!s || mine !== asked) return;
      fill(place, ...steadily(s, { symbol: answer.symbol, unit: answer.unit, source: '', basis: '', ...answer.value }));
      sure = s.digits;
      worked();
    } catch (error) {
      if (mine === asked) fill(place, `not known: ${/** @type {Error} */ (error).message}`);
    }
  };

  const worked = () => {
    const { answer, hidden } = study;
    const list = answer?.worked ?? [];
    const digits = workedDigits(study.state.surface === 'typed' ? null : sure);
    const rounded = list.some((l) => lineOf(l, digits).sign !== '=');
    const lines = hidden ? [hiddenWords] : list.flatMap((l, i) => [i > 0 && el('br'), ...workedLine(l, digits)]);
    fill(at.byId('worked-line'), ...lines, !hidden && rounded && el('span', { class: 'hint nb' }, ' (≈: terms rounded in print)'));
  };

  study.renderers.push(() => {
    const { answer, parameter, entry } = study;
    if (!answer) return;
    const now = `${base(answer.symbol)} ${answer.key} ${style.mark}`;
    if (now !== of) {
      of = now;
      build();
      const bare = base(answer.symbol);
      at.byId('study-says').textContent = prose(parameter?.sentence ?? '');
      at.byId('study-blind-label').textContent = `What ${bare} does not show`;
      for (const [id, text] of [['study-blind', parameter?.blind], ['study-practice', parameter?.practice]]) {
        at.byId(/** @type {string} */ (id)).textContent = prose(text ?? '');
        at.byId(/** @type {string} */ (id)).parentElement?.toggleAttribute('hidden', !text);
      }
      fill(at.byId('study-source'), entry && src(entry.source, entry.basis), entry && `; over ${entry.over}`);
      const defined = parameter?.defined.mathml ? mathOf(answer.symbol, parameter.defined) : null;
      defined?.setAttribute('aria-hidden', 'true');
      fill(at.byId('study-defined'), defined, el('span', { class: 'vh' }, parameter?.defined.spoken));
      at.byId('study-defined').parentElement?.toggleAttribute('hidden', !defined);
    }
    tell();
    worked();
    if (!study.live) steadiness();
  });
}

// "n_sc" with its index below.
/** @type {(text: string) => HTMLElement} */
function shown(text) {
  const [letter, index] = text.split('_');
  return el('var', {}, letter, index && el('sub', {}, index));
}
