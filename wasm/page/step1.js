// Step 1, requirement: edition and setting class, and what follows from them.
import { byId, el, fill, fillSelect, input, select, src, Step, symbol } from './dom.js';
import { accept, refuse } from './fields.js';
import { mm, um } from './numbers.js';
import { base, rowKey } from './sheet.js';
import { kinds } from './step4.js';

/** @typedef {import('./sheet.js').Sheet} Sheet */
/** @typedef {import('./dom.js').Child} Child */

/** @type {(sheet: Sheet) => void} */
export function requirement(sheet) {
  const step = new Step('requirement');
  const edition = select('requirement-edition');
  const classes = select('requirement-class');
  const written = input('requirement-text');
  let latest = 0; // of the texts sent to be read

  // Reads the text. One that cannot be read is refused at its place, and the earlier reading stays.
  /** @type {(text: string, edition?: string) => Promise<void>} */
  async function read(text, by = sheet.edition.id) {
    accept('requirement-text');
    const turn = ++latest;
    if (!text.trim()) {
      if (sheet.state.required) sheet.change({ required: null, rule: '' }, { field: 'requirement-text', join: true });
      return;
    }
    /** @type {import('./furrow.js').Requirement} */
    let answer;
    try {
      answer = await sheet.client.call('requirement', text, by);
    } catch {
      return; // the calculation was stopped
    }
    if (turn !== latest) return;
    if (!answer.settings && !answer.questions.length) {
      const { line, column, reason } = answer.refusal ?? { line: 1, column: 1, reason: 'nothing follows from this text' };
      edition.value = sheet.edition.id;
      return refuse('requirement-text', `${line > 1 ? `Line ${line}, character` : 'Character'} ${column}: ${reason}. ${sheet.state.required ? 'The earlier reading stays in use.' : 'Edition and class below stay in use.'}`);
    }
    const { long, short, sections, section, start, profile, ...settings } = sheet.state.settings;
    const wanted = answer.settings;
    const letter = wanted?.profile && wanted.profile !== 'R' ? wanted.profile : undefined;
    sheet.change({
      required: { text, answer, left: [] }, rule: '', row: '', view: null, asked: wanted?.parameters ?? sheet.state.asked.map((a) => (profile && a.startsWith(profile) ? 'R' + a.slice(1) : a)),
      settings: { ...settings, profile: letter, edition: wanted?.edition ?? by },
    }, { field: 'requirement-text', join: true });
  }
  written.addEventListener('input', () => read(written.value));
  written.addEventListener('change', () => sheet.part());

  edition.addEventListener('change', () => {
    if (sheet.state.required) return void read(sheet.state.required.text, edition.value);
    const { long, short, sections, section, start, profile, ...settings } = sheet.state.settings;
    const next = sheet.catalogue.editions.find((e) => e.id === edition.value);
    if (!next) return;
    const letter = profile && next.symbols[profile].length ? profile : undefined;
    const known = next.symbols[letter ?? 'R'].map((e) => base(e.symbol));
    // What was asked for stays where the edition has it.
    const kept = sheet.state.asked.filter((a) => known.includes((letter ?? 'R') + base(a).slice(1)));
    const asked = kept.map((a) => (known.includes(base(a)) ? a : (letter ?? 'R') + a.slice(1)));
    sheet.change({ row: '', view: null, asked: kept.length ? asked : known.slice(0, 2), settings: { ...settings, profile: letter, edition: edition.value } }, { field: edition.id });
  });
  classes.addEventListener('change', () => {
    const { long, short, sections, section, start, ...settings } = sheet.state.settings;
    sheet.change({ row: classes.value, settings, view: null }, { field: classes.id });
  });

  sheet.renderers.push(() => {
    const { edition: chosen, row, wanted } = sheet;
    const { required } = sheet.state;
    const asked = wanted && !sheet.state.row ? required : null; // what the settings come from, where it is the text
    if (written !== document.activeElement && !written.getAttribute('aria-invalid')) written.value = required?.text ?? '';
    const usable = sheet.catalogue.editions.filter((e) => e.symbols.R.length > 0 && e.rows.some((r) => r.long));
    fillSelect(edition, usable.map((e) => [e.id, e.title, e.replaced ? 'Older standards' : 'Standards in force']), chosen.id);
    const usual = chosen.rows[chosen.default];
    /** @type {[string, string][]} */
    const offered = chosen.rows.map((r, i) => [rowKey(r, i), `${r.name ? r.name + ', ' : ''}${r.sections} × ${mm(r.section)}`]);
    if (wanted) offered.unshift(['', 'as the requirement asks']);
    fillSelect(classes, offered, asked ? '' : rowKey(row, chosen.rows.indexOf(row)));
    const isUsual = row === usual;
    byId('requirement-class-hint').textContent = asked ? 'The requirement chooses it.' : isUsual
      ? 'Default class. Choose another if the drawing says so.' : 'Chosen here. In the standard, the drawing or the measured value decides.';

    const name = row.name ? `class ${row.name}` : `cut-off ${mm(row.long)}`;
    step.why(
      required ? [el('span', { class: 'typed' }, required.text), `, read by ${chosen.documents.join(', ')}`] : [chosen.documents.join(', ')],
      [`${chosen.title}, ${name}`],
      asked ? because(asked.answer) : [isUsual ? required ? `The requirement leaves its class open, so ${name} is used meanwhile. ` : `No requirement is read yet, so ${name} is used, the usual class for machined surfaces.` : `${name[0].toUpperCase()}${name.slice(1)} was chosen here.`,
        ' ', src(chosen.columns.long.source, chosen.columns.long.basis)],
    );
    if (asked) fill(byId('requirement-reading'), ...asked.answer.readings.flatMap((r, i) => [i > 0 && el('br'), ...strong(r)]));
    else fill(byId('requirement-reading'), required && el('span', {}, `${required.answer.readings.join(' ')} Until its question is answered, the class or cut-off below is used. `),
      `The profile is evaluated in ${inWords(row.sections)} sections of `, el('b', {}, mm(row.section)), ', one after the other. Waves longer than ',
      el('b', {}, mm(row.long)), ' count as waviness', ...(row.short ? [', waves shorter than ', el('b', {}, um(row.short)), ' are not counted at all.'] : ['.']));
    question(required);
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
    if (asked) fill(table, ...followed(asked.answer, row));
    else fill(table, ...lines.map(([setting, value, rule, ref]) => el('tr', {}, el('th', { scope: 'row' }, setting), el('td', { class: 'num' }, value),
      el('td', {}, rule), el('td', {}, ref.source), el('td', { class: 'rest' }, ref.basis))));
    /** @type {[Child, Child][]} */
    const out = [[row.name ? 'class' : 'cut-off', row.name || mm(row.long)], [symbol('N', 'ic'), mm(row.long)]];
    if (row.short) out.push([symbol('N', 'is'), um(row.short)]);
    out.push(['sections', `${row.sections} × ${mm(row.section)}`], [symbol('l', 'e'), mm(row.evaluation)]);
    step.out(out, chosen.notes[0]);
    step.gist.textContent = `${required ? `${required.text}; ` : ''}${chosen.title}; ${name}, ${row.sections} × ${mm(row.section)}`;
  });
  // What the text leaves open, one question after the other; an answer is a text that says more.
  /** @type {(required: import('./sheet.js').Required | null) => void} */
  function question(required) {
    const box = byId('requirement-question');
    const open = required?.answer.questions.find((q) => !required.left.includes(q.key));
    box.hidden = !open;
    const key = open ? required?.text + open.key : '';
    if (!open || !required || box.dataset.key === key) return;
    box.dataset.key = key;
    /** @type {(text: string, by?: string) => void} */
    const take = (text, by = sheet.edition.id) => {
      written.value = text;
      read(text, by);
    };
    const leave = () => sheet.change({ required: { ...required, left: [...required.left, open.key] } }, { field: 'requirement-question' });
    const answers = open.answers;
    fill(box, el('p', {}, el('b', {}, 'One question is open. '), open.text),
      el('p', { class: 'acts' }, ...answers.map((a, i) => el('button', { type: 'button', id: `requirement-answer-${i + 1}`, onclick: () => take(a.then ?? required.text, a.edition) }, a.text)),
        el('button', { type: 'button', id: 'requirement-leave', onclick: leave }, 'Leave open, and note it')));
  }
}

