// Step 5, profile: the sections, the profile that is evaluated, the part drawn, and what is left out of it.
import { el, fill, Step, symbol } from '../shared/dom.js';
import { count, counted, exactly, mm, parse, place } from '../shared/numbers.js';
import { Picture } from '../shared/picture.js';
import { Cursor } from './cursor.js';
import { inWords } from './step1.js';
import { from as origin } from './step3.js';
import { shown } from './state.js';

/** @typedef {import('./sheet.js').Sheet} Sheet */
/** @typedef {import('../furrow.js').Exclusion} Exclusion */

const names = { R: 'roughness profile R', W: 'waviness profile W', P: 'primary profile P' };

/** What the values asked for were before a part was left out, by its span. @type {Map<string, {settings: string, said: string}>} */
const before = new Map();

/** @type {(sheet: Sheet) => {leaveOut: (from: number, to: number) => void}} */
export function profile(sheet) {
  const step = new Step(sheet.at, 'profile');
  sheet.at.numberField('sections-count', { low: 1, high: 100000, whole: true }, (sections) => sheet.set({ sections: sections === sheet.row.sections ? undefined : sections }, { field: 'sections-count' }));
  sheet.at.numberField('sections-length', { unit: 'mm', scale: 1000, low: 1e-6, high: 1e6 }, (section) => sheet.set({ section }, { field: 'sections-length' }));
  sheet.at.numberField('sections-start', { unit: 'mm', scale: 1000, low: 0, high: 1e6, empty: true }, (start) => sheet.set({ start }, { field: 'sections-start' }));
  sheet.at.radios('letter', (letter) => {
    sheet.open = sheet.open && letter + sheet.open.slice(1);
    // What was asked for of one profile is asked for of the other.
    const asked = sheet.state.asked.map((a) => (a.startsWith(sheet.letter) ? letter + a.slice(1) : a));
    const profile = letter === 'R' ? undefined : /** @type {import('../furrow.js').Letter} */ (letter);
    sheet.change({ asked, settings: { ...sheet.state.settings, profile } }, { field: 'profile-letter' });
  });

  const length = () => (sheet.trace ? sheet.trace.profile.z.length * sheet.trace.profile.spacing : 0);
  /** @type {(from: number, to: number, field?: string) => void} */
  const view = (from, to, field = 'view-from') => {
    const whole = from <= 0 && to >= length();
    if (!whole && to - from < 4 * (sheet.trace?.profile.spacing ?? 1)) return sheet.at.refuse(field, 'The part must hold at least four points. The earlier part stays.');
    sheet.at.accept('view-from');
    sheet.at.accept('view-to');
    sheet.change({ view: whole ? null : [Math.max(0, from), Math.min(length(), to)] }, { field });
  };
  const seen = () => sheet.state.view ?? [0, length()];
  sheet.at.numberField('view-from', { unit: 'mm', scale: 1000, low: 0 }, (from = 0) => view(from, seen()[1], 'view-from'));
  sheet.at.numberField('view-to', { unit: 'mm', scale: 1000, low: 0 }, (to = 0) => view(seen()[0], to, 'view-to'));
  sheet.at.byId('view-whole').addEventListener('click', () => view(0, Infinity));

  const picture = new Picture('profile-picture', 'profile-numbers', sheet);
  picture.what = () => (sheet.evaluation && !sheet.evaluation.problem ? { name: 'profile', options: sheet.state.view ? { from: sheet.state.view[0], to: sheet.state.view[1] } : {} } : null);
  const form = leaveOutForm(sheet);
  const cursor = new Cursor(picture, sheet, { view, seen, length, leaveOut: form.open });
  picture.ondraw = (svg) => cursor.place(svg);

  sheet.renders(() => {
    const { evaluation } = sheet;
    const settings = evaluation?.result.settings;
    sheet.at.showRadio('letter', sheet.letter);
    const skidded = sheet.way(sheet.trace?.id ?? '').skid === 'with';
    for (const l of ['w', 'p']) {
      const radio = sheet.at.input(`profile-letter-${l}`);
      radio.disabled = skidded || !sheet.edition.symbols[/** @type {'W' | 'P'} */ (radio.value)].length;
      radio.parentElement?.classList.toggle('off', radio.disabled);
    }
    const [from, to] = seen();
    sheet.at.showNumber('view-from', from / 1000);
    sheet.at.showNumber('view-to', to / 1000);
    leftOut(sheet, form.edit);
    changed(sheet);
    if (!evaluation || evaluation.problem || !settings) {
      const { row } = sheet;
      sheet.at.showNumber('sections-count', sheet.state.settings.sections ?? row.sections);
      sheet.at.showNumber('sections-length', (sheet.state.settings.section ?? row.section) / 1000);
      sheet.at.showNumber('sections-start', sheet.state.settings.start === undefined || sheet.state.settings.start === null ? null : sheet.state.settings.start / 1000);
      step.why(`The ${names[sheet.letter]}`, `${inWords(row.sections)} sections of ${mm(row.section)}`, 'Sections as long as the nesting index, in the middle of the trace.');
      step.out([['evaluated', el('span', { class: 'wait' }, evaluation?.problem ?? 'No trace yet')]]);
      step.gist.textContent = evaluation?.problem ?? 'No trace yet';
      picture.draw();
      return;
    }
    const { result: { profile: p, notes } } = evaluation;
    sheet.at.showNumber('sections-count', settings.sections);
    sheet.at.showNumber('sections-length', p.section / 1000);
    sheet.at.showNumber('sections-start', p.start / 1000);
    const end = p.start + p.evaluation;
    const left = settings.exclude.length;
    step.why(
      [`The ${names[settings.profile]}, ${mm(p.points * p.spacing)}`],
      [`${inWords(p.sections)[0].toUpperCase()}${inWords(p.sections).slice(1)} section${p.sections === 1 ? '' : 's'}, ${place(p.start)} to ${place(end)}; ${left ? `${inWords(left)} part${left > 1 ? 's' : ''}` : 'nothing'} left out`],
      [sheet.state.settings.section !== undefined ? 'The length of a section was set here.' : 'A section is as long as the nesting index of the L-filter, unless the standard or the drawing says otherwise.', ' ',
        sheet.state.settings.start === undefined ? 'The sections lie in the middle of the trace; the rest at the ends is not used.' : 'Their start was set here.',
        origin('number', sheet.origin('sections', sheet.state.settings.sections !== undefined)), origin('length', sheet.origin('section', sheet.state.settings.section !== undefined))],
    );
    /** @type {[import('../shared/dom.js').Child, import('../shared/dom.js').Child][]} */
    const out = [['evaluated', `${exactly(p.start / 1000, 'mm')} to ${mm(end)}`], ['points', `${count(evaluation.sections * evaluation.sectionPoints)} in ${p.sections} × ${count(evaluation.sectionPoints)}`],
      ['reference', 'line at 0'], ['left out', left ? count(left) : 'nothing']];
    const short = notes.find((n) => n.code === 'too-short');
    step.out(out, short?.text);
    step.gist.textContent = `${p.sections} × ${mm(p.section)}, from ${mm(p.start)} to ${mm(end)} · ${left ? `${left} part${left > 1 ? 's' : ''} left out` : 'nothing left out'}`;
    picture.draw();
  }, step.root);
  return { leaveOut: form.open };
}

