// Part 1: the settings that give what an instrument printed. The search runs in the second worker, a step at a time, so that it can be stopped.
import { el, fill, fillSelect } from '../shared/dom.js';
import { count, counted, figure, style, unitName } from '../shared/numbers.js';
import { Picture } from '../shared/picture.js';
import { prose } from '../worksheet/work.js';
import { leading, note, results, said, signed, unlike } from './words.js';

/** @typedef {import('../furrow.js').Finding} Finding */
/** @typedef {import('../furrow.js').Settings} Settings */

const most = 6; // pairs
const step = 40; // ms that a step of the search may take, after which it can be stopped
const listed = 200; // fits that the page goes through

/** @type {(sheet: import('../worksheet/sheet.js').Sheet, take: (settings: Settings, name: string) => void) => {update: () => void}} */
export function printed(sheet, take) {
  const { at, client } = sheet;
  /** @type {{symbol: string, text: string}[]} */
  let pairs = [];
  /** @type {Finding | null} */
  let finding = null;
  let picked = 0;
  let search = 0; // the search that is wanted
  let going = false; // whether the second worker is at it

  const symbols = () => {
    const letter = sheet.letter;
    const all = sheet.catalogue.editions.flatMap((e) => e.symbols[letter] ?? []).map((e) => e.symbol);
    return [...new Set([...sheet.edition.symbols[letter].map((e) => e.symbol), ...all])];
  };
  const unitOf = (/** @type {string} */ symbol) => sheet.value(symbol)?.unit ?? 'µm';

  const draw = () => {
    fill(at.byId('printed-pairs'), ...pairs.map((pair, i) => {
      const n = i + 1;
      const select = el('select', { id: `printed-symbol-${n}`, onchange: (/** @type {Event} */ e) => {
        pair.symbol = /** @type {HTMLSelectElement} */ (e.target).value;
        other();
        draw();
        at.byId(`printed-symbol-${n}`).focus();
      } });
      fillSelect(select, symbols().map((s) => [s, s]), pair.symbol);
      return el('div', { class: 'pairbox' },
        el('div', { class: 'field' }, el('label', { for: `printed-symbol-${n}` }, 'Symbol'), select),
        el('div', { class: 'field' }, el('label', { for: `printed-value-${n}` }, unitOf(pair.symbol) ? `Printed, ${unitName(unitOf(pair.symbol))}` : 'Printed'),
          el('input', { type: 'text', class: 'n', id: `printed-value-${n}`, inputmode: 'decimal', autocomplete: 'off', value: pair.text, oninput: (/** @type {Event} */ e) => {
            pair.text = /** @type {HTMLInputElement} */ (e.target).value;
            at.accept(`printed-value-${n}`);
            other();
          } })),
        pairs.length > 1 && el('button', { type: 'button', class: 'quiet', id: `printed-remove-${n}`, 'aria-label': `Remove value ${n}`, onclick: () => {
          pairs = pairs.filter((p) => p !== pair);
          other();
          draw();
          at.byId(`printed-value-${Math.min(n, pairs.length)}`).focus();
        } }, 'Remove'));
    }));
    /** @type {HTMLButtonElement} */ (at.byId('printed-more')).disabled = pairs.length >= most;
  };

  const picture = new Picture('differ-picture', 'differ-numbers', sheet);
  /** The fit whose difference can be shared out. @type {import('../furrow.js').Fit | null} */
  let shared = null;
  const fit = () => (finding && (finding.fits.length ? finding.fits : finding.nearest)[picked]) || null;
  const symbol = () => finding?.printed[0]?.symbol ?? '';
  picture.what = () => {
    const f = fit();
    if (!f || !f.changes || shared !== f) return null;
    return { name: 'shares', options: { symbol: symbol(), of: { question: 'shares', settings: sheet.compose(), against: f.settings, symbol: symbol(), names: ['this worksheet', 'instrument'] } } };
  };

  const busy = (/** @type {boolean} */ on, done = 0, all = 0) => {
    at.byId('busy').hidden = !on;
    /** @type {HTMLButtonElement} */ (at.byId('printed-find')).disabled = on;
    if (!on) return;
    at.byId('busy-text').textContent = all ? `${count(done)} of ${count(all)} combinations tried` : 'Trying combinations of settings';
    const bar = /** @type {HTMLProgressElement} */ (at.byId('busy-bar'));
    if (all) [bar.max, bar.value] = [all, done];
    else bar.removeAttribute('value');
  };

  const show = async () => {
    const f = fit();
    const found = at.byId('printed-found');
    found.hidden = !finding;
    const [lede, say] = found.querySelectorAll('p');
    const against = /** @type {Element} */ (found.querySelector('.against'));
    const next = at.byId('printed-next');
    const list = finding ? (finding.fits.length ? finding.fits : finding.nearest) : [];
    next.hidden = list.length < 2;
    next.textContent = `Next of ${count(list.length)}`;
    at.byId('printed-apply').hidden = !f || !f.changes;
    if (!finding) {
      results(at.byId('printed-out'), []);
      note(at.byId('printed-note'), '');
      picture.draw();
      return;
    }
    const [first, ...others] = finding.sentences;
    lede.textContent = prose(picked && f ? `${f.plain[0].toUpperCase()}${f.plain.slice(1)}.` : first);
    say.textContent = prose(picked ? `Combination ${picked + 1} of ${list.length}. It is a possible explanation, not a proof: check the settings of the instrument.` : others.join(' '));
    fill(against, ...(f?.against ?? []).map((a) => el('li', {}, prose(a))));
    const p = finding.printed[0];
    const own = sheet.value(p.symbol);
    const theirs = f?.values.find((v) => v.symbol === p.symbol)?.value;
    /** @type {(readonly [string, string])[]} */
    const rows = [['worksheet', said(own?.value, p.unit)], ['instrument', style.inch ? `${p.symbol} ${said(p.value, p.unit)}` : `${p.symbol} ${p.text} ${p.unit}`.trim()]];
    if (own && own.value !== null) rows.push(['difference', signed(p.value - own.value, p.unit, 2)]);
    if (theirs !== undefined && f?.changes) rows.push(['with these settings', said(theirs, p.unit)]);
    results(at.byId('printed-out'), rows);
    note(at.byId('printed-note'), f?.changes && sheet.state.required ? 'The requirement decides which settings count.' : '');
    await share(f, rows);
  };

  // The picture of the shares, and the largest of them. Where a symbol stands for something else in the other edition, nothing is shared out.
  /** @type {(f: import('../furrow.js').Fit | null, rows: (readonly [string, string])[]) => Promise<void>} */
  const share = async (f, rows) => {
    if (!f || !f.changes) return void picture.draw();
    try {
      const s = await client.call('compare', { question: 'shares', settings: sheet.compose(), against: f.settings, symbol: symbol() });
      if (f !== fit() || s.a === null) return;
      const apart = unlike(sheet, symbol(), s, [{ side: 'here', value: s.a, edition: sheet.edition.id },
        { side: 'there', value: f.values.find((v) => v.symbol === symbol())?.value ?? NaN, edition: f.settings.edition }]);
      if (apart) {
        note(at.byId('printed-note'), apart);
        return void picture.draw();
      }
      shared = f;
      await picture.draw();
      if (f !== fit()) return;
      const whole = s.changes.reduce((/** @type {number} */ n, /** @type {{share: number}} */ c) => n + Math.abs(c.share), 0);
      const top = [...s.changes].sort((x, y) => Math.abs(y.share) - Math.abs(x.share))[0];
      if (top && whole) results(at.byId('printed-out'), [...rows, ['largest part', `${prose(top.plain)}: ${figure((100 * Math.abs(top.share)) / whole, 2)} %`]]);
    } catch {
      // Settings that cannot be compared so; the picture says why.
    }
  };

  // What was found belongs to the values that were looked for, and goes with them.
  const forget = () => {
    at.byId('printed-said').textContent = '';
    if (!finding) return;
    finding = null;
    picked = 0;
    show();
  };

  // Ends the search, and at once; only what belongs to it is ended.
  const leave = () => {
    search++;
    busy(false);
    if (going) client.stopBeside();
    going = false;
  };

  // The values that are typed are no longer those that were looked for.
  const other = () => {
    if (!at.byId('busy').hidden) leave();
    forget();
  };

  const find = async () => {
    const typed = pairs.filter((p) => p.text.trim());
    if (!typed.length) return at.refuse('printed-value-1', 'Type the printed value.');
    const { trace } = sheet;
    if (!trace) return;
    forget();
    const mine = ++search;
    const wanted = () => mine === search;
    busy(true);
    try {
      const text = typed.map((p) => `${p.symbol} ${p.text.trim()}${unitName(unitOf(p.symbol)) === unitOf(p.symbol) || /[a-zµ%]/i.test(p.text) ? '' : ` ${counted(null, unitOf(p.symbol)).unit}`}`).join('; ');
      const begin = () => (going = wanted());
      let answer = await client.beside(begin, 'search', trace.profile, sheet.compose(), text, listed);
      while (answer && 'progress' in answer && wanted()) {
        busy(true, answer.progress.done, answer.progress.all);
        going = false;
        answer = await client.beside(begin, 'compare', { question: 'step', millis: step });
      }
      if (!wanted() || !answer) return;
      finding = answer;
      picked = 0;
      await show();
      at.announce(`${count(finding?.fitting ?? 0)} combinations found. ${finding?.sentences[0] ?? ''}`);
    } catch (error) {
      if (!wanted()) return;
      const { key, column = 1, message } = /** @type {import('../furrow.js').FurrowError} */ (error);
      let end = 0;
      const i = typed.findIndex((p) => (end += p.symbol.length + p.text.trim().length + 3) >= column);
      at.refuse(`printed-value-${key === 'printed' ? pairs.indexOf(typed[Math.max(0, i)]) + 1 : 1}`, `${message[0].toUpperCase()}${message.slice(1).replace(/\.$/, '')}.`);
    } finally {
      if (wanted()) going = false;
      if (wanted()) busy(false);
    }
  };
  const stop = () => {
    if (at.byId('busy').hidden) return;
    leave();
    at.byId('printed-said').textContent = 'Stopped. Nothing was found.';
    at.byId('printed-find').focus();
  };

  at.byId('printed-form').addEventListener('submit', (event) => {
    event.preventDefault();
    find();
  });
  at.press('busy-stop', stop);
  at.root.addEventListener('keydown', (event) => /** @type {KeyboardEvent} */ (event).key === 'Escape' && stop());
  at.press('printed-more', () => {
    const free = [...leading(sheet), ...symbols()].find((s) => !pairs.some((p) => p.symbol === s)) ?? 'Ra';
    pairs.push({ symbol: free, text: '' });
    draw();
    at.byId(`printed-value-${pairs.length}`).focus();
  });
  at.press('printed-next', () => {
    const n = finding?.fits.length || finding?.nearest.length || 1;
    picked = (picked + 1) % n;
    show();
  });
  at.press('printed-apply', () => {
    const f = fit();
    if (!f) return;
    take(f.settings, `found settings, ${picked + 1} of ${finding?.fits.length || finding?.nearest.length}`);
    at.byId('differ-b').focus();
  });
  return {
    update() {
      // The values belong to another evaluation now.
      search++;
      busy(false);
      forget();
      const results = (sheet.trace?.reading?.results ?? []).filter((r) => r.profile === sheet.letter).slice(0, most);
      at.byId('printed-from').hidden = !results.length;
      at.byId('printed-from').textContent = `Filled with the results that ${sheet.trace?.label} states in its header.`;
      if (!pairs.some((p) => p.text.trim()) && results.length) pairs = results.map((r) => ({ symbol: r.symbol, text: r.text }));
      if (!pairs.length) pairs = [...new Set([...leading(sheet), `${sheet.letter}z`, `${sheet.letter}a`])].slice(0, 2).map((s) => ({ symbol: s, text: '' }));
      draw();
      show();
    },
  };
}
