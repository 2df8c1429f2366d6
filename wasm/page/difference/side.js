// Part 2: two settings on the same trace, row by row, and what each change makes of the difference of a value.
import { el, fill, fillSelect } from '../shared/dom.js';
import { mm, um } from '../shared/numbers.js';
import { Picture } from '../shared/picture.js';
import { leading, note, results, said, signed, unlike } from './words.js';

/** @typedef {import('../furrow.js').Settings} Settings */
/** @typedef {import('../furrow.js').CompleteSettings} CompleteSettings */
/** @typedef {import('../furrow.js').Result} Result */
/** @typedef {{key: string, name: string, settings: Settings | null}} Choice */

/** @type {(sheet: import('../worksheet/sheet.js').Sheet, pad: import('../shared/shell.js').Pad) => {update: () => void, take: (settings: Settings, name: string) => void}} */
export function side(sheet, pad) {
  const { at, client, catalogue } = sheet;
  /** @type {Choice[]} */
  let choices = [{ key: 'own', name: 'this worksheet', settings: null }];
  let [a, b] = ['own', 'own'];
  let turn = 0;
  const settingsOf = (/** @type {string} */ key) => choices.find((c) => c.key === key)?.settings ?? sheet.compose();
  const nameOf = (/** @type {string} */ key) => choices.find((c) => c.key === key)?.name ?? '';

  const filterName = (/** @type {string | undefined} */ key) => catalogue.filters.find((f) => f.key === key)?.name ?? key ?? '';
  const band = (/** @type {CompleteSettings['long']} */ s) => (!s || !s.cutoff ? 'none' : `${filterName(s.filter)}, ${s.cutoff >= 80 ? mm(s.cutoff) : um(s.cutoff)}`);
  const form = (/** @type {any} */ f) => (!f || f.kind === 'none' ? 'nothing removed' : [f.kind, f.degree && `degree ${f.degree}`].filter(Boolean).join(', '));
  /** @type {(s: any) => [string, string][]} */
  const words = (s) => [
    ['Standard', (catalogue.editions.find((e) => e.id === s.edition)?.title ?? s.edition).replace(/ with .*/, '')],
    ['Profile', s.profile ?? 'R'], ['S-filter', band(s.short)], ['Form removed', form(s.form)], ['L-filter', band(s.long)], ['Ends of the trace', s.long?.ends ?? 'none'],
    ['Sections', s.sections ? `${s.sections} × ${mm(s.section ?? s.long?.cutoff ?? 0)}` : 'none'],
  ];

  const picture = new Picture('side-picture', 'side-numbers', sheet);
  const symbol = () => at.select('differ-symbol').value || leading(sheet)[0] || 'Ra';
  /** Whether both sides could be evaluated, and the difference of the symbol can be shared out. */
  let ready = false;
  picture.what = () => (ready && a !== b ? { name: 'shares', options: { symbol: symbol(), of: { question: 'shares', settings: settingsOf(a), against: settingsOf(b), symbol: symbol(), names: [nameOf(a), nameOf(b)] } } } : null);

  const update = async () => {
    const mine = ++turn;
    const options = choices.map((c) => [c.key, c.name]);
    fillSelect(at.select('differ-a'), options, a);
    fillSelect(at.select('differ-b'), options, b);
    const { trace, evaluation } = sheet;
    if (!trace || !evaluation) return;
    const symbols = leading(sheet);
    fillSelect(at.select('differ-symbol'), symbols.map((s) => [s, s]), symbols.includes(at.select('differ-symbol').value) ? at.select('differ-symbol').value : symbols[0]);
    /** @type {(Result | string)[]} */
    const both = [];
    for (const key of [a, b]) {
      try {
        const e = key === 'own' ? evaluation : await client.beside(() => mine === turn, 'values', trace.profile, { ...settingsOf(key), parameters: symbols });
        if (mine !== turn || !e) return;
        both.push(e.problem || e.result);
      } catch (error) {
        both.push(/** @type {Error} */ (error).message);
      }
    }
    if (mine !== turn) return;
    ready = false;
    const rows = both.map((r) => (typeof r === 'string' ? [] : words(r.settings)));
    const names = [nameOf(a), nameOf(b)];
    const changed = rows[0].filter(([, text], i) => text !== rows[1][i]?.[1]).length;
    const value = (/** @type {Result | string} */ r, /** @type {string} */ s) => {
      if (typeof r === 'string') return r;
      const v = r.values.find((x) => x.symbol === s);
      return v ? (v.value === null ? `not defined: ${v.reason}` : said(v.value, v.unit)) : 'not in this standard';
    };
    const table = [...words(typeof both[0] === 'string' ? {} : both[0].settings).map(([name], i) => [name, rows[0][i]?.[1] ?? '', rows[1][i]?.[1] ?? '']), ...symbols.map((s) => [s, value(both[0], s), value(both[1], s), ...both.map((r) => (typeof r === 'string' ? null : r.values.find((x) => x.symbol === s)?.value ?? null))])];
    fill(at.byId('differ-side'), el('caption', {}, 'Settings and results'), sideHead('Setting', names), sideRows(table, names));
    const [va, vb] = both.map((r) => (typeof r === 'string' ? undefined : r.values.find((v) => v.symbol === symbol())));
    results(at.byId('side-out'), [['settings that differ', `${changed} of ${rows[0].length}`],
      [symbol(), va?.value !== null && va && vb?.value !== null && vb ? signed(/** @type {number} */ (vb.value) - /** @type {number} */ (va.value), va.unit) : 'no difference to state']]);
    note(at.byId('side-note'), a === b ? 'Both sides are the same. Choose other settings for one of them.' : 'Neither side is wrong. The requirement decides which settings count.');
    await picture.draw(); // the picture of what was chosen before goes
    const [left, right] = both;
    if (mine !== turn || typeof left === 'string' || typeof right === 'string') return;
    let apart = '';
    if (a !== b) {
      try {
        const shares = await client.call('compare', { question: 'shares', settings: settingsOf(a), against: settingsOf(b), symbol: symbol() });
        if (mine !== turn) return;
        apart = unlike(sheet, symbol(), shares, [{ side: 'left', value: va?.value, edition: left.settings.edition }, { side: 'right', value: vb?.value, edition: right.settings.edition }]);
      } catch {
        // Settings that cannot be compared so; the picture says why.
      }
    }
    if (mine !== turn) return;
    if (apart) note(at.byId('side-note'), apart);
    ready = !apart;
    picture.draw();
  };

  for (const id of ['differ-a', 'differ-b']) {
    at.select(id).addEventListener('change', () => {
      if (id === 'differ-a') a = at.select(id).value;
      else b = at.select(id).value;
      update();
    });
  }
  at.select('differ-symbol').addEventListener('change', update);

  /** @type {(settings: Settings, name: string, left?: boolean) => void} */
  const take = (settings, name, left = false) => {
    const key = `taken-${name}`;
    choices = [...choices.filter((c) => c.key !== key), { key, name, settings }];
    if (left) a = key;
    else b = key;
    update();
  };

  /** @type {(file: File, left: boolean) => Promise<void>} */
  const read = async (file, left) => {
    const bytes = new Uint8Array(await file.arrayBuffer());
    try {
      take(await settingsIn(bytes), file.name, left);
      pad.trouble('');
    } catch (error) {
      pad.trouble(`${file.name} cannot be taken as settings: ${/** @type {Error} */ (error).message}. The settings on the sheet stay.`);
    }
  };
  // A record holds its settings; any other JSON is a settings file, or a result with settings.
  /** @type {(bytes: Uint8Array) => Promise<Settings>} */
  const settingsIn = async (bytes) => {
    /** @type {any} */
    let document;
    try {
      document = JSON.parse(new TextDecoder().decode(bytes));
    } catch {
      document = null;
    }
    if (document && !('furrow_record' in document)) return document.settings ?? document;
    const { sheet: opened } = await client.beside(() => true, 'reopen', bytes);
    return opened.settings;
  };
  const input = at.input('differ-file-input');
  at.press('differ-file', () => input.click());
  input.addEventListener('change', () => {
    if (input.files?.[0]) read(input.files[0], false);
    input.value = '';
  });
  const part = at.byId('side');
  part.addEventListener('dragover', (event) => event.preventDefault());
  part.addEventListener('drop', (event) => {
    event.preventDefault();
    const [file] = event.dataTransfer?.files ?? [];
    const middle = part.getBoundingClientRect();
    if (file) read(file, event.clientX < middle.left + middle.width / 3);
  });

  pad.store?.all('settings').then((list) => {
    choices = [...choices, ...list.map((s) => ({ key: `saved-${s.id}`, name: s.name, settings: s.settings }))];
    update();
  }).catch((error) => pad.kept.refused(error));
  return { update, take };
}

/** The head of a table of two sides. @type {(first: string, names: string[]) => HTMLElement} */
export const sideHead = (first, names) => el('thead', {}, el('tr', {}, el('th', { scope: 'col' }, first), ...names.map((n) => el('th', { scope: 'col' }, n)), el('td', {})));

/** Its rows; those that differ carry the word. The values of a row stand behind its texts. @type {(rows: (readonly (string | number | null)[])[], names: string[]) => HTMLElement} */
export const sideRows = (rows, names) => el('tbody', {}, ...rows.map(([name, ...row]) => {
  const differs = row[0] !== row[1];
  const cell = (/** @type {number} */ i) => el('td', { 'data-of': names[i], 'data-value': row[i + 2], class: differs ? 'differs' : undefined }, String(row[i]));
  return el('tr', { class: differs ? undefined : 'same' }, el('th', { scope: 'row' }, String(name)), cell(0), cell(1), el('td', { class: 'mark' }, differs ? 'differs' : ''));
}));
