// Step 1, requirement: edition and setting class, and what follows from them.
import { el, fill, fillSelect, src, Step, symbol } from '../shared/dom.js';
import { mm, um } from '../shared/numbers.js';
import { base, rowKey } from './state.js';
import { kinds } from './step4.js';

/** @typedef {import('./sheet.js').Sheet} Sheet */
/** @typedef {import('../shared/dom.js').Child} Child */

/** @type {(sheet: Sheet) => void} */
export function requirement(sheet) {
  const step = new Step(sheet.at, 'requirement');
  const edition = sheet.at.select('requirement-edition');
  const classes = sheet.at.select('requirement-class');
  const written = sheet.at.input('requirement-text');
  /** The latest text that was sent to be read, and what it means once it is known. @type {{text: string, answer: Promise<Plan | null>}} */
  let latest = { text: '', answer: Promise.resolve(null) };
  let pause = 0;
  /** What the text that is being typed means so far. @type {{text: string, plan: Plan} | null} */
  let draft = null;
  /** @type {import('./state.js').Required | null} */
  let shown = null; // what the field was filled from

  sheet.ontyped = (text, soon) => {
    clearTimeout(pause);
    sheet.at.accept('requirement-text');
    written.value = text;
    shown = sheet.state.required;
    if (shown?.answer.refusal && text === shown.text) sheet.at.refuse('requirement-text', refused(shown.answer));
    if (soon && text !== (sheet.state.required?.text ?? '')) pause = setTimeout(use, 900);
  };

  // Each key sends the text to be read. It is used, and judged by, when the typing pauses or the field is left: before, it may be half a
  // requirement that reads as another one.
  written.addEventListener('input', () => {
    sheet.at.accept('requirement-text');
    sheet.type(written.value);
    clearTimeout(pause);
    pause = setTimeout(use, 900);
    const { text, answer } = read(written.value, sheet.edition.id);
    answer.then((plan) => {
      if (!plan || written.value !== text) return;
      draft = { text, plan };
      sheet.type(text);
    });
  });
  written.addEventListener('change', () => {
    if (written.value !== (sheet.state.required?.text ?? '')) use();
    sheet.part();
  });

  /** @type {(text: string, by: string) => typeof latest} */
  function read(text, by) {
    const answer = text.trim() ? sheet.client.call('requirement', text, by).catch(() => null) : Promise.resolve(null);
    return (latest = { text, answer });
  }

  // Takes the text as the requirement: what is refused is shown as refused, and what was used before stays in use, without a limit.
  /** @type {(by?: string) => Promise<void>} */
  async function use(by = sheet.edition.id) {
    clearTimeout(pause);
    const text = written.value;
    sheet.typed = text;
    sheet.at.accept('requirement-text');
    const turn = read(text, by);
    const answer = /** @type {Plan | null} */ (await turn.answer);
    if (turn !== latest || written.value !== text) return;
    if (!text.trim()) {
      if (sheet.state.required) sheet.change({ required: null, rule: '', agreed: '' }, { field: 'requirement-text', join: true });
      return;
    }
    if (!answer) return; // the calculation was stopped
    const wanted = answer.settings;
    if (answer.refusal) sheet.at.refuse('requirement-text', refused(answer));
    if (!wanted) {
      edition.value = sheet.edition.id;
      sheet.change({ required: { text, answer, used: sheet.state.required?.used ?? null }, rule: '', agreed: '' }, { field: 'requirement-text', join: true });
      return;
    }
    const { long, short, sections, section, start, profile, ...settings } = sheet.state.settings;
    const letter = wanted.profile ?? 'R';
    const symbols = answer.limits.flatMap((l) => (l.symbol && l.profile === letter ? l.symbol : []));
    sheet.change({
      required: { text, answer, used: answer }, rule: '', agreed: '', row: '', view: null, asked: [...new Set(symbols)],
      settings: { ...settings, profile: letter === 'R' ? undefined : letter, edition: wanted.edition ?? by },
    }, { field: 'requirement-text', join: true });
  }

  edition.addEventListener('change', () => {
    if (written.value.trim()) return void use(edition.value);
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

  sheet.renders(() => {
    const { edition: chosen, row, wanted } = sheet;
    const { required } = sheet.state;
    const asked = sheet.state.row ? null : sheet.leading; // what the settings come from, where it is the text
    if (required !== shown && written !== document.activeElement) {
      sheet.at.accept('requirement-text');
      written.value = sheet.typed = required?.text ?? '';
      if (required?.answer.refusal) sheet.at.refuse('requirement-text', refused(required.answer));
    }
    if (written.value === (required?.text ?? '')) shown = required;
    const pending = sheet.typed.trim() !== (required?.text ?? '').trim();
    const usable = sheet.catalogue.editions.filter((e) => e.symbols.R.length > 0 && e.rows.some((r) => r.long));
    fillSelect(edition, usable.map((e) => [e.id, e.title, e.replaced ? 'Older standards' : 'Standards in force']), chosen.id);
    const usual = chosen.rows[chosen.default];
    /** @type {[string, string][]} */
    const offered = chosen.rows.map((r, i) => [rowKey(r, i), `${r.name ? r.name + ', ' : ''}${r.sections} × ${mm(r.section)}`]);
    if (wanted) offered.unshift(['', 'as the requirement asks']);
    fillSelect(classes, offered, asked ? '' : rowKey(row, chosen.rows.indexOf(row)));
    const isUsual = row === usual;
    sheet.at.byId('requirement-class-hint').textContent = asked ? 'The requirement chooses it.' : isUsual
      ? 'Default class. Choose another if the drawing says so.' : 'Chosen here. In the standard, the drawing or the measured value decides.';

    const name = row.name ? `class ${row.name}` : `cut-off ${mm(row.long)}`;
    step.why(
      pending || required ? [el('span', { class: 'typed' }, sheet.typed), pending ? ' (being typed)' : required?.answer.refusal ? ' (not understood)' : `, read by ${chosen.documents.join(', ')}`] : [chosen.documents.join(', ')],
      [`${chosen.title}, ${name}`],
      asked ? because(asked) : [isUsual ? required ? `The requirement does not fix a class yet, so ${name} is used meanwhile.` : `No requirement is read yet, so ${name} is used, the usual class for machined surfaces.` : `${name[0].toUpperCase()}${name.slice(1)} was chosen here.`,
        ' ', src(chosen.columns.long.source, chosen.columns.long.basis)],
    );
    const plan = pending ? draft?.text === sheet.typed && draft.plan : required?.answer;
    fill(sheet.at.byId('requirement-reading'), ...(plan ? reading(plan, pending) : pending ? ['…'] : []), ...(plan && !pending && !plan.settings ? [el('br'), otherwise(required?.used ?? null)] : []),
      ...(pending || required ? [] : ['Type what the drawing says, for example ', el('span', { class: 'typed' }, 'Rz 3,2'), '.']));
    question(pending ? null : required);
    const table = /** @type {Element} */ (sheet.at.byId('requirement-settings').querySelector('tbody'));
    /** @type {[Child, string, string, import('../furrow.js').Ref][]} */
    const lines = [
      [row.name ? 'setting class' : 'row of the table', row.name || mm(row.long), isUsual ? 'the usual one' : 'chosen here', chosen.columns.long],
      [el('span', {}, 'L-filter, ', symbol('N', 'ic')), mm(row.long), row.name ? `column ${row.name}` : 'the cut-off itself', chosen.columns.long],
    ];
    if (row.short) lines.push([el('span', {}, 'S-filter, ', symbol('N', 'is')), um(row.short), `paired with ${mm(row.long)}`, chosen.columns.short]);
    lines.push(['sections', `${row.sections} × ${mm(row.section)}`, `together ${mm(row.evaluation)}`, chosen.columns.sections]);
    if (row.maxSpacing) lines.push(['point spacing', `≤ ${um(row.maxSpacing)}`, row.short ? `for ${um(row.short)}` : '', chosen.columns.maxSpacing]);
    if (row.tipRadius) lines.push(['tip radius', `≤ ${um(row.tipRadius)}`, `largest tip for ${mm(row.long)}`, chosen.columns.tipRadius]);
    if (asked) fill(table, ...followed(asked, row));
    else fill(table, ...lines.map(([setting, value, rule, ref]) => el('tr', {}, el('th', { scope: 'row' }, setting), el('td', { class: 'num' }, value),
      el('td', {}, rule), el('td', {}, ref.source), el('td', { class: 'rest' }, ref.basis))));
    /** @type {[Child, Child][]} */
    const out = [[row.name ? 'class' : 'cut-off', row.name || mm(row.long)], [symbol('N', 'ic'), mm(row.long)]];
    if (row.short) out.push([symbol('N', 'is'), um(row.short)]);
    out.push(['sections', `${row.sections} × ${mm(row.section)}`], [symbol('l', 'e'), mm(row.evaluation)]);
    step.out(out, chosen.notes[0]);
    step.gist.textContent = `${pending || required ? `${sheet.typed}; ` : ''}${chosen.title}; ${name}, ${row.sections} × ${mm(row.section)}`;
  }, step.root);
  // What the text leaves open, one question after the other; an answer is a text that says more, or another standard.
  /** @type {(required: import('./state.js').Required | null) => void} */
  function question(required) {
    const box = sheet.at.byId('requirement-question');
    const open = required?.answer.questions[0];
    box.hidden = !open;
    const key = open ? JSON.stringify([required?.text, sheet.edition.id, open.key, open.text]) : '';
    if (box.dataset.key === key) return;
    box.dataset.key = key;
    if (!open) return;
    const more = (required?.answer.questions.length ?? 1) - 1;
    /** @type {(a: Plan['questions'][number]['answers'][number]) => void} */
    const take = ({ then, edition: by }) => {
      written.value = then ?? written.value;
      use(by);
      sheet.part();
    };
    fill(box, el('p', {}, el('b', {}, more ? `${more + 1} questions are open. The first: ` : 'One question is open. '), open.text),
      el('p', { class: 'acts' }, ...open.answers.map((a, i) => el('button', { type: 'button', id: `requirement-answer-${i + 1}`, onclick: () => take(a) }, a.text))),
      open.answers.length ? null : el('p', {}, 'Change the text of the requirement to answer it.'));
  }
}

/** @typedef {import('../furrow.js').Plan} Plan */
/** @typedef {import('../furrow.js').PlannedLimit} PlannedLimit */

/** What a text means, limit by limit; while it is typed, it may still become another one. The limit and the standard alone on a phone. @type {(plan: Plan, typing: boolean) => Child[]} */
function reading(plan, typing) {
  if (plan.refusal) return [typing ? 'Not understood yet.' : 'Not understood; see above.'];
  const first = plan.limits[0]?.settings;
  const own = (/** @type {PlannedLimit} */ { settings: s }) => s && first && ['long', 'short', 'sections', 'section'].some((k) => JSON.stringify(s[/** @type {'long'} */ (k)]) !== JSON.stringify(first[/** @type {'long'} */ (k)]));
  return plan.limits.flatMap((l, i) => {
    const [, limit, rest, standard] = l.reading.match(/^([^;]*)(;.*\. )([^.]*(?:\.\d+[^.]*)*)$/s) ?? ['', l.reading, '', ''];
    return [i > 0 && el('br'), ...strong(limit), rest && el('span', { class: 'onlywide' }, rest), rest && el('span', { class: 'onlyslim' }, '. '), standard && el('a', { href: '#requirement' }, standard), own(l) ? ' It is judged with its own settings.' : null];
  });
}

/** What is used for the values while the requirement gives no settings. @type {(used: Plan | null) => string} */
export const otherwise = (used) => (used ? `The values still use the settings of “${used.text}”.` : 'The values use the standard and the class below.');

/** A refusal in words: from where on the text is not understood, why, and what may be meant. @type {(plan: Plan) => string} */
function refused({ text, refusal }) {
  if (!refusal) return '';
  const rest = [...(text.split('\n')[refusal.line - 1] ?? '')].slice(refusal.column - 1).join('').trim();
  const reason = refusal.reason.replace(/\.$/, '');
  return `Not understood${rest && ` from “${rest.length > 60 ? `${rest.slice(0, 59)}…` : rest}” on`}: ${reason}.${refusal.try ? ` Perhaps: ${refusal.try}` : ''}`;
}

/** The limit of a reading in bold. @type {(reading: string) => Child[]} */
function strong(reading) {
  const [, before, limit, after] = reading.match(/^((?:Upper|Lower) limit )(.*?)( for .*)$/s) ?? ['', reading, '', ''];
  return [before, limit && el('b', {}, limit), after];
}

const doubt = ' Unconfirmed: state the class or the cut-off.';

/** What the class follows from. @type {(limit: PlannedLimit) => Child[]} */
function because({ origins }) {
  const o = origins.evaluation ?? origins['long.cutoff'] ?? Object.values(origins)[0];
  return o ? [`${o.text[0].toUpperCase()}${o.text.slice(1)}.`, o.unconfirmed && doubt, ' ', src(o.from === 'standard' ? o.source : o.from, o.from === 'drawing' ? '' : o.basis)] : ['The text says so.'];
}

/** The settings that follow from a limit, each with the reason and where it comes from. @type {(limit: PlannedLimit, row: import('../furrow.js').Row) => HTMLElement[]} */
function followed({ settings, origins, rule }, row) {
  /** @type {Record<string, Child>} */
  const values = {
    'long.filter': settings?.long ? (kinds[settings.long.filter ?? ''] ?? [settings.long.filter])[0] : 'none', 'long.cutoff': settings?.long ? mm(row.long) : 'none',
    'short.cutoff': settings?.short ? um(row.short) : 'none', sections: `${row.sections} × ${mm(row.section)}`, max_spacing: row.maxSpacing ? `≤ ${um(row.maxSpacing)}` : '',
    tip_radius: row.tipRadius ? `≤ ${um(row.tipRadius)}` : '', rule: rules[rule ?? ''] ?? rule,
  };
  /** @type {[string, Child][]} */
  const names = [['long.filter', 'kind of filter'], ['long.cutoff', el('span', {}, 'L-filter, ', symbol('N', 'ic'))], ['short.cutoff', el('span', {}, 'S-filter, ', symbol('N', 'is'))],
    ['sections', 'sections'], ['max_spacing', 'point spacing'], ['tip_radius', 'tip radius'], ['rule', 'acceptance rule']];
  return names.filter(([key]) => origins[key] && values[key]).map(([key, name]) => {
    const o = origins[key];
    return el('tr', { 'data-key': key }, el('th', { scope: 'row' }, name), el('td', { class: 'num' }, values[key]), el('td', {}, o.text, o.unconfirmed && '.', o.unconfirmed && el('b', { class: 'unconfirmed' }, doubt)),
      el('td', {}, o.from === 'standard' ? o.source : o.from), el('td', { class: 'rest' }, o.from === 'drawing' ? '' : o.basis));
  });
}

/** Acceptance rules by name. @type {Readonly<Record<string, string>>} */
export const rules = { max: 'maximum (Tmax)', '16%': '16 % (T16%)', median: 'median (Tmed)' };

const words = ['no', 'one', 'two', 'three', 'four', 'five', 'six', 'seven', 'eight', 'nine', 'ten'];

/** Small counts in words. @type {(n: number) => string} */
export const inWords = (n) => words[n] ?? String(n);
