// Step 7, verdict: one of four words with its sentence, as the library and the command say it.
import { el, fill, fillSelect, src, Step } from '../shared/dom.js';
import { counted, figure, style } from '../shared/numbers.js';
import { Picture } from '../shared/picture.js';
import { budget } from './budget.js';
import { rules } from './step1.js';
import { shown } from './state.js';

/** @typedef {import('./sheet.js').Sheet} Sheet */
/** @typedef {import('../furrow.js').Verdict} Verdict */

const none = 'No verdict yet';

/** @type {(sheet: Sheet) => void} */
export function verdict(sheet) {
  const step = new Step(sheet.at, 'verdict');
  const rule = sheet.at.select('verdict-rule');
  rule.addEventListener('change', () => sheet.change({ rule: rule.value === own(sheet) ? '' : rule.value }, { field: 'verdict-rule' }));
  const agree = /** @type {HTMLFormElement} */ (sheet.at.byId('verdict-agree'));
  agree.addEventListener('submit', (event) => {
    event.preventDefault();
    sheet.at.accept('verdict-agreed');
    const agreed = sheet.at.input('verdict-agreed').value.trim();
    if (!agreed) return sheet.at.refuse('verdict-agreed', 'A name is needed. It stands with the verdict.');
    sheet.change({ agreed }, { field: 'verdict-agreed' });
  });

  const { at } = sheet;
  const proof = at.select('verdict-proof');
  const guard = at.select('verdict-guard');
  proof.addEventListener('change', () => sheet.change({ prove: /** @type {'maker'} */ (proof.value) }, { field: 'verdict-proof' }));
  guard.addEventListener('change', () => sheet.change({ guard: /** @type {'2017'} */ (guard.value) }, { field: 'verdict-guard' }));
  at.input('verdict-u').addEventListener('change', () => {
    at.accept('verdict-u');
    sheet.change({ u: at.input('verdict-u').value.trim() }, { field: 'verdict-u' });
  });
  at.numberField('verdict-k', { low: 0.1, high: 10 }, (k) => sheet.change({ k: String(k) }, { field: 'verdict-k' }));
  at.press('verdict-back', () => {
    const { short, long, sections, section, start, ...settings } = sheet.state.settings;
    sheet.change({ settings, row: '', rule: '', agreed: '' });
    at.byId('verdict-fold').focus();
  });
  budget(sheet);
  /** One picture a parameter; limits on the same one share it. */
  const drawn = () => (sheet.verdict?.limits ?? []).map((l, limit) => ({ l, limit })).filter(({ l }, i, all) => l.counted.length && l.limit !== null && all.findIndex((o) => o.l.symbol === l.symbol) === i);
  /** @type {Picture[]} */
  const pictures = [];
  const more = () => {
    const n = pictures.length + 1;
    const id = n > 1 ? `-${n}` : '';
    if (n > 1) pictures[n - 2].root.after(el('figure', { id: `verdict-picture${id}` }));
    const picture = new Picture(`verdict-picture${id}`, `verdict-numbers${id}`, sheet);
    picture.what = () => {
      const of = drawn()[n - 1];
      return of ? { name: 'decision', options: { limit: of.limit, unit: sheet.series.unit(of.l.symbol), names: names(sheet, of.l.counted), verdict: sheet.judgements } } : null;
    };
    pictures.push(picture);
  };
  more();

  sheet.renders(() => {
    const { required, rule: chosen, agreed } = sheet.state;
    const { u, k, prove } = sheet.state;
    const changed = /** @type {const} */ (['short', 'long', 'sections', 'section', 'start']).some((key) => sheet.state.settings[key] !== undefined);
    const decided = sheet.verdict?.limits[0];
    proof.value = u ? prove || 'maker' : 'none';
    proof.disabled = !u;
    guard.value = sheet.state.guard || '2017';
    at.byId('verdict-guard-field').hidden = !u || proof.value === 'none';
    at.byId('verdict-none-field').hidden = !sheet.trace;
    if (at.input('verdict-u') !== document.activeElement && !at.input('verdict-u').getAttribute('aria-invalid')) at.input('verdict-u').value = u.replace(/(\d)[.,](?=\d)/g, `$1${style.mark}`);
    at.showNumber('verdict-k', Number(k));
    at.byId('verdict-u-unit').textContent = `${decided?.unit || 'µm'},`;
    const band = decided && u && decided.accept !== null && decided.reject !== null ? Math.abs(decided.reject - decided.accept) / 2 : 0;
    const share = band / ((decided?.u ?? 0) / Number(k));
    const per = sheet.verdict?.guard === '1998' ? 'g = U' : Number.isFinite(share) && band ? `g = ${figure(share, 4)} u` : 'g';
    at.byId('verdict-u-hint').textContent = band ? `Guard band ${per} = ${shown({ value: band, unit: sheet.series.unit(decided?.symbol ?? '') })}. Leave U empty for simple acceptance.` : 'Leave U empty for simple acceptance.';
    while (pictures.length < drawn().length) more();
    for (const picture of pictures) picture.draw();
    const { verdict: v } = sheet;
    const limits = v ? (required?.answer.limits ?? []) : [];
    const by = chosen || own(sheet);
    const apart = new Set(limits.map((l) => l.rule)).size > 1;
    const origin = limits[0]?.origins.rule;
    const whose = origin?.from === 'drawing' ? ', from the drawing' : ', by the standard';
    fillSelect(rule, [...(apart ? [['', 'the rule of each limit']] : []), ...Object.entries(rules).map(([key, words]) => [key, !apart && origin && key === limits[0].rule ? words + whose : words])], by);
    rule.disabled = !limits.length;
    const values = [...new Set(limits.flatMap((l) => l.symbol ?? []))].map((symbol) => sheet.value(symbol)).filter((x) => x !== undefined).map((x) => `${x.symbol} ${shown(x)}`);
    step.why(
      limits.length ? [el('span', { class: 'typed' }, required?.text), values.length ? `; ${values.join(', ')} of ${sheet.state.traces.length > 1 ? 'the trace that is drawn' : 'this trace'}` : ''] : 'No requirement yet',
      apart && !chosen ? 'Each limit has its own rule' : (rules[by] ?? by),
      chosen ? 'The rule was chosen here.' : origin ? [`${origin.text[0].toUpperCase()}${origin.text.slice(1)}.`, ' ', src(origin.from === 'standard' ? origin.source : origin.from, origin.from === 'drawing' ? '' : origin.basis)] : 'The drawing or the standard gives the rule.',
    );
    const word = v?.word ?? none;
    const also = (v?.open ?? []).slice(1);
    const ways = v?.why ? way(v.why.key) : null;
    fill(sheet.at.byId('verdict-word'), v && sign(v.word, v.limits), el('div', {},
      el('p', { class: 'word' }, word), el('p', { class: 'because' }, sentenceOf(sheet), ways && ' ', ways),
      ...judgedIn(sheet).map((words) => el('p', { class: 'because' }, words)),
      ...(v?.agreed ?? []).map((d) => el('p', { class: 'because' }, judgedWith(d))),
      also.length > 0 && el('div', { class: 'because' }, el('p', {}, 'Also open:'), el('ul', {}, ...also.map((r) => el('li', {}, r.text))))));
    const [fewer, deviates] = ['sections', 'deviates'].map((key) => (v?.open ?? []).some((r) => r.key === key));
    agree.hidden = !fewer && !deviates && !agreed;
    at.byId('verdict-fewer').hidden = !fewer;
    at.byId('verdict-deviate').hidden = fewer || !deviates;
    at.byId('verdict-back').hidden = !agreed && !(deviates && (chosen || sheet.state.row || changed)); // a clipped trace has no way back
    if (sheet.at.input('verdict-agreed') !== document.activeElement) sheet.at.input('verdict-agreed').value = agreed;
    const log = sheet.at.byId('verdict-log');
    const judged = v?.limits ?? [];
    log.hidden = !judged.some((l) => l.log.length) && judged.length < 2;
    fill(log, ...judged.map((l) => el('div', { class: 'limit' },
      judged.length > 1 && el('p', {}, sign(l.word, [l]), el('b', {}, `${l.symbol}, ${l.side} limit ${marked(l.text) || 'open'}: ${l.word}.`), l.sentence !== v?.sentence && ` ${marked(l.sentence)}`),
      l.log.length > 0 && el('ol', {}, ...l.log.map((line) => el('li', {}, marked(line)))))));
    step.out([['verdict', v && !v.why ? el('b', {}, word) : el('span', { class: 'wait' }, word)], ...judged.map((l) => /** @type {[string, string]} */ ([`${l.symbol}, ${l.side} limit${l.text && ` ${marked(l.text)}`}`, l.word]))],
      v && !v.why ? v.acceptance[0].toUpperCase() + v.acceptance.slice(1) + '.' : null);
    step.gist.textContent = `${word}. ${sentenceOf(sheet)}`;
  }, step.root);

  // The line that stays in sight.
  sheet.renders(() => {
    const { verdict: v } = sheet;
    const { required } = sheet.state;
    const word = v?.word ?? none;
    const line = sheet.at.byId('line-verdict');
    const written = !!(required || sheet.typed.trim());
    line.setAttribute('href', written ? '#verdict' : '#values');
    fill(line, ...(written ? [v && sign(v.word, v.limits), word] : ['Values']));
    const caution = sheet.at.byId('line-caution');
    caution.hidden = !v || !!v.why;
    // The line has room for the first sentence; readers hear all of it.
    const [first, ...rest] = sheet.catalogue.caution.split(/(?<=\.) /);
    fill(caution, first, el('span', { class: 'vh' }, ` ${rest.join(' ')}`));
  });
}

