// The table to copy and to print: values with units and sections, and every setting they were worked with.
import { el, fill } from '../shared/dom.js';
import { count, figure, mm, place, plain, style, um } from '../shared/numbers.js';
import { otherwise } from './step1.js';
import { ends, kinds } from './step4.js';
import { said } from './step7.js';

/** @typedef {import('./sheet.js').Sheet} Sheet */

/** @type {(sheet: Sheet) => void} */
export function record(sheet) {
  sheet.at.byId('record-print').addEventListener('click', () => print());
  sheet.at.byId('record-copy').addEventListener('click', async () => {
    const said = sheet.at.byId('record-said');
    const rows = cells(sheet);
    if (!rows.length) return void (said.textContent = 'There are no values yet.');
    const text = rows.map((r) => r.join('\t')).join('\n');
    const html = `<table>${rows.map((r) => `<tr>${r.map((c) => `<td>${c.replace(/&/g, '&amp;').replace(/</g, '&lt;')}</td>`).join('')}</tr>`).join('')}</table>`;
    try {
      await navigator.clipboard.write([new ClipboardItem({ 'text/plain': new Blob([text], { type: 'text/plain' }), 'text/html': new Blob([html], { type: 'text/html' }) })]);
      said.textContent = `Copied: ${rows.length} rows, decimal ${style.mark === '.' ? 'point' : 'comma'}.`;
    } catch {
      said.textContent = copyOtherwise(text, html) ? `Copied: ${rows.length} rows.` : 'This browser does not let a page copy. Select the table below and copy it.';
    }
  });

  sheet.renderers.push(() => {
    const { evaluation, state } = sheet;
    const page = sheet.at.byId('record-page');
    if (!evaluation) return fill(page, el('p', {}, 'There are no values yet.'));
    const listed = chosen(sheet);
    const n = Math.max(0, ...listed.map((v) => v.sections.length));
    fill(page,
      el('header', {}, el('h2', {}, sheet.name), el('span', {}, state.trace && state.trace.label !== sheet.name ? state.trace.label : '')),
      el('div', { class: 'wide', tabindex: 0, role: 'region', 'aria-label': 'Values' }, el('table', { id: 'record-values' }, el('caption', {}, n > 1 ? `Values, and those of the sections 1 to ${n}` : n ? 'Values, from one section' : 'Values'),
        el('thead', {}, el('tr', {}, el('th', { scope: 'col' }, 'Symbol'), el('th', { scope: 'col', class: 'num' }, 'Value'), el('th', { scope: 'col' }, 'Unit'),
          ...Array.from({ length: n }, (_, i) => el('th', { scope: 'col', class: 'num' }, el('span', { class: 'vh' }, 'section '), String(i + 1))), el('th', { scope: 'col' }, 'Source'))),
        el('tbody', {}, ...listed.map((v) => line(v, n))))),
      el('table', { id: 'record-settings' }, el('caption', {}, 'Settings'), el('tbody', {}, ...settings(sheet).map(([k, v, from]) => el('tr', {}, el('th', { scope: 'row' }, k), el('td', { colspan: from ? undefined : 2 }, v), from && el('td', { class: 'from' }, from))))),
      el('p', { class: 'fine' }, `furrow ${sheet.at.byId('version').textContent} · ${new Date().toISOString().slice(0, 10)}${state.trace?.demo ? ' · Invented data. Not a measurement.' : ''}`));
  });
}

/** @type {(v: import('../furrow.js').Value, n: number) => HTMLElement} */
function line(v, n) {
  const head = el('th', { scope: 'row' }, el('var', {}, v.symbol));
  if (v.value === null) return el('tr', {}, head, el('td', { colspan: n + 3 }, el('b', {}, 'not defined: '), v.reason));
  const sections = Array.from({ length: n }, (_, i) => v.sections[i] ?? null);
  return el('tr', {}, head, el('td', { class: 'num' }, el('b', {}, figure(v.value, 4))), el('td', {}, v.unit),
    ...sections.map((s) => el('td', { class: 'num' }, s === null ? '' : figure(s, 4))), el('td', { class: 'from' }, `${v.source} · ${v.basis}`));
}

/** The values of step 6, as they are listed there. @type {(sheet: Sheet) => import('../furrow.js').Value[]} */
function chosen(sheet) {
  const order = [...sheet.at.byId('values-table').querySelectorAll('.sym')].map((b) => /** @type {HTMLElement} */ (b).dataset.symbol);
  return order.map((s) => sheet.value(s ?? '')).filter((v) => v !== undefined);
}

/** @type {Readonly<Record<string, string>>} */
const shapes = { none: 'nothing removed', mean: 'mean height', line: 'straight line, least squares', polynomial: 'polynomial', circle: 'circle, least squares', ellipse: 'ellipse, least squares' };

