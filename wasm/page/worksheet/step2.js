// Step 2, trace: where it came from, how the file was read, and the checks before it is used.
import { el, fill, fillSelect, Step, symbol } from '../shared/dom.js';
import { count, height, mm, place, range, um } from '../shared/numbers.js';
import { Picture } from '../shared/picture.js';
import { html, render } from '../vendor/lit-html/lit-html.js';
import { heights } from './cursor.js';
import { demoTrace, rowKey } from './state.js';
import { inShort, traces } from './traces.js';

/** @typedef {import('./sheet.js').Sheet} Sheet */
/** @typedef {import('../shared/dom.js').Child} Child */

/** @type {(sheet: Sheet, leaveOut: (from: number, to: number) => void) => void} */
export function trace(sheet, leaveOut) {
  const step = new Step(sheet.at, 'trace');
  const demo = sheet.at.select('trace-demo');
  let asked = 0;
  const take = async () => {
    const key = demo.value;
    if (!key) return;
    const turn = ++asked; // the list may be drawn anew meanwhile, so its value does not tell
    try {
      const chosen = await sheet.client.call('demo', key);
      if (turn === asked) sheet.replace([demoTrace(chosen)]);
    } catch (error) {
      sheet.onrefuse(/** @type {Error} */ (error), 'trace-demo');
    }
  };
  demo.addEventListener('change', take);
  sheet.at.byId('empty-demo').addEventListener('click', () => {
    demo.value = sheet.demos[0].key;
    take();
  });
  sheet.at.radios('holds', (value) => sheet.setWay({ input: value === 'raw' ? undefined : /** @type {import('../furrow.js').Input} */ (value) }, 'trace-holds'));
  sheet.at.radios('skid', (skid) => sheet.setWay({ skid }, 'trace-skid'));
  sheet.at.input('trace-turn').addEventListener('change', () => sheet.setWay({ invert: sheet.at.input('trace-turn').checked || undefined }, 'trace-turn'));
  sheet.at.press('trace-same', () => sheet.sayOfAll(sheet.way(sheet.trace?.id ?? ''), 'trace-same'));

  traces(sheet);
  const picture = new Picture('trace-picture', 'trace-numbers', sheet);
  picture.what = () => (sheet.evaluation && !sheet.evaluation.problem ? { name: 'trace', options: {} } : null);

  sheet.renders(() => {
    const { state, evaluation } = sheet;
    const chosen = sheet.trace;
    const settings = sheet.way(chosen?.id ?? '');
    sheet.at.byId('trace-empty').hidden = !!chosen;
    fillSelect(demo, [['', chosen && !chosen.demo ? 'none; the trace is your own' : 'none'], ...sheet.demos.map((d) => /** @type {[string, string]} */ ([d.key, d.title]))], chosen?.demo ?? '');
    sheet.at.showRadio('holds', settings.input ?? 'raw');
    sheet.at.showRadio('skid', settings.skid);
    sheet.at.input('trace-turn').checked = !!settings.invert;
    sheet.at.byId('trace-about-gist').textContent = [{ raw: 'as traced', levelled: 'form removed', filtered: 'already filtered' }[settings.input ?? 'raw'], { without: 'without a skid', with: 'with a skid', unknown: 'skid not known' }[settings.skid] ?? '', settings.invert ? 'upside down' : ''].filter(Boolean).join(', ');
    sheet.at.byId('trace-way').hidden = state.traces.length < 2;
    sheet.at.byId('trace-way-of').textContent = `This is said of trace ${state.traces.findIndex((t) => t === chosen) + 1}, ${chosen?.label}, alone. Traces that were made in different ways do not count together.`;
    sheet.at.byId('trace-seen').hidden = !chosen;
    sheet.at.byId('demo-note').hidden = !chosen?.demo;
    render(html`${sheet.asks ? html`${sheet.asks} asks one question. <a href="#trace-question">Answer</a> ` : ''}${inShort(sheet)} <a href="#trace">Details</a>`, sheet.at.byId('trace-reading'));
    report(sheet, chosen?.reading ?? null);
    if (!chosen) {
      step.why('A file, a pasted table, or an invented trace', 'No trace yet', 'Units and decimal mark are read from the file. They are never guessed; where the file does not say, the sheet asks.');
      step.out([['points', el('span', { class: 'wait' }, 'No trace yet')]]);
      step.gist.textContent = 'No trace yet';
      fill(sheet.at.byId('trace-checks'));
      sheet.at.byId('trace-checks-head').hidden = true;
      picture.draw();
      return;
    }
    sheet.at.byId('trace-checks-head').hidden = false;
    const { reading } = chosen;
    const { profile } = chosen;
    const n = profile.z.length;
    const holds = { raw: 'heights as traced', levelled: 'form already removed', filtered: 'already filtered' }[settings.input ?? 'raw'];
    const r = reading?.report;
    step.why(
      [chosen.origin],
      [r ? [r.xUnit && `length in ${r.xUnit}`, r.zUnit && `height in ${r.zUnit}`, r.decimal && `decimal ${r.decimal}`].filter(Boolean).join(', ') + '; ' : '', holds],
      [r ? because(r) : 'It is calculated on this device, in micrometres. ', settings.input ? 'You said what the heights hold.' : 'We assume that nothing was removed, until you say otherwise.', ...(reading?.notes ?? []).map((x) => ` ${x.text}`)],
    );
    const p = evaluation?.result.profile;
    /** @type {[Child, Child][]} */
    const out = [['points', count(n)], ['spacing', um(profile.spacing)], ['length', place(n * profile.spacing)]];
    if (evaluation && !evaluation.problem) out.push(['heights', range(evaluation.summary.read)]);
    out.push(['missing', count(p?.invalid ?? 0)]);
    step.out(out, settings.invert ? 'Upside down, as the trace of a replica.' : null);
    step.gist.textContent = `${chosen.label}: ${count(n)} points, ${um(profile.spacing)} apart, ${mm(n * profile.spacing)}`;
    checks(sheet, leaveOut);
    picture.draw();
  }, step.root);
}

