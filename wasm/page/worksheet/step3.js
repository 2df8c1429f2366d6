// Step 3, primary profile: the S-filter, then the form that is removed.
import { el, fill, fillSelect, src, Step, symbol } from '../shared/dom.js';
import { count, height, mm, range, um } from '../shared/numbers.js';
import { Picture } from '../shared/picture.js';

/** @typedef {import('./sheet.js').Sheet} Sheet */

/** Words of the forms, in the order of the list. @type {Record<string, string>} */
const words = {
  none: 'nothing', mean: 'mean height', line: 'straight line', polynomial: 'polynomial, degree …',
  circle: 'circle, radius found', 'circle-given': 'circle, radius given', ellipse: 'ellipse',
};

/** @type {(sheet: Sheet) => void} */
export function primary(sheet) {
  const step = new Step(sheet.at, 'primary');
  const kind = sheet.at.select('form-kind');
  const on = sheet.at.input('short-on');

  sheet.at.numberField('short-cutoff', { unit: 'µm', low: 1e-6, high: 1e6 }, (cutoff) => {
    sheet.set({ short: { filter: sheet.edition.short || 'gaussian', cutoff } }, { field: 'short-cutoff' });
  });
  on.addEventListener('change', () => {
    sheet.set({ short: on.checked ? undefined : null }, { field: 'short-on' });
  });
  kind.addEventListener('change', () => {
    /** @type {Record<string, import('../furrow.js').Form>} */
    const forms = { polynomial: { kind: 'polynomial', degree: 2 }, 'circle-given': { kind: 'circle', radius: 25000 } };
    sheet.set({ form: forms[kind.value] ?? { kind: kind.value } }, { field: 'form-kind' });
  });
  sheet.at.numberField('form-degree', { low: 0, high: 20, whole: true }, (degree) => sheet.set({ form: { kind: 'polynomial', degree } }, { field: 'form-degree' }));
  sheet.at.numberField('form-radius', { unit: 'mm', scale: 1000 }, (radius) => sheet.set({ form: { kind: 'circle', radius } }, { field: 'form-radius' }));

  const picture = new Picture('form-picture', 'form-numbers', sheet);
  picture.what = () => (sheet.evaluation && !sheet.evaluation.problem ? { name: 'form', options: {} } : null);

  sheet.renders(() => {
    const { evaluation, row } = sheet;
    fillSelect(kind, Object.keys(words).filter((k) => sheet.catalogue.forms.includes(k.replace('-given', ''))).map((k) => [k, words[k]]), kind.value);
    const settings = evaluation?.result.settings;
    const form = settings?.form ?? { kind: 'line' };
    const named = form.kind === 'circle' && form.radius ? 'circle-given' : form.kind;
    kind.value = named;
    sheet.at.byId('form-degree-row').hidden = named !== 'polynomial';
    sheet.at.byId('form-radius-row').hidden = named !== 'circle-given';
    sheet.at.showNumber('form-degree', form.degree);
    sheet.at.showNumber('form-radius', form.radius && form.radius / 1000);
    on.checked = settings ? settings.short !== null : true;
    sheet.at.showNumber('short-cutoff', settings?.short?.cutoff ?? sheet.state.settings.short?.cutoff ?? row.short);
    sheet.at.input('short-cutoff').disabled = !on.checked;
    kind.disabled = ['levelled', 'filtered'].includes(sheet.way(sheet.trace?.id ?? '').input ?? '');

    if (!evaluation || evaluation.problem || !settings) {
      const wait = el('span', { class: 'wait' }, evaluation ? 'The trace cannot be evaluated' : 'No trace yet');
      step.why('The trace of step 2', 'A straight line, by least squares', 'A trace is rarely level.');
      step.out([['profile', wait]]);
      step.gist.textContent = evaluation ? 'The trace cannot be evaluated' : 'No trace yet';
      fill(sheet.at.byId('form-left'), 'No trace yet');
      sheet.at.byId('form-left-text').textContent = '';
      changed(sheet, settings);
      picture.draw();
      return;
    }
    const { summary, result: { profile } } = evaluation;
    const filterSaid = settings.short ? [`Gaussian S-filter, `, symbol('N', 'is'), ` ${um(settings.short.cutoff ?? 0)}; `] : ['no S-filter; '];
    const shape = { none: 'no form', mean: 'the mean height', line: 'a straight line, by least squares', polynomial: `a polynomial of degree ${form.degree}`, circle: form.radius ? `a circle of radius ${mm(form.radius)}` : 'a circle, radius found', ellipse: 'an ellipse' };
    step.why(
      ['The trace, ' + ({ raw: 'heights as traced', levelled: 'form already removed', filtered: 'already filtered' })[settings.input]],
      [...filterSaid, shape[/** @type {keyof typeof shape} */ (form.kind)] ?? form.kind],
      [settings.input === 'raw' ? 'Short waves are removed first, then the form, then the long waves.' : 'You said in step 2 that the form is already removed.', ' ',
        from('S-filter', sheet.origin('short.cutoff', sheet.state.settings.short !== undefined)), from('form', sheet.origin('form.kind', !!sheet.state.settings.form))],
    );
    const left = summary.bow;
    const straight = left === null || left < 1e-6;
    fill(sheet.at.byId('form-left'), straight ? 'no bow' : height(left, 2));
    sheet.at.byId('form-left-text').textContent = straight ? '' : settings.input === 'filtered' ? 'of bow remain, because nothing is removed.'
      : `of bow${settings.long ? '; the L-filter puts it into the waviness.' : ' remain, because there is no L-filter.'}`;
    changed(sheet, settings);
    /** @type {[string, string][]} */
    const out = [];
    if (form.kind !== 'none' && summary.rise !== null) out.push(['rise removed', height(summary.rise)]);
    out.push(['bow that remains', straight ? 'none' : height(left, 2)], ['profile', `P, ${count(profile.points)} points`],
      ['heights', range(summary.primary)]);
    step.out(out);
    step.gist.textContent = `${settings.short ? `S-filter ${um(settings.short.cutoff ?? 0)}` : 'no S-filter'} · ${form.kind === 'none' ? 'no form removed' : `${(words[named] ?? form.kind).replace(', degree …', ` of degree ${form.degree}`)} removed${summary.rise !== null ? `, ${height(Math.abs(summary.rise), 2)} high` : ''}`}`;
    picture.draw();
  }, step.root);
}

// The note that stands whenever the S-filter differs from the requirement.
/** @type {(sheet: Sheet, settings: import('../furrow.js').CompleteSettings | undefined) => void} */
function changed(sheet, settings) {
  const box = sheet.at.byId('primary-changed');
  const wanted = sheet.row.short;
  const own = sheet.state.settings.short;
  box.hidden = own === undefined || !settings || (own !== null && own.cutoff === wanted);
  if (box.hidden) return;
  const back = el('button', { type: 'button', id: 'short-back', onclick: () => sheet.set({ short: undefined }) }, wanted ? `Back to ${um(wanted)}` : 'Back to none');
  fill(box, el('p', {}, el('b', {}, symbol('N', 'is'), own === null ? ' is not used' : ` is ${um(own?.cutoff ?? 0)}`, `; the requirement asks for ${wanted ? um(wanted) : 'none'}.`),
    ' The values are calculated with the setting made here.'), el('p', { class: 'acts' }, back));
}

/** Where a setting comes from. @type {(what: string, origin: ReturnType<Sheet['origin']>) => HTMLElement} */
export const from = (what, { said, basis }) => src(`${what}: ${said}`, basis);