/** The lines of the record below the values: name, words, and where a setting comes from. @type {(sheet: Sheet) => [string, string, string][]} */
function settings(sheet) {
  const { evaluation, edition, row, state } = sheet;
  if (!evaluation) return [];
  const { settings: s, profile: p } = evaluation.result;
  const band = (/** @type {import('../furrow.js').Band | null} */ b, /** @type {(v: number) => string} */ unit) => (b ? `${kinds[b.filter ?? '']?.[0] ?? b.filter}, ${unit(b.cutoff ?? b.radius ?? b.length ?? 0)}${b.ends ? `; ends: ${ends[b.ends]?.[0] ?? b.ends}` : ''}` : 'none');
  const own = state.settings, { required } = state;
  /** @type {(key: string, set: boolean) => string} */
  const from = (key, set) => {
    const { said: where, basis } = sheet.origin(key, set);
    return where === 'set here' || where === 'drawing' ? where : `${where}${basis && ` (${basis})`}`;
  };
  /** @type {[string, string, string][]} */
  const rows = [
    ...(sheet.typed.trim() ? [/** @type {[string, string, string]} */ (['Requirement', sheet.typed, 'drawing']), ...said(sheet).map(([k, v]) => /** @type {[string, string, string]} */ ([k, v, '']))] : []),
    ['Caution', sheet.catalogue.caution, ''],
    ...(required && !required.answer.settings ? [/** @type {[string, string, string]} */ (['Settings', otherwise(required.used), ''])] : []),
    ['Standard', edition.title, 'set here'], ['Setting class', row.name || mm(row.long), from('long.cutoff', !!state.row)],
    ['Heights', { raw: 'as traced, nothing removed', levelled: 'form already removed', filtered: 'already filtered' }[s.input] + (s.invert ? ', upside down' : ''), 'set here'],
    ['S-filter', band(s.short, um), from('short.cutoff', own.short !== undefined)],
    ['Form', (shapes[s.form.kind] ?? s.form.kind) + (s.form.degree ? ` of degree ${s.form.degree}` : '') + (s.form.radius ? `, radius ${mm(s.form.radius)}` : ''), from('form.kind', !!own.form)],
    ['L-filter', band(s.long, mm), from('long.cutoff', own.long !== undefined)],
    ['Sections', `${p.sections} × ${mm(p.section)} from ${place(p.start)}, together ${mm(p.evaluation)}`, from('sections', own.sections !== undefined || own.section !== undefined)],
    ['Points', `${count(p.points)}, ${um(p.spacing)} apart; ${p.invalid} without a height`, ''],
    ['Left out', s.exclude.length ? s.exclude.map((e) => `${plain(e.from / 1000)} to ${mm(e.to)}: ${e.reason}`).join('; ') : 'nothing', s.exclude.length ? 'set here' : ''],
  ];
  if (state.skid !== 'unknown') rows.push(['Traced', state.skid === 'with' ? 'with a skid' : 'without a skid', 'set here']);
  for (const n of [...new Set(evaluation.result.notes.map((x) => x.text))]) rows.push(['Note', n, '']);
  return rows;
}

// Plain figures for a spreadsheet: no groups, a hyphen for minus, the reader's decimal mark, the unit in its own column.
/** @type {(v: number) => string} */
const cell = (v) => String(Number(v.toPrecision(7))).replace('.', style.mark);

/** @type {(sheet: Sheet) => string[][]} */
function cells(sheet) {
  if (!sheet.evaluation) return [];
  const listed = chosen(sheet);
  const n = Math.max(0, ...listed.map((v) => v.sections.length));
  return [
    ['Symbol', 'Value', 'Unit', ...Array.from({ length: n }, (_, i) => `Section ${i + 1}`), 'Source', 'Remark'],
    ...listed.map((v) => [v.symbol, v.value === null ? '' : cell(v.value), v.unit, ...Array.from({ length: n }, (_, i) => (typeof v.sections[i] === 'number' ? cell(/** @type {number} */ (v.sections[i])) : '')), v.source, v.reason]),
    ...settings(sheet),
  ];
}

/** @type {(text: string, html: string) => boolean} */
function copyOtherwise(text, html) {
  /** @type {(event: ClipboardEvent) => void} */
  const give = (event) => {
    event.preventDefault();
    event.clipboardData?.setData('text/plain', text);
    event.clipboardData?.setData('text/html', html);
  };
  document.addEventListener('copy', give, { once: true });
  try {
    return document.execCommand('copy');
  } catch {
    return false;
  } finally {
    document.removeEventListener('copy', give);
  }
}