/** The rule that holds unless another is chosen; '' where each limit has its own. @type {(sheet: Sheet) => string} */
function own(sheet) {
  const all = [...new Set((sheet.state.required?.answer.limits ?? []).map((l) => l.rule))];
  return all.length > 1 ? '' : all[0] ?? 'max';
}

/** Words of the library with the reader's decimal mark. @type {(text?: string) => string} */
const marked = (text = '') => text.replace(/(\d)\.(?=\d)/g, `$1${style.mark}`);

/** The sentence of the verdict. @type {(sheet: Sheet) => string} */
export const sentenceOf = (sheet) => marked(sheet.verdict?.sentence) || (sheet.typed.trim() === (sheet.state.required?.text ?? '').trim() ? 'It is being calculated.' : 'The requirement is being typed.');

/** Limit and judged value of each limit in what the reader counts in, where the drawing counts in something else. @type {(sheet: Sheet) => string[]} */
const judgedIn = (sheet) => (sheet.verdict?.limits ?? []).flatMap((l) => {
  const unit = sheet.series.unit(l.symbol);
  if (counted(null, unit).unit === unit || l.unit.endsWith('in') || l.limit === null) return [];
  const value = l.value !== null && l.values && !l.quantity.startsWith('values') ? `, the ${l.quantity} ${shown({ value: l.value, unit }, 5)}` : '';
  return `The limit ${marked(l.text)} is ${shown({ value: l.limit, unit }, 5)}${value}.`;
});

