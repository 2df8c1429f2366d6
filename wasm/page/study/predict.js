// Predict, then look: questions about the trace in use, each answered once before anything of its answer is in the page.
import { el, fill } from '../shared/dom.js';
import { style } from '../shared/numbers.js';
import { prose } from '../worksheet/work.js';
import { subject } from './exercise.js';

/** @typedef {import('./study.js').Study} Study */
/** @typedef {import('../furrow.js').StudyQuestion} Question */
/** @typedef {import('../furrow.js').StudyReply} Reply */
/** @typedef {import('../furrow.js').StudyState} StudyState */
/** @typedef {import('./exercise.js').Exercise} Exercise */

/** @type {(study: Study, tables: import('../furrow.js').StudyTables, exercise: Exercise) => void} */
export function predict(study, tables, kept) {
  const { at } = study;
  const box = at.byId('study-predict');
  /** @type {{offered: readonly Question[], withheld: readonly {letter: string, id: string, why: string}[]} | null} */
  let asked = null;
  /** The exercise that the questions are about. @type {StudyState | null} */
  let about = null;
  /** @type {Question | null} */
  let question = null;
  /** @type {Reply | null} */
  let reply = null;
  let turn = 0;
  let of = '';
  /** Whether values were hidden when the questions were looked at last. */
  let closed = false;

  const pick = async (/** @type {Question | null} */ q) => {
    question = q;
    reply = null;
    const open = q && !(q.letter in kept.answers);
    study.hides.predict = open ? q.hides : [];
    study.distribution = !!open && q.distribution;
    if (q && q.letter in kept.answers) await look(kept.answers[q.letter], false);
    else if (study.answer) study.run();
    show();
  };
  const look = async (/** @type {number} */ option, /** @type {boolean} */ fresh) => {
    const q = question;
    if (!q || !about) return;
    try {
      const answer = await study.beside(() => q === question, { do: 'answer', state: about, letter: q.letter, option });
      if (!answer || q !== question) return;
      reply = answer;
    } catch (error) {
      return fill(at.byId('predict-reply'), `No reply: ${/** @type {Error} */ (error).message}.`);
    }
    kept.answer(q.letter, option);
    study.hides.predict = [];
    study.distribution = false;
    if (study.closed && study.state.hide === 1 && fitting().every((x) => x.letter in kept.answers)) study.opened = true;
    show();
    if (fresh && reply?.state) {
      of = kept.show(reply.state); // the picture shows what was asked about; the questions stay
      study.open({ state: { ...reply.state, way: 'predict' }, before: reply.before });
    } else study.run();
    if (fresh) at.byId('predict-look').focus();
    if (fresh) at.byId('predict-reply').scrollIntoView({ block: 'nearest' });
  };

  /** The questions that can be asked now: while the value is hidden, those that do not tell it, and none before the guess that is wanted first. */
  const fitting = () => (asked?.offered ?? []).filter((q) => !study.closed || (study.state.hide === 1 && !q.tells));

  const ask = async () => {
    const now = subject(study.state);
    if (now === of || study.live) {
      if (closed === study.closed) return;
      closed = study.closed;
      return reply ? show() : void pick(fitting().find((q) => !(q.letter in kept.answers)) ?? question ?? null);
    }
    of = now;
    closed = study.closed;
    kept.leave();
    kept.use(study.state);
    // A class sees the same order of the options: it follows from the exercise as it was opened.
    about = kept.first?.state ?? study.state;
    asked = null;
    question = reply = null;
    study.hides.predict = [];
    const mine = ++turn;
    show();
    try {
      const answer = await study.beside(() => mine === turn, { do: 'ask', state: about });
      if (!answer || mine !== turn) return;
      // An exercise asks what it names, in its order; what does not fit is said.
      const named = [...(study.state.questions ?? '')];
      /** @type {<T extends {letter: string}>(list: readonly T[]) => readonly T[]} */
      const chosen = (list) => (named.length ? list.filter((x) => named.includes(x.letter)).sort((a, b) => named.indexOf(a.letter) - named.indexOf(b.letter)) : list);
      asked = { offered: chosen(answer.offered), withheld: chosen(answer.withheld) };
      pick(fitting().find((q) => !(q.letter in kept.answers)) ?? fitting()[0] ?? null);
    } catch (error) {
      if (mine === turn) fill(at.byId('predict-list'), el('li', {}, `No question can be made: ${/** @type {Error} */ (error).message}.`));
    }
  };

  at.press('predict-look', () => {
    if (reply || !question) return next();
    const chosen = /** @type {HTMLInputElement | null} */ (box.querySelector('input[name=predict]:checked'));
    at.byId('predict-missing').hidden = !!chosen;
    if (chosen) look(Number(chosen.value), true);
  });
  const next = () => {
    const list = fitting();
    const i = list.findIndex((q) => q.letter === question?.letter);
    const following = [...list.slice(i + 1), ...list.slice(0, i)].find((q) => !(q.letter in kept.answers));
    if (following) pick(following);
    // The picture goes back to the trace that the questions are about.
    if (about && subject(study.state) !== subject(about)) {
      of = subject(about);
      study.open({ state: { ...about, symbol: study.symbol }, before: null });
    }
    at.byId('predict-question').focus();
  };
  at.press('predict-try', () => reply && study.change({ way: 'look', move: reply.try.move }, 'move-what'));

  function show() {
    const q = question;
    const answered = q ? kept.answers[q.letter] : undefined;
    fill(at.byId('predict-question'), !asked ? el('span', { class: 'wait' }, 'The questions are being made …') : q ? prose(q.words) : study.closed && asked.offered.length ? 'First your guess of the value: type it above. The questions follow.' : 'No question fits this trace and this symbol. Try a surface with five sections.');
    const options = q ? [...q.options.map((o, i) => [String(i), prose(o)]), ['-1', 'I do not know']] : [];
    const key = JSON.stringify([q?.letter, options, answered, style.mark]);
    const list = at.byId('predict-options');
    list.hidden = !q;
    if (list.dataset.of !== key) {
      list.dataset.of = key;
      fill(list, el('legend', { class: 'vh' }, 'What do you expect?'), ...options.map(([value, words]) => el('label', {}, el('input', { type: 'radio', name: 'predict', value, id: value === '-1' ? 'predict-unsure' : `predict-option-${Number(value) + 1}`, checked: String(answered) === value, disabled: answered !== undefined }), words)));
    }
    const more = fitting().some((x) => !(x.letter in kept.answers));
    const button = /** @type {HTMLButtonElement} */ (at.byId('predict-look'));
    button.textContent = reply ? 'Next question' : 'Show me';
    button.hidden = !q || (!!reply && !more);
    at.byId('predict-missing').hidden = true;
    fill(at.byId('predict-reply'), ...(reply ? [el('p', {}, prose(reply.reason)), el('p', {}, prose(reply.compared))] : []));
    const tries = at.byId('predict-try');
    tries.hidden = !reply?.try.words;
    tries.textContent = prose(reply?.try.words ?? '');
    fill(at.byId('predict-list'), ...fitting().map((x) => el('li', {}, el('button', { type: 'button', class: 'quiet', id: x.id, 'aria-current': x.letter === q?.letter ? 'true' : undefined, onclick: () => pick(x) }, `Question ${x.letter}`), x.letter in kept.answers ? ', answered' : '')),
      ...(asked?.offered ?? []).filter((x) => !fitting().includes(x)).map((x) => el('li', { class: 'off' }, `Question ${x.letter}: after the value is shown`)),
      ...(asked?.withheld ?? []).map((x) => el('li', { class: 'off' }, `Question ${x.letter}: ${prose(x.why)}`)));
  }

  // An exercise for a class names its questions; they stand in its link.
  const form = at.byId('exercise-box');
  fill(at.byId('exercise-questions'), el('legend', {}, 'Questions'), ...tables.questions.map((q) => el('label', {}, el('input', { type: 'checkbox', name: 'exercise', value: q.letter, id: `exercise-${q.letter}` }), q.letter)));
  at.press('exercise-build', () => {
    form.hidden = !form.hidden;
    at.byId('exercise-build').setAttribute('aria-expanded', String(!form.hidden));
  });
  at.byId('exercise-questions').addEventListener('change', () => {
    const boxes = /** @type {NodeListOf<HTMLInputElement>} */ (form.querySelectorAll('input[name=exercise]:checked'));
    study.change({ questions: [...boxes].map((b) => b.value).join('') }, 'exercise-questions');
  });
  at.radios('exercise-hide', (value) => {
    [study.own, study.opened] = [true, false];
    study.change({ hide: /** @type {0 | 1 | 2} */ (Number(value)) }, 'exercise-hide');
  });

  study.renderers.push(() => {
    at.showRadio('exercise-hide', String(study.state.hide ?? 0));
    for (const b of /** @type {NodeListOf<HTMLInputElement>} */ (form.querySelectorAll('input[name=exercise]'))) b.checked = (study.state.questions ?? '').includes(b.value);
    const is = study.state.way === 'predict';
    box.hidden = !is;
    if (is) ask();
    else if (study.hides.predict.length || study.distribution) {
      study.hides.predict = [];
      study.distribution = false;
      of = '';
      study.run();
    }
  });
}
