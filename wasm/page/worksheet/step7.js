// Step 7, verdict: one of four words with its sentence, as the library and the command say it.
import { el, fill, fillSelect, src, Step } from '../shared/dom.js';
import { style } from '../shared/numbers.js';
import { rules } from './step1.js';
import { shown } from './sheet.js';

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

  sheet.renderers.push(() => {
    const { required, rule: chosen, agreed } = sheet.state;
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
      limits.length ? [el('span', { class: 'typed' }, required?.text), values.length ? `; ${values.join(', ')} of this trace` : ''] : 'No requirement yet',
      apart && !chosen ? 'Each limit has its own rule' : (rules[by] ?? by),
      chosen ? 'The rule was chosen here.' : origin ? [`${origin.text[0].toUpperCase()}${origin.text.slice(1)}.`, ' ', src(origin.from === 'standard' ? origin.source : origin.from, origin.from === 'drawing' ? '' : origin.basis)] : 'The drawing or the standard gives the rule.',
    );
    const word = v?.word ?? none;
    const also = (v?.open ?? []).slice(1);
    const ways = v?.why ? way(v.why.key) : null;
    fill(sheet.at.byId('verdict-word'), v && sign(v.word, v.limits), el('div', {},
      el('p', { class: 'word' }, word), el('p', { class: 'because' }, sentenceOf(sheet), ways && ' ', ways),
      ...(v?.agreed ?? []).map((d) => el('p', { class: 'because' }, judgedWith(d))),
      also.length > 0 && el('div', { class: 'because' }, el('p', {}, 'Also open:'), el('ul', {}, ...also.map((r) => el('li', {}, r.text))))));
    agree.hidden = !(v?.open ?? []).some((r) => r.key === 'deviates' || r.key === 'sections');
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
const sentenceOf = (sheet) => marked(sheet.verdict?.sentence) || (sheet.typed.trim() === (sheet.state.required?.text ?? '').trim() ? 'It is being calculated.' : 'The requirement is being typed.');

/** @type {(d: Verdict['agreed'][number]) => string} */
const judgedWith = (d) => `Judged with ${d.used} instead of ${d.asked}, as agreed with ${d.with}.`;

/** Where to go for what is open. @type {(key: string) => HTMLElement | null} */
function way(key) {
  const to = /** @type {Record<string, [string, string]>} */ ({
    'no-requirement': ['requirement-text', 'To the requirement'], refused: ['requirement-text', 'To the requirement'], 'requirement-open': ['requirement-question', 'Answer it'],
    'no-value': ['trace-file', 'To the trace'], 'file-open': ['trace-question', 'Answer it'], undefined: ['values', 'To the values'], 'left-out': ['left-out', 'To the part left out'],
  })[key];
  return to ? el('a', { href: `#${to[0]}` }, to[1]) : null;
}

/** The verdict in lines for the record, name and words: the word with its sentence, each limit of several, what was agreed. @type {(sheet: Sheet) => [string, string][]} */
export function said(sheet) {
  const { verdict: v } = sheet;
  /** @type {[string, string][]} */
  const lines = [['Verdict', `${v?.word ?? none}. ${sentenceOf(sheet)}`]];
  if (!v) return lines;
  if (v.limits.length > 1) for (const l of v.limits) lines.push([`${l.symbol}, ${l.side} limit`, marked(`${l.text && `${l.text}: `}${l.word}.${l.sentence !== v.sentence ? ` ${l.sentence}` : ''}`)]);
  if (!v.why) lines.push(['Acceptance', `${[...new Set(v.limits.map((l) => rules[l.rule] ?? l.rule))].join('; ')}; ${v.acceptance}`]);
  for (const r of v.open.slice(1)) lines.push(['Also open', r.text]);
  for (const d of v.agreed) lines.push(['Deviation', judgedWith(d)]);
  return lines;
}

/** The limit as a stroke and the value as a dot before it, on it, beyond it; mirrored for a lower limit. None while there is no verdict. @type {(word: string, limits: readonly {side: string, word: string}[]) => Element | null} */
function sign(word, limits) {
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