/** @type {(r: import('../furrow.js').Report) => string} */
function because(r) {
  const said = [];
  if (r.xUnit) said.push(`The unit of length comes from ${by(r.xUnitBy)}, the unit of the heights from ${by(r.zUnitBy)}.`);
  else if (r.zUnit) said.push(`The unit of the heights comes from ${by(r.zUnitBy)}, the spacing from ${by(r.spacingBy)}.`);
  if (r.delimiter) said.push(`Columns are separated by ${r.delimiter}.`);
  return said.join(' ') + ' ';
}

/** @type {(s: string) => string} */
const by = (s) => (s.startsWith('hint') ? 'your answer' : s);

/** @type {(sheet: Sheet, reading: import('../furrow.js').Reading | null) => void} */
function report(sheet, reading) {
  const table = sheet.at.byId('trace-report');
  sheet.at.byId('trace-read').hidden = !reading?.report.lines.length;
  if (!reading) return;
  /** @type {HTMLElement[]} */
  const rows = [];
  let last = 0;
  for (const { line, text, taken } of reading.report.lines) {
    const between = line - last - 1;
    if (last && between > 0) rows.push(el('tr', { class: 'gap' }, el('td', { class: 'num' }, '⋮'), el('td', {}, `${count(between)} line${between > 1 ? 's' : ''}`), el('td', {}, last >= reading.report.firstLine ? 'points like the others' : 'nothing that concerns the points')));
    const named = taken !== 'row' ? taken : line === reading.report.firstLine ? 'first point' : line === reading.report.lastLine ? 'last point' : 'point';
    rows.push(el('tr', {}, el('td', { class: 'num' }, count(line)), el('td', { class: 'typed' }, text), el('td', {}, named)));
    last = line;
  }
  fill(/** @type {Element} */ (table.querySelector('tbody')), ...rows);
}

/** Findings that the checks tell in words of their own. */
const told = new Set(['gaps', 'too-short', 'too-coarse']);

