// Part 3: what one requirement asks in two standards, and what this trace gives by each.
import { el, fill, fillSelect } from '../shared/dom.js';
import { mm, um } from '../shared/numbers.js';
import { Picture } from '../shared/picture.js';
import { prose } from '../worksheet/work.js';
import { note, results, said } from './words.js';
import { sideHead, sideRows } from './side.js';

/** @typedef {import('../furrow.js').EditionsCompared} EditionsCompared */

/** @type {(sheet: import('../worksheet/sheet.js').Sheet) => {update: () => void}} */
export function editions(sheet) {
  const { at, client, catalogue } = sheet;
  const title = (/** @type {string} */ id) => (catalogue.editions.find((e) => e.id === id)?.title ?? id).replace(/ with .*/, '');
  /** @type {EditionsCompared | null} */
  let compared = null;
  let begun = false;
  let turn = 0;
  const request = () => ({ question: 'editions', text: at.input('edition-text').value.trim(), a: at.select('edition-a').value, b: at.select('edition-b').value, periodic: at.input('edition-periodic').checked, names: [at.select('edition-a').value, at.select('edition-b').value].map(title) });

  const picture = new Picture('edition-picture', 'edition-numbers', sheet);
  picture.what = () => {
    const [a, b] = compared?.readings ?? [];
    const both = a && b && [a, b].every((r) => r.values[0]?.value !== null && r.values[0]?.value !== undefined);
    return both ? { name: 'shares', options: { of: request() } } : null;
  };

  // What stands in a row of the table for one reading.
  /** @type {(r: EditionsCompared['readings'][number]) => string[]} */
  const column = (r) => {
    const plan = /** @type {import('../furrow.js').Plan} */ (/** @type {unknown} */ (r.plan));
    const refused = plan.refusal;
    if (refused) return [`not read: ${refused.reason}`, '', '', '', '', 'No verdict yet'];
    const limit = plan.limits[0];
    const s = limit?.settings ?? {};
    const reason = limit?.origins['long.cutoff']?.text ?? '';
    const v = r.values[0];
    const cut = s.long?.cutoff ? `${mm(s.long.cutoff)}${reason && `: ${reason}`}` : (r.searches[0] ?? 'from the measured value');
    return [prose(cut), s.short?.cutoff ? um(s.short.cutoff) : 'none', s.sections ? `${s.sections} × ${mm(s.section ?? s.long?.cutoff ?? 0)}` : 'as the cut-off asks', limit?.rule ?? '',
      !v ? 'none' : v.value === null ? `not defined: ${prose(v.reason ?? r.problems[0] ?? '')}` : said(v.value, v.unit), r.verdict ? [r.verdict.word, r.verdict.why && r.verdict.sentence].filter(Boolean).join(': ') : 'No verdict yet'];
  };

  const show = () => {
    const { a, b } = request();
    const names = [title(a), title(b)];
    if (!compared) {
      fill(at.byId('edition-side'));
      results(at.byId('edition-out'), []);
      note(at.byId('edition-note'), '');
      picture.draw();
      return;
    }
    const [left, right] = compared.readings.map(column);
    const limit = /** @type {any} */ (compared.readings.find((r) => !/** @type {any} */ (r.plan).refusal)?.plan)?.limits?.[0];
    const labels = ['Cut-off', 'S-filter', 'Sections', 'Acceptance rule', limit?.symbol ?? 'Value', 'Verdict on this trace'];
    fill(at.byId('edition-side'), el('caption', {}, 'The same trace'), sideHead('Setting', names), sideRows(labels.map((l, i) => [l, left[i], right[i]]), names));
    results(at.byId('edition-out'), [...compared.readings.map((r, i) => /** @type {const} */ ([names[i], el('b', {}, r.verdict?.word ?? 'No verdict yet')])),
      .../** @type {(readonly [string, string])[]} */ (limit?.limit !== null && limit?.limit !== undefined ? [['limit', said(limit.limit, limit.unit, 3)]] : [])]);
    const searches = compared.readings.flatMap((r) => r.searches);
    const words = [...searches, ...compared.differences, ...compared.notes.map((n) => n.text)];
    note(at.byId('edition-note'), prose([...words, 'The same surface, the same text. Ask which standard the drawing means before anyone acts on it.'].join(' ')));
    picture.draw();
  };

  const ask = async () => {
    const mine = ++turn;
    const r = request();
    at.accept('edition-text');
    if (!r.text || !sheet.evaluation) {
      compared = null;
      return show();
    }
    try {
      const answer = await client.call('compare', r);
      if (mine !== turn) return;
      compared = answer;
    } catch (error) {
      if (mine !== turn) return;
      compared = null;
      const { message } = /** @type {Error} */ (error);
      at.refuse('edition-text', `${message[0].toUpperCase()}${message.slice(1).replace(/\.$/, '')}.`);
    }
    show();
  };
  for (const id of ['edition-text', 'edition-a', 'edition-b', 'edition-periodic']) at.byId(id).addEventListener('change', ask);

  return {
    update() {
      if (!begun) {
        begun = true;
        const options = catalogue.editions.map((e) => [e.id, title(e.id)]);
        const other = catalogue.editions.find((e) => e.id !== sheet.edition.id && e.id === 'iso-4287') ?? catalogue.editions.find((e) => e.id !== sheet.edition.id);
        fillSelect(at.select('edition-a'), options, sheet.edition.id);
        fillSelect(at.select('edition-b'), options, other?.id ?? sheet.edition.id);
        at.input('edition-text').value = sheet.state.required?.text ?? 'Rz 3,2';
      }
      ask();
    },
  };
}
