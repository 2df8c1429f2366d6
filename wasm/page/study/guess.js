// Values that an exercise hides until they are guessed: the guess, and what it turned out to be.
import { figure, parse, withUnit } from '../shared/numbers.js';
import { el, fill } from '../shared/dom.js';
import { prose } from '../worksheet/work.js';
import { entryOf } from './symbols.js';

/** @typedef {import('./study.js').Study} Study */

/** @type {(study: Study, kept: import('./exercise.js').Exercise) => void} */
export function guess(study, kept) {
  const { at } = study;
  const field = at.input('guess-value');
  const symbol = () => kept.first?.state.symbol ?? study.symbol;
  const unit = () => {
    const key = entryOf(study.symbols, symbol())?.key;
    const u = key ? study.catalogue.parameters[key].unit : '';
    return u === '1/10 mm' ? 'per 10 mm' : u;
  };

  const done = () => {
    at.accept('guess-value');
    const read = parse(field.value, /^(µm|mm)$/.test(unit()) ? unit() : '');
    if ('fault' in read) return at.refuse('guess-value', read.fault);
    kept.guess(read.value);
    study.show();
    if (study.symbol !== symbol()) study.change({ symbol: symbol() });
    at.byId('guess-reply').focus();
  };
  at.press('guess-done', done);
  field.addEventListener('keydown', (event) => event.key === 'Enter' && done());
  at.press('hidden-show', () => study.show());

  study.renderers.push(() => {
    const { first } = kept;
    const { closed, answer } = study;
    const guessed = first?.guess;
    at.byId('study-guess').hidden = !study.state.hide || (!closed && guessed === undefined);
    at.byId('guess-ask').hidden = !closed;
    at.byId('guess-label').textContent = `Your guess of ${symbol()}${unit() ? `, ${unit()}` : ''}`;
    at.byId('hidden-show').hidden = !closed || !study.own;
    const told = !closed && guessed !== undefined && answer?.symbol === symbol() && first && kept.of(study.state) && answer.value.value !== null;
    fill(at.byId('guess-reply'), told && el('span', {}, `You expected: ${withUnit(figure(guessed, 3), unit())}. The calculation gives: ${withUnit(prose(answer.value.shown), unit())}.`));
  });
}
