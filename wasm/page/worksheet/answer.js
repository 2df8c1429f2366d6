// The answer on the first screen: the picture of the value that has a limit, the required values, the verdict, and what is not stated yet.
import { html, nothing, render } from '../vendor/lit-html/lit-html.js';
import { number, unitName } from '../shared/numbers.js';
import { Picture } from '../shared/picture.js';
import { base, shown } from './state.js';
import { sentenceOf, sign } from './step7.js';

/** @typedef {import('./sheet.js').Sheet} Sheet */

/** @type {(sheet: Sheet) => void} */
export function answer(sheet) {
  const { at } = sheet;
  const picture = new Picture('answer-picture', '', sheet);
  /** The symbol that the picture shows: the first with a limit, or else the first required. */
  const symbol = () => sheet.series.symbols[0] ?? '';
  picture.what = () => (sheet.evaluation && !sheet.evaluation.problem ? { name: 'strip', options: { symbol: symbol() } } : null);
  picture.root.addEventListener('click', ({ clientX, target }) => {
    const frame = picture.figure?.frames[0];
    const svg = target instanceof Element && target.closest('svg');
    const p = sheet.evaluation?.result.profile;
    if (!frame || !svg || !p) return;
    const x = frame.xLow + ((clientX - svg.getBoundingClientRect().left - frame.left) / (frame.right - frame.left)) * (frame.xHigh - frame.xLow);
    const k = Math.floor((x - p.start) / p.section);
    if (k >= 0 && k < p.sections) open(symbol(), k);
  });

  /** Goes to step 6 with a value open and a section picked. @type {(name: string, section?: number) => void} */
  function open(name, section = 0) {
    sheet.open = name;
    sheet.picked = section;
    sheet.redraw();
    /** @type {HTMLDetailsElement} */ (at.byId('values')).open = true;
    const button = at.find(`value-${name}`);
    (button ?? at.byId('values-fold')).focus({ preventScroll: true });
    (button ?? at.byId('values')).scrollIntoView({ block: 'center' });
  }

  sheet.renders(() => {
    picture.draw();
    const { evaluation, verdict } = sheet;
    const asked = sheet.state.required ? sheet.series.symbols : sheet.state.asked;
    const extra = asked.some((s) => base(s) === `${sheet.letter}a`) ? [] : [`${sheet.letter}a`];
    const listed = [...asked, ...extra].flatMap((s) => sheet.value(s) ?? []).slice(0, 4);
    at.byId('answer').toggleAttribute('data-empty', !sheet.trace);
    render(listed.map((v) => html`<div><dt><a href="#values" aria-label=${`${v.symbol}, how it is calculated`} @click=${(/** @type {Event} */ e) => (e.preventDefault(), open(v.symbol))}>${v.symbol}</a></dt>
      <dd class="v">${v.value === null ? html`<small>not defined</small>` : html`<span class="nb">${number(v.value, v.unit)} <small>${unitName(v.unit)}</small></span>`}</dd><dd class="w">${limitOf(v.symbol)}</dd></div>`), at.byId('answer-values'));
    // Values of a trace that ends with the range of the instrument do not stand alone.
    const clipped = evaluation?.findings.find((f) => f.code === 'clipped');
    const word = verdict?.word ?? 'No verdict yet';
    render(html`${verdict ? sign(verdict.word, verdict.limits) ?? nothing : nothing}<div><b>${word}</b><p>${sentenceOf(sheet)}</p>${clipped ? html`<p id="answer-clipped"><strong>Check this.</strong> ${clipped.text}</p>` : nothing}</div>`, at.byId('answer-word'));
    const open3 = missing().map(([id, words, besides], i) => html`${i ? ', ' : ' '}<a href=${`#${id}`}>${words}</a>${besides}`);
    const place = at.byId('answer-missing');
    place.hidden = !open3.length || !evaluation;
    render(html`<b>Not stated yet:</b>${open3}.`, place);
  }, at.byId('answer'));

  /** The limits on a symbol in words. @type {(name: string) => string} */
  function limitOf(name) {
    const limits = sheet.verdict ? sheet.verdict.limits.filter((l) => base(l.symbol) === base(name) && l.limit !== null) : [];
    if (!sheet.verdict) return sheet.state.required || sheet.typed.trim() ? '' : 'no limit';
    return limits.length ? `limit ${limits.map((l) => (l.text || shown({ value: l.limit, unit: l.unit })) + besides(l)).join(' and ')}` : 'no limit';
  }

  /** The limit in what the reader counts in, where the drawing counts in something else. @type {(l: import('../furrow.js').LimitVerdict) => string} */
  const besides = (l) => {
    const unit = sheet.series.unit(l.symbol);
    return unitName(unit) === unit || l.unit.endsWith('in') ? '' : ` (${shown({ value: l.limit, unit }, 5)})`;
  };

  /** What the sheet does not know yet: where it is said, in words, and what stands behind. @returns {[string, string, string][]} */
  function missing() {
    const { u, blanks, traces, values } = sheet.state;
    const n = traces.length + values.length - Object.keys(sheet.state.out).length;
    /** @type {[string, string, string][]} */
    const list = [];
    if (!u) list.push(['verdict-u', 'uncertainty U', '']);
    if (n < 3) list.push(['trace-add', 'further traces', ' (three are usual)']);
    if (!blanks.place || !blanks.instrument) list.push([blanks.place ? 'record-instrument' : 'record-place', 'place and instrument', '']);
    if (!blanks.tip) list.push(['record-tip', 'tip', '']);
    if (!blanks.check) list.push(['record-check', 'specimen check', '']);
    return list;
  }
}
