// Step 7, verdict: what the calculation says of the value against the requirement, by the rule chosen; the same words as
// the library's and the command's.
import { byId, el, fill, fillSelect, select, src, Step } from './dom.js';
import { rules } from './step1.js';
import { shown } from './sheet.js';

/** @typedef {import('./sheet.js').Sheet} Sheet */
/** @typedef {import('./furrow.js').Verdict} Verdict */

const waiting = 'No verdict yet';

/** @type {(sheet: Sheet) => void} */
export function verdict(sheet) {
  const step = new Step('verdict');
  const rule = select('verdict-rule');
  rule.addEventListener('change', () => sheet.change({ rule: rule.value === own(sheet) ? '' : rule.value }, { field: 'verdict-rule' }));

  sheet.renderers.push(() => {
    const { required, rule: chosen } = sheet.state;
    const by = chosen || own(sheet);
    fillSelect(rule, Object.entries(rules), by);
    rule.disabled = !required;
    const { verdict: v, reason } = judged(sheet);
    const origin = required?.answer.origins.rule;
    const limits = required?.answer.limits ?? [];
    const values = limits.map((l) => sheet.value(l.symbol ?? '')).filter((x, i, all) => x !== undefined && all.indexOf(x) === i).map((x) => `${/** @type {any} */ (x).symbol} ${shown(/** @type {any} */ (x))}`);
    step.why(
      required ? [el('span', { class: 'typed' }, required.text), values.length ? `; ${values.join(', ')} of this trace` : ''] : 'No requirement yet',
      rules[by] ?? by,
      chosen ? 'The rule was chosen here.' : origin ? [`${origin.text[0].toUpperCase()}${origin.text.slice(1)}.`, ' ', src(origin.source, origin.basis)] : 'A rule is needed where a limit is written.',
    );
    const place = byId('verdict-word');
    if (v) fill(place, sign(v), el('div', {}, el('p', { class: 'word' }, v.word), el('p', { class: 'because' }, v.sentence)));
    else fill(place, el('div', {}, el('p', { class: 'word' }, waiting), el('p', { class: 'because' }, sentence(reason))));
    const log = byId('verdict-log');
    log.hidden = !v;
    fill(log, ...(v?.limits ?? []).flatMap((l) => l.log).map((l) => el('li', {}, l)));
    step.out([['verdict', v ? el('b', {}, v.word) : el('span', { class: 'wait' }, waiting)], ...(v?.limits ?? []).map((l) => /** @type {[string, string]} */ ([`${l.symbol}, ${l.side} limit`, l.word]))],
      v && v.more > 0 ? `${v.more} more value${v.more === 1 ? '' : 's'} may settle it.` : null);
    step.gist.textContent = v ? `${v.word}. ${v.sentence}` : waiting;

    const line = byId('line-verdict');
    line.setAttribute('href', required ? '#verdict' : '#values');
    fill(line, ...(required ? [v && sign(v), v?.word ?? waiting] : ['Values']));
  });
}

/** The rule that holds unless another is chosen. @type {(sheet: Sheet) => string} */
const own = (sheet) => sheet.state.required?.answer.rule || 'max';

/** The verdict, or why there is none. @typedef {{verdict: Verdict | null, reason: string}} Judged @type {(sheet: Sheet) => Judged} */
function judged(sheet) {
  const { evaluation, state: { required } } = sheet;
  /** @type {(reason: string) => Judged} */
  const none = (reason) => ({ verdict: null, reason });
  if (!required) return none('a requirement with a limit, in step 1');
  if (!required.answer.settings) return none(required.answer.refusal?.reason ?? 'its question is open');
  if (sheet.deviates) return none('the settings differ from what the requirement asks for; the verdict waits until the two agree');
  if (!evaluation) return none('there is no trace yet');
  if (evaluation.problem) return none(evaluation.problem);
  const { judged: v } = evaluation;
  if (!v) return none('the value is being worked out');
  return v.why ? none(v.sentence) : { verdict: v, reason: '' };
}

/** In one line, for the record. @type {(sheet: Sheet) => string} */
export function said(sheet) {
  const { verdict: v, reason } = judged(sheet);
  return v ? `${v.word}, by the rule ${rules[v.rule] ?? v.rule}. ${v.sentence}` : `${waiting}: ${reason}`;
}

/** @type {(text: string) => string} */
const sentence = (text) => `${text[0]?.toUpperCase() ?? ''}${text.slice(1)}${/[.!?]$/.test(text) ? '' : '.'}`;

/** The limit as a stroke and the value as a dot before it, on it, beyond it; mirrored for a lower limit. @type {(v: Verdict) => Element} */
function sign(v) {
  const deciding = v.limits.find((l) => l.word === v.word) ?? v.limits[0];
  const at = /** @type {Record<string, number[]>} */ ({ Conforms: [24, 10.5], 'Not decided': [16, 16], 'Does not conform': [8, 21.5] })[v.word] ?? [16, 16];
  const [limit, dot] = deciding?.side === 'lower' ? at.map((x) => 32 - x) : at;
  const make = (/** @type {string} */ tag, /** @type {Record<string, string>} */ attributes) => {
    const e = document.createElementNS('http://www.w3.org/2000/svg', tag);
    for (const [name, value] of Object.entries(attributes)) e.setAttribute(name, value);
    return e;
  };
  const svg = make('svg', { class: 'sign', viewBox: '0 0 32 32', 'aria-hidden': 'true' });
  svg.append(make('path', { d: `M${limit} 3V29` }), make('circle', { cx: String(dot), cy: '16', r: '6.5', class: v.word === 'Not decided' ? 'hollow' : '' }));
  return svg;
}