// The form that leaves a part out. Opened from the button, from a check of step 2 and from the picture.
/** @type {(sheet: Sheet) => {open: (from?: number, to?: number) => void, edit: (i: number) => void}} */
function leaveOutForm(sheet) {
  const form = /** @type {HTMLFormElement} */ (sheet.at.byId('leave-out'));
  const button = sheet.at.byId('profile-leave-out');
  let editing = -1; // the exclusion whose reason is changed
  /** @type {(shownNow: boolean) => void} */
  const show = (shownNow) => {
    form.hidden = !shownNow;
    button.setAttribute('aria-expanded', String(shownNow));
  };
  /** @type {(from?: number, to?: number) => void} */
  const open = (from, to) => {
    editing = -1;
    show(true);
    if (from !== undefined && to !== undefined) {
      sheet.at.input('leave-out-from').value = exactly(from / 1000, 'mm', 6);
      sheet.at.input('leave-out-to').value = exactly(to / 1000, 'mm', 6);
    }
    (from === undefined ? sheet.at.input('leave-out-from') : sheet.at.input('leave-out-reason')).focus();
  };
  /** @type {(i: number) => void} */
  const edit = (i) => {
    const { from, to, reason } = sheet.excluded[i];
    open(from, to);
    editing = i;
    sheet.at.input('leave-out-reason').value = reason;
    sheet.at.input('leave-out-reason').select();
  };
  button.addEventListener('click', () => (form.hidden ? open() : show(false)));
  sheet.at.byId('leave-out-close').addEventListener('click', () => {
    show(false);
    button.focus();
  });
  form.addEventListener('keydown', (event) => {
    if (event.key !== 'Escape') return;
    show(false);
    button.focus();
  });
  form.addEventListener('submit', (event) => {
    event.preventDefault();
    for (const id of ['leave-out-from', 'leave-out-to', 'leave-out-reason']) sheet.at.accept(id);
    const { value: each, unit } = counted(1, 'mm');
    const from = parse(sheet.at.input('leave-out-from').value, unit);
    const to = parse(sheet.at.input('leave-out-to').value, unit);
    const reason = sheet.at.input('leave-out-reason').value.trim();
    if ('fault' in from) return sheet.at.refuse('leave-out-from', from.fault);
    if ('fault' in to) return sheet.at.refuse('leave-out-to', to.fault);
    if (to.value < from.value) return sheet.at.refuse('leave-out-to', 'The end lies before the start.');
    if (!reason) return sheet.at.refuse('leave-out-reason', 'A reason is needed. It is kept with the values.');
    const one = { from: tidy((from.value / each) * 1000), to: tidy((to.value / each) * 1000), reason };
    const exclude = [...sheet.excluded];
    if (editing >= 0) exclude[editing] = one;
    else {
      exclude.push(one);
      before.set(span(one), { settings: others(sheet), said: sheet.state.asked.map((a) => sheet.value(a)).filter((v) => v !== undefined).map((v) => `${v.symbol} ${shown(v)}`).join(', ') });
    }
    sheet.exclude(exclude, { field: 'leave-out-from' });
    sheet.at.input('leave-out-reason').value = '';
    show(false);
    button.focus();
  });
  return { open, edit };
}