/** @type {(d: Verdict['agreed'][number]) => string} */
const judgedWith = (d) => `Judged with ${d.text}, as agreed with ${d.with}.`;

/** Where to go for what is open. @type {(key: string) => HTMLElement | null} */
function way(key) {
  const to = /** @type {Record<string, [string, string]>} */ ({
    'no-requirement': ['requirement-text', 'To the requirement'], refused: ['requirement-text', 'To the requirement'], 'requirement-open': ['requirement-question', 'Answer it'],
    'no-value': ['trace-file', 'To the trace'], more: ['trace-add', 'Add a trace or a value'], uncertainty: ['verdict-u', 'To the uncertainty'], 'file-open': ['trace-question', 'Answer it'], undefined: ['values', 'To the values'], 'left-out': ['left-out', 'To the part left out'],
  })[key];
  return to ? el('a', { href: `#${to[0]}`, id: key === 'more' ? 'verdict-add' : undefined }, to[1]) : null;
}

/** The limit as a stroke and the value as a dot before it, on it, beyond it; mirrored for a lower limit. None while there is no verdict. @type {(word: string, limits: readonly {side: string, word: string}[]) => Element | null} */
export function sign(word, limits) {
  const at = /** @type {Record<string, number[]>} */ ({ Conforms: [24, 10.5], 'Not decided': [16, 16], 'Does not conform': [8, 21.5] })[word];
  if (!at) return null;
  const deciding = limits.find((l) => l.word === word) ?? limits[0];
  const [limit, dot] = deciding?.side === 'lower' ? at.map((x) => 32 - x) : at;
  const make = (/** @type {string} */ tag, /** @type {Record<string, string>} */ attributes) => {
    const e = document.createElementNS('http://www.w3.org/2000/svg', tag);
    for (const [name, value] of Object.entries(attributes)) e.setAttribute(name, value);
    return e;
  };
  const svg = make('svg', { class: 'sign', viewBox: '0 0 32 32', 'aria-hidden': 'true' });
  svg.append(make('path', { d: `M${limit} 3V29` }), make('circle', { cx: String(dot), cy: '16', r: '6.5', class: word === 'Not decided' ? 'hollow' : '' }));
  return svg;
}

/** The values that count with the numbers of their rows in the list of traces. @type {(sheet: Sheet, counted: Verdict['limits'][number]['counted']) => string[]} */
function names(sheet, counted) {
  const { traces, values, out } = sheet.state;
  const rows = [...traces.map((t, i) => ({ name: t.label, text: `trace ${i + 1}`, id: t.id })), ...values.map((v, i) => ({ name: '', text: `value ${traces.length + i + 1}`, id: v.id }))].filter((r) => !(r.id in out));
  return counted.map((c) => {
    const at = rows.findIndex((r) => (c.typed ? r.name === '' : r.name === c.name));
    return at < 0 ? c.name : rows.splice(at, 1)[0].text;
  });
}
