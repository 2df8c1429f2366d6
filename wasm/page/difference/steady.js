// Part 4: how many digits of each value mean something on this trace.
import { el, fill } from '../shared/dom.js';
import { counted, number, unitName } from '../shared/numbers.js';
import { prose } from '../worksheet/work.js';
import { leading, results, signed } from './words.js';

/** @typedef {import('../furrow.js').SteadinessDocument} SteadinessDocument */

const longest = 50000; // points, beyond which some thirty evaluations take too long here

/** @type {(sheet: import('../worksheet/sheet.js').Sheet) => {update: () => void}} */
export function steady(sheet) {
  const { at, client } = sheet;
  let turn = 0;
  const say = (/** @type {string[]} */ lines) => fill(at.byId('steady-said'), ...lines.map((l) => el('p', { class: 'say' }, prose(l))));

  /** @type {(s: SteadinessDocument) => void} */
  const show = (s) => {
    if (s.reason) return say([`This cannot be said: ${s.reason}.`]);
    const list = s.values.filter((v) => v.value !== null);
    if (!list.length) return say(['No value is defined on this trace.']);
    const digits = (/** @type {typeof list[number]} */ v) => Math.max(3, (v.digits ?? 2) + 1);
    const change = (/** @type {number} */ x, /** @type {typeof list[number]} */ v) => signed(counted(x - /** @type {number} */ (v.value), v.unit).value, '', 2);
    const cells = (/** @type {typeof list[number]} */ v, /** @type {number | null} */ x) => (x === null
      ? [el('td', { class: 'num', 'data-of': v.symbol }, 'not possible'), el('td', { class: 'num', 'data-of': 'change' })]
      : [el('td', { class: 'num', 'data-of': v.symbol, 'data-value': x }, number(x, v.unit, digits(v))), el('td', { class: 'num', 'data-of': 'change' }, change(x, v))]);
    const row = (/** @type {string} */ name, /** @type {import('../shared/dom.js').Child[]} */ ...rest) => el('tr', {}, el('th', { scope: 'row' }, prose(name)), ...rest);
    fill(at.byId('steady-table'), el('caption', { class: 'vh' }, 'Value under changed conditions'),
      el('thead', {}, el('tr', {}, el('th', { scope: 'col' }, 'Condition'), ...list.flatMap((v) => [el('th', { scope: 'col', class: 'num' }, v.unit ? `${v.symbol}, ${unitName(v.unit)}` : v.symbol), el('th', { scope: 'col', class: 'num' }, 'Change')]))),
      el('tbody', {},
        row('as on the worksheet', ...list.flatMap((v) => [el('td', { class: 'num', 'data-of': v.symbol, 'data-value': v.value }, number(/** @type {number} */ (v.value), v.unit, digits(v))), el('td', { class: 'num', 'data-of': 'change' })])),
        row('sections moved along the trace', ...list.flatMap((v) => (v.low === null || v.high === null
          ? cells(v, null)
          : [el('td', { class: 'num', 'data-of': v.symbol }, `${number(v.low, v.unit, digits(v))} to ${number(v.high, v.unit, digits(v))}`),
            el('td', { class: 'num', 'data-of': 'change' }, `${change(v.low, v)} to ${change(v.high, v)}`)]))),
        ...list[0].conditions.map((c, i) => row(c.what, ...list.flatMap((v) => cells(v, v.conditions[i]?.value ?? null))))));
    say(list.map((v) => v.sentence));
    results(at.byId('steady-out'), list.flatMap((v) => [/** @type {const} */ ([`sure digits of ${v.symbol}`, v.digits === null ? 'not known' : String(v.digits)]),
      .../** @type {(readonly [string, string])[]} */ (v.most ? [[`${v.symbol} moves most with`, prose(v.most)]] : [])]));
  };

  return {
    async update() {
      const mine = ++turn;
      const { trace } = sheet;
      if (!trace) return;
      fill(at.byId('steady-table'));
      results(at.byId('steady-out'), []);
      if (trace.profile.z.length > longest) return say(['Not calculated, because the trace is long and this takes about thirty evaluations.']);
      say(['Being calculated.']);
      try {
        const s = await client.beside(() => mine === turn, 'steadiness', trace.profile, { ...sheet.compose(), parameters: leading(sheet) });
        if (s && mine === turn) show(s);
      } catch (error) {
        if (mine === turn) say([`This cannot be said: ${/** @type {Error} */ (error).message}.`]);
      }
    },
  };
}
