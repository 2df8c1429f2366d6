// The exercise as a link, an exercise for a class, and what is kept of it on this device.
import { subject } from './exercise.js';

/** @typedef {import('./study.js').Study} Study */
/** @typedef {import('../furrow.js').StudyState} StudyState */
/** What is kept: the exercise, what was answered first, and whether it was made here. @typedef {{state: StudyState, first: import('./exercise.js').First, own: boolean}} KeptStudy */

const key = 'study';

/** @type {(study: Study, exercise: import('./exercise.js').Exercise) => {open: () => Promise<boolean>}} */
export function link(study, exercise) {
  const { at, client, pad } = study;
  const say = (/** @type {string} */ text) => {
    at.byId('study-said').textContent = text;
    at.byId('study-said').hidden = !text;
  };
  at.press('study-link', async () => {
    try {
      const { text, holds, problem } = await client.call('study', { do: 'link', state: study.state });
      if (problem) return say(problem);
      exercise.link(study.state);
      const address = `${location.origin}${location.pathname}#${text}`;
      history.replaceState(null, '', `#${text}`);
      const copied = await navigator.clipboard?.writeText(address).then(() => true, () => false);
      say(`${copied ? 'Copied' : 'The link is in the address line'}: ${text.length} characters. ${holds}`);
    } catch (error) {
      say(`No link can be made: ${/** @type {Error} */ (error).message}.`);
    }
  });

  /** Whether this exercise is kept at all: a measured trace is not; it is the worksheet's. */
  let kept = '';
  study.onchange = () => {
    const { store } = pad;
    if (!store) return pad.kept.refused(pad.refusal);
    exercise.use(study.state);
    if (exercise.first && study.state.hide && study.opened) exercise.first.shown = true;
    const record = { state: exercise.of(study.state), first: exercise.first, own: study.own };
    const text = JSON.stringify(record);
    if (text === kept) return;
    const first = !kept;
    kept = text;
    if (first) return;
    pad.kept.during(() => store.choose(key, record));
  };

  at.press('study-clear', () => {
    const box = at.byId('study-clear-box');
    box.hidden = false;
    at.byId('study-clear-yes').focus();
  });
  const close = () => {
    at.byId('study-clear-box').hidden = true;
    at.byId('study-clear').focus();
  };
  at.press('study-clear-no', close);
  at.press('study-clear-yes', async () => {
    close();
    await pad.store?.choose(key, undefined).catch((error) => pad.kept.refused(error));
    history.replaceState(null, '', location.pathname);
    exercise.clear();
    [study.own, study.opened] = [true, false];
    study.open({ state: { symbol: 'Rz', edition: pad.catalogue.editions[0].id, letter: 'R', surface: 'demo', demo: pad.first.key, way: 'look' }, before: null }, true);
    pad.kept.nothing('Demonstration, nothing to keep');
  });

  // A link, a symbol of the worksheet, or what was kept.
  const open = async () => {
    const hash = decodeURIComponent(location.hash.slice(1));
    const symbol = hash.match(/^symbol=(.+)/)?.[1];
    if (symbol) {
      history.replaceState(null, '', location.pathname);
      study.open({ state: { ...study.state, ...study.ofSheet?.state, symbol }, before: null }, true);
      return true;
    }
    if (hash) {
      const { state, notes, problem } = await client.call('study', { do: 'open', text: hash });
      if (problem) pad.trouble(problem);
      else if (notes.length) say(notes.join(' '));
      if (state) {
        const before = await pad.store?.choice(key).catch(() => null);
        if (before?.first && subject(before.state) === subject(state) && exercise.use(state, before.first)) say('You answered this exercise before. Your first answers are kept.');
        else exercise.use(state);
        exercise.link(state);
        [study.own, study.opened] = [before?.own === true && subject(before.state) === subject(state), !!exercise.first?.shown];
        study.open({ state, before: null }, true);
        return true;
      }
    }
    const before = await pad.store?.choice(key).catch((error) => void pad.kept.refused(error));
    if (!before?.state || (before.state.surface === 'sheet' && !study.ofSheet)) return false;
    exercise.use(before.state, before.first);
    [study.own, study.opened] = [before.own !== false, !!before.first?.shown];
    study.open({ state: before.state, before: null }, true);
    return true;
  };
  return { open };
}