// Checks of the trace: a bold word, and the number that led to it.
/** @type {(sheet: Sheet, leaveOut: (from: number, to: number) => void) => void} */
function checks(sheet, leaveOut) {
  const list = sheet.at.byId('trace-checks');
  const { evaluation, row } = sheet;
  if (!evaluation || !sheet.trace) return;
  const { result: { profile: p, settings, notes }, summary } = evaluation;
  /** @type {HTMLElement[]} */
  const said = [];
  /** @type {(word: string, ...rest: Child[]) => void} */
  const add = (word, ...rest) => void said.push(el('li', {}, el('b', {}, word), ' ', ...rest.filter(Boolean)));
  /** @type {(word: string, ...rest: Child[]) => void} */
  const look = (word, ...rest) => void said.push(el('li', { class: 'look' }, el('b', {}, word), ' ', ...rest.filter(Boolean)));
  const length = mm(p.points * p.spacing);
  const wanted = settings.sections && settings.section ? `${settings.sections} sections of ${mm(settings.section)}` : '';
  if (evaluation.problem) look('Cannot be evaluated.', `${evaluation.problem[0].toUpperCase()}${evaluation.problem.slice(1)}.`, ' ', shorter(sheet));
  else if (p.sections < settings.sections) look('Too short.', `The trace is ${length} long and holds ${p.sections} of ${wanted}. The values come from ${p.sections === 1 ? 'one section' : `${p.sections} sections`}.`);
  else add('Long enough.', `The trace is ${length} long; ${wanted} fit.`);
  if (row.maxSpacing && settings.short) {
    if (p.spacing <= row.maxSpacing * (1 + 1e-9)) add('Fine enough.', `Points lie ${um(p.spacing)} apart; `, symbol('N', 'is'), ` ${um(settings.short.cutoff ?? 0)} allows ${um(row.maxSpacing)}.`);
    else look('Coarse.', `Points lie ${um(p.spacing)} apart; ${um(row.maxSpacing)} are allowed for `, symbol('N', 'is'), ` ${um(settings.short.cutoff ?? 0)}.`);
  } else if (!settings.short) look('No S-filter.', `${notes.find((x) => x.code === 'short-left-out')?.text ?? 'It is switched off in step 3, so short waves remain.'}`);
  if (p.invalid === 0) add('Whole.', 'Every point has a height.');
  else look('Gaps.', `${count(p.invalid)} points have no height.`, ...notes.filter((x) => x.code === 'bridged' || x.code === 'ends-invalid').map((x) => ` ${x.text}`));
  if (sheet.way(sheet.trace.id).skid === 'with') look('Traced with a skid.', 'The skid follows the surface, so waviness and primary profile cannot be determined.');
  for (const f of evaluation.findings) if (!told.has(f.code)) look('Check this.', `${f.text} ${f.advice}`);
  const { low, lowX, high, highX } = summary.evaluated;
  if (!evaluation.problem && low !== null && lowX !== null && high !== null && highX !== null) {
    const pit = Math.abs(low) >= Math.abs(high);
    const [z, x] = pit ? [low, lowX] : [high, highX];
    look('Check this.', `The ${pit ? 'pit' : 'peak'} at ${place(x)}, ${height(Math.abs(z))} ${pit ? 'deep' : 'high'}, is the ${pit ? 'deepest' : 'highest'} of the evaluated part. It is not left out. `,
      el('button', { type: 'button', class: 'inline', id: 'trace-leave-out', onclick: async () => leaveOut(...neighbourhood((await heights(sheet)) ?? new Float64Array(), Math.round(x / p.spacing), z, evaluation)) }, 'Leave it out, with a reason'));
  }
  fill(list, ...said);
}

// A class whose sections would fit, offered and never taken by itself.
/** @type {(sheet: Sheet) => Child} */
function shorter(sheet) {
  const trace = sheet.trace;
  if (!trace) return null;
  const length = trace.profile.z.length * trace.profile.spacing;
  const { rows } = sheet.edition;
  const fits = rows.map((r, i) => ({ r, i })).reverse().find(({ r }) => r.section && r.section <= length && r !== sheet.row);
  if (!fits) return null;
  return el('button', { type: 'button', class: 'inline', id: 'trace-shorter', onclick: () => sheet.change({ row: rowKey(fits.r, fits.i) }) }, `Use ${fits.r.name ? `class ${fits.r.name}, ` : ''}sections of ${mm(fits.r.section)}`);
}

/** The stretch around a point in which the profile stays beyond half its height. @type {(drawn: Float64Array, point: number, z: number, e: import('./sheet.js').Evaluation) => [number, number]} */
function neighbourhood(drawn, point, z, e) {
  const at = point - e.first;
  const beyond = (/** @type {number} */ i) => (z < 0 ? drawn[i] < z / 2 : drawn[i] > z / 2);
  let from = at;
  let to = at;
  while (from > 0 && beyond(from - 1)) from--;
  while (to < drawn.length - 1 && beyond(to + 1)) to++;
  const { spacing } = e.result.profile;
  return [(e.first + from) * spacing, (e.first + to) * spacing];
}