/** @type {(v: number) => number} */
const tidy = (v) => Number(v.toPrecision(12));

/** @type {(e: Exclusion) => string} */
const span = (e) => `${e.from} ${e.to}`;

/** Everything but the part left out, to know whether before and after belong together. @type {(sheet: Sheet) => string} */
const others = (sheet) => JSON.stringify([sheet.state.settings, sheet.state.row, sheet.trace?.label]);

/** @type {(sheet: Sheet, edit: (i: number) => void) => void} */
function leftOut(sheet, edit) {
  const exclude = sheet.excluded;
  fill(sheet.at.byId('left-out'), ...exclude.map((e, i) => {
    const suffix = i ? `-${i + 1}` : '';
    const was = before.get(span(e));
    const now = sheet.state.asked.map((a) => sheet.value(a)).filter((v) => v !== undefined).map((v) => `${v.symbol} ${shown(v)}`).join(', ');
    const both = was && was.settings === others(sheet) && exclude.length === 1 ? ` With this part: ${was.said}. Without it: ${now}.` : '';
    return el('div', { class: 'changed' },
      el('p', {}, el('b', {}, `Left out: ${place(e.from)} to ${place(e.to)}, “${e.reason}”.`), both, ' It is bridged by a straight line and is not used to fit the form.'),
      el('p', { class: 'acts' },
        el('button', { type: 'button', id: `left-out-back${suffix}`, onclick: () => sheet.exclude(exclude.filter((_, k) => k !== i)) }, 'Use this part again'),
        el('button', { type: 'button', id: `left-out-reason${suffix}`, onclick: () => edit(i) }, 'Change the reason')));
  }));
}

// The note that stands whenever the sections differ from the requirement.
/** @type {(sheet: Sheet) => void} */
function changed(sheet) {
  const box = sheet.at.byId('profile-changed');
  const { sections, section, start } = sheet.state.settings;
  box.hidden = sections === undefined && section === undefined && start === undefined;
  if (box.hidden) return;
  const { row } = sheet;
  fill(box, el('p', {}, el('b', {}, 'The sections were set here; '), `the requirement asks for ${row.sections} of ${mm(row.section)}, together `, symbol('l', 'e'), ` ${mm(row.evaluation)}.`),
    el('p', { class: 'acts' }, el('button', { type: 'button', id: 'sections-back', onclick: () => sheet.set({ sections: undefined, section: undefined, start: undefined }) }, `Back to ${row.sections} × ${mm(row.section)}`)));
}
