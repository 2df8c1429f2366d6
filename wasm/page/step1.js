// Step 1, requirement: edition and setting class, and what follows from them.
import { byId, el, fill, fillSelect, select, src, Step, symbol } from './dom.js';
import { mm, um } from './numbers.js';
import { base, rowKey } from './sheet.js';

/** @typedef {import('./sheet.js').Sheet} Sheet */
/** @typedef {import('./dom.js').Child} Child */

/** @type {(sheet: Sheet) => void} */
export function requirement(sheet) {
  const step = new Step('requirement');
  const edition = select('requirement-edition');
  const classes = select('requirement-class');
  edition.addEventListener('change', () => {
    const { long, short, sections, section, start, profile, ...settings } = sheet.state.settings;
    const next = sheet.catalogue.editions.find((e) => e.id === edition.value);
    if (!next) return;
    const letter = profile && next.symbols[profile].length ? profile : undefined;
    const known = next.symbols[letter ?? 'R'].map((e) => base(e.symbol));
    // What was asked for stays where the edition has it.
    const kept = sheet.state.asked.filter((a) => known.includes((letter ?? 'R') + base(a).slice(1)));
    sheet.change({ row: '', view: null, asked: kept.length ? kept : known.slice(0, 2), settings: { ...settings, profile: letter, edition: edition.value } }, { field: edition.id });
  });
  classes.addEventListener('change', () => {
    const { long, short, sections, section, start, ...settings } = sheet.state.settings;
    sheet.change({ row: classes.value, settings, view: null }, { field: classes.id });
  });

  sheet.renderers.push(() => {
    const { edition: chosen, row } = sheet;
    const usable = sheet.catalogue.editions.filter((e) => e.symbols.R.length > 0 && e.rows.some((r) => r.long));
    fillSelect(edition, usable.map((e) => [e.id, e.title]), chosen.id);
    const usual = chosen.rows[chosen.default];
    fillSelect(classes, chosen.rows.map((r, i) => [rowKey(r, i), `${r.name ? r.name + ', ' : ''}${r.sections} × ${mm(r.section)}`]),
      rowKey(row, chosen.rows.indexOf(row)));
    const isUsual = row === usual;
    byId('requirement-class-hint').textContent = isUsual
      ? 'What serves when nothing chooses another.' : 'Chosen here; in the standard the drawing or the measured value chooses it.';

    const name = row.name ? `class ${row.name}` : `cut-off ${mm(row.long)}`;
    step.why(
      [chosen.documents.join(', ')],
      [`${chosen.title}, ${name}`],
      [isUsual ? `No requirement is read yet, so ${name} serves, the usual one for machined surfaces.` : `${name[0].toUpperCase()}${name.slice(1)} was chosen here.`,
        ' ', src(chosen.columns.long.source, chosen.columns.long.basis)],
    );
    fill(byId('requirement-reading'),
      `The profile is evaluated in ${inWords(row.sections)} sections of `, el('b', {}, mm(row.section)), ', one after the other. Waves longer than ',
      el('b', {}, mm(row.long)), ' count as waviness', ...(row.short ? [', waves shorter than ', el('b', {}, um(row.short)), ' are not counted at all.'] : ['.']));
    const table = /** @type {Element} */ (byId('requirement-settings').querySelector('tbody'));
    /** @type {[Child, string, string, import('./furrow.js').Ref][]} */
    const lines = [
      [row.name ? 'setting class' : 'row of the table', row.name || mm(row.long), isUsual ? 'the usual one' : 'chosen here', chosen.columns.long],
      [el('span', {}, 'L-filter, ', symbol('N', 'ic')), mm(row.long), row.name ? `column ${row.name}` : 'the cut-off itself', chosen.columns.long],
    ];
    if (row.short) lines.push([el('span', {}, 'S-filter, ', symbol('N', 'is')), um(row.short), `paired with ${mm(row.long)}`, chosen.columns.short]);
    lines.push(['sections', `${row.sections} × ${mm(row.section)}`, `together ${mm(row.evaluation)}`, chosen.columns.sections]);
    if (row.maxSpacing) lines.push(['point spacing', `≤ ${um(row.maxSpacing)}`, row.short ? `for ${um(row.short)}` : '', chosen.columns.maxSpacing]);
    if (row.tipRadius) lines.push(['tip radius', `≤ ${um(row.tipRadius)}`, `largest tip for ${mm(row.long)}`, chosen.columns.tipRadius]);
    fill(table, ...lines.map(([setting, value, rule, ref]) => el('tr', {}, el('th', { scope: 'row' }, setting), el('td', { class: 'num' }, value),
      el('td', {}, rule), el('td', {}, ref.source), el('td', { class: 'rest' }, ref.basis))));
    /** @type {[Child, Child][]} */
    const out = [[row.name ? 'class' : 'cut-off', row.name || mm(row.long)], [symbol('N', 'ic'), mm(row.long)]];
    if (row.short) out.push([symbol('N', 'is'), um(row.short)]);
    out.push(['sections', `${row.sections} × ${mm(row.section)}`], [symbol('l', 'e'), mm(row.evaluation)]);
    step.out(out, chosen.notes[0]);
    step.gist.textContent = `${chosen.title}; ${name}, ${row.sections} × ${mm(row.section)}`;
  });
}

const words = ['no', 'one', 'two', 'three', 'four', 'five', 'six', 'seven', 'eight', 'nine', 'ten'];

/** Small counts in words. @type {(n: number) => string} */
export const inWords = (n) => words[n] ?? String(n);