/** The limit of a reading in bold. @type {(reading: string) => Child[]} */
function strong(reading) {
  const [, before, limit, after] = reading.match(/^((?:Upper|Lower) limit )(\S+ \S+)(.*)$/s) ?? ['', reading, '', ''];
  return [before, limit && el('b', {}, limit), after];
}

const doubt = ' Unconfirmed: state the class or the cut-off.';

/** What the class follows from. @type {(answer: import('./furrow.js').Requirement) => Child[]} */
function because({ origins }) {
  const o = origins.evaluation ?? origins['long.cutoff'] ?? Object.values(origins)[0];
  return o ? [`${o.text[0].toUpperCase()}${o.text.slice(1)}.`, o.unconfirmed && doubt, ' ', src(o.source, o.basis)] : ['The text says so.'];
}

/** The rows of what follows from a requirement, each with the rule line that gave it. @type {(answer: import('./furrow.js').Requirement, row: import('./furrow.js').Row) => HTMLElement[]} */
function followed({ settings, origins, rule }, row) {
  /** @type {Record<string, Child>} */
  const values = {
    'long.filter': settings?.long ? (kinds[settings.long.filter ?? ''] ?? [settings.long.filter])[0] : 'none', 'long.cutoff': settings?.long ? mm(row.long) : 'none',
    'short.cutoff': settings?.short ? um(row.short) : 'none', sections: `${row.sections} × ${mm(row.section)}`, max_spacing: row.maxSpacing ? `≤ ${um(row.maxSpacing)}` : '',
    tip_radius: row.tipRadius ? `≤ ${um(row.tipRadius)}` : '', rule: rules[rule] ?? rule,
  };
  /** @type {[string, Child][]} */
  const names = [['long.filter', 'kind of filter'], ['long.cutoff', el('span', {}, 'L-filter, ', symbol('N', 'ic'))], ['short.cutoff', el('span', {}, 'S-filter, ', symbol('N', 'is'))],
    ['sections', 'sections'], ['max_spacing', 'point spacing'], ['tip_radius', 'tip radius'], ['rule', 'acceptance rule']];
  return names.filter(([key]) => origins[key] && values[key]).map(([key, name]) => {
    const o = origins[key];
    return el('tr', { 'data-key': key }, el('th', { scope: 'row' }, name), el('td', { class: 'num' }, values[key]), el('td', {}, o.text, o.unconfirmed && '.', o.unconfirmed && el('b', { class: 'unconfirmed' }, doubt)),
      el('td', {}, o.source), el('td', { class: 'rest' }, o.basis));
  });
}

/** Acceptance rules by name. @type {Readonly<Record<string, string>>} */
export const rules = { max: 'maximum (Tmax)', '16%': '16 % (T16%)', median: 'median (Tmed)' };

const words = ['no', 'one', 'two', 'three', 'four', 'five', 'six', 'seven', 'eight', 'nine', 'ten'];

/** Small counts in words. @type {(n: number) => string} */
export const inWords = (n) => words[n] ?? String(n);
