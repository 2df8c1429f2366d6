// Step 6, values: the table, the calculation of one value at a time, and the material ratio curve.
import { el, fill, src, Step } from '../shared/dom.js';
import { height, mm, number, unitName } from '../shared/numbers.js';
import { Picture } from '../shared/picture.js';
import { base, shown } from './state.js';
import { Work, workedLine } from './work.js';

/** @typedef {import('./sheet.js').Sheet} Sheet */
/** @typedef {import('../furrow.js').Value} Value */
/** @typedef {import('../furrow.js').Entry} Entry */

/** @type {(sheet: Sheet) => void} */
export function values(sheet) {
  const step = new Step(sheet.at, 'values');
  const table = sheet.at.byId('values-table');
  const asked = sheet.at.input('values-asked');
  const show = sheet.at.select('values-show');
  /** @type {Work | null} */
  let work = null;
  let shape = '';

  // The usual values are listed on request, so that the required ones stand close to the verdict.
  let more = false;
  const moreButton = sheet.at.byId('values-more');
  const showMore = () => {
    table.classList.toggle('few', !more);
    moreButton.setAttribute('aria-expanded', String(more));
  };
  moreButton.addEventListener('click', () => {
    more = !more;
    showMore();
    sheet.redraw();
  });
  showMore();
  show.addEventListener('change', () => sheet.change({ show: show.value }, { field: 'values-show' }));
  asked.addEventListener('change', () => {
    sheet.at.accept('values-asked');
    const names = asked.value.match(/[^\s,;()]+(?:\([^)]*\)?)?/g) ?? [];
    sheet.change({ asked: [...new Set(names)] }, { field: 'values-asked' });
  });
  table.addEventListener('keydown', (event) => {
    const way = event.key === 'ArrowDown' ? 1 : event.key === 'ArrowUp' ? -1 : 0;
    const buttons = /** @type {HTMLElement[]} */ ([...table.querySelectorAll('.sym')]).filter((b) => b.checkVisibility());
    const at = buttons.indexOf(/** @type {HTMLElement} */ (event.target));
    if (event.key === 'Escape' && sheet.open) {
      const opener = /** @type {HTMLElement | null} */ (table.querySelector(`[data-symbol="${CSS.escape(sheet.open)}"]`));
      toggle(sheet.open);
      opener?.focus();
    }
    if (at < 0 || !way) return;
    event.preventDefault();
    buttons[at + way]?.focus();
  });

  /** @type {(symbol: string) => void} */
  function toggle(symbol) {
    sheet.open = sheet.open === symbol ? '' : symbol;
    sheet.picked = 0;
    opened();
  }

  // Opens the working of the open symbol in the row below it, and closes the others.
  function opened() {
    for (const row of table.querySelectorAll('tr.opened-head')) row.classList.remove('opened-head');
    for (const button of table.querySelectorAll('.sym[aria-expanded=true]')) button.setAttribute('aria-expanded', 'false');
    const button = sheet.open ? /** @type {HTMLElement | null} */ (table.querySelector(`[data-symbol="${CSS.escape(sheet.open)}"]`)) : null;
    const row = button?.closest('tr');
    if (!button || !row) {
      table.querySelector('tr.opened')?.remove();
      work = null;
      return;
    }
    button.setAttribute('aria-expanded', 'true');
    row.classList.add('opened-head');
    if (work?.symbol !== sheet.open || row.nextElementSibling?.className !== 'opened') {
      table.querySelector('tr.opened')?.remove();
      const entry = entryOf(sheet.open);
      work = new Work(sheet, sheet.open, entry, entry && sheet.catalogue.parameters[entry.key]);
      row.after(el('tr', { class: 'opened', id: `value-${sheet.open}-work` }, work.cell));
    }
    work.update();
  }

  // Rmr(0.5) and Rmr(5;1) are two parameters.
  /** @type {(symbol: string) => boolean} */
  const several = (symbol) => /[;,]/.test(symbol);

  /** @type {(symbol: string) => Entry | undefined} */
  const entryOf = (symbol) => {
    const list = sheet.edition.symbols[sheet.letter];
    return list.find((e) => e.symbol === symbol) ?? list.find((e) => base(e.symbol) === base(symbol) && several(e.symbol) === several(symbol)) ?? list.find((e) => base(e.symbol) === base(symbol));
  };

  const material = new Picture('material-picture', 'material-numbers', sheet);
  const core = () => sheet.value(`${sheet.letter}k`);
  material.what = () => (sheet.evaluation && !sheet.evaluation.problem && core() ? { name: 'material', options: { symbol: `${sheet.letter}k` } } : null);

  // The lines of the Rk family.
  async function rk() {
    const place = sheet.at.byId('rk-worked');
    const symbols = ['k', 'pk', 'vk'].map((s) => sheet.letter + s).filter((s) => sheet.value(s)?.value !== null && sheet.value(s));
    try {
      const all = await Promise.all(symbols.map((s) => sheet.ask('construct', s)));
      fill(place, ...all.flatMap((c, i) => [i > 0 && el('br'), ...(/** @type {import('../furrow.js').Construction} */ (c)).worked.flatMap((line) => workedLine(line))]));
    } catch {
      fill(place);
    }
  }

  sheet.renders(() => {
    const { state, evaluation, edition } = sheet;
    const list = evaluation?.result.values ?? [];
    if (asked !== document.activeElement && !asked.getAttribute('aria-invalid')) asked.value = state.asked.join(' ');
    show.value = state.show;
    const askedFor = state.asked;
    const order = edition.symbols[sheet.letter].map((e) => e.symbol);
    const listed = list.filter((v) => !askedFor.includes(v.symbol) && state.show !== 'asked').sort((a, b) => order.indexOf(a.symbol) - order.indexOf(b.symbol));
    /** @type {[string, Value[]][]} */
    const groups = [['Required', askedFor.map((a) => sheet.value(a)).filter((v) => v !== undefined)]];
    for (const v of listed) {
      const key = entryOf(v.symbol)?.key ?? '';
      const title = sheet.catalogue.parameters[key]?.group ?? 'Further values';
      const group = groups.find(([name]) => name === title);
      if (group) group[1].push(v);
      else groups.push([title, [v]]);
    }
    const filled = groups.filter(([, g]) => g.length);
    moreButton.hidden = !listed.length;
    moreButton.textContent = more ? 'Hide the other values' : `Show ${listed.length} more value${listed.length === 1 ? '' : 's'}`;
    // One that is open is seen.
    if (!more && listed.some((v) => v.symbol === sheet.open)) {
      more = true;
      showMore();
    }
    const now = JSON.stringify([sheet.edition.id, sheet.letter, filled.map(([name, g]) => [name, g.map((v) => v.symbol)])]);
    if (now !== shape) {
      shape = now;
      work = null;
      for (const body of table.querySelectorAll('tbody')) body.remove();
      table.append(...filled.map(([name, g]) => el('tbody', {}, el('tr', { class: 'group' }, el('th', { colspan: 5, scope: 'rowgroup' }, name)), ...g.map((v) => row(v.symbol)))));
    }
    const evaluated = evaluation?.result.profile.evaluation ?? 0;
    for (const v of list) {
      const line = /** @type {HTMLTableRowElement | null} */ (table.querySelector(`tr[data-row="${CSS.escape(v.symbol)}"]`));
      if (line) write(line, v, entryOf(v.symbol), evaluated);
    }
    opened();

    sheet.at.byId('material').hidden = !core() || !!evaluation?.problem;
    material.draw();
    if (core() && !evaluation?.problem) rk();

    const done = evaluation && !evaluation.problem;
    const names = { R: 'roughness profile R', W: 'waviness profile W', P: 'primary profile P' };
    const stratified = evaluation?.result.notes.find((n) => n.code === 'stratified-filter');
    step.why(
      done ? `${evaluation.sections} section${evaluation.sections === 1 ? '' : 's'} of the ${names[sheet.letter]}${stratified ? '; for the core values the same trace, with another filter' : ''}` : evaluation ? 'The trace cannot be evaluated' : 'The profile of step 5',
      `${askedFor.join(', ') || 'No value'} required; ${listed.length} more listed`,
      [`Definitions of ${edition.documents[1] ?? edition.documents[0]}.`, stratified ? ` ${stratified.text}` : '', done && list[0] ? [' ', src(list[0].source, list[0].basis)] : ''].flat(),
    );
    if (!done) {
      step.out([['values', el('span', { class: 'wait' }, evaluation?.problem ? 'not defined' : 'No trace yet')]], evaluation?.problem ?? null);
      step.gist.textContent = evaluation?.problem ?? 'No trace yet';
      return;
    }
    const main = askedFor.map((a) => sheet.value(a)).filter((v) => v !== undefined);
    /** @type {[import('../shared/dom.js').Child, import('../shared/dom.js').Child][]} */
    const out = main.map((v, i) => [el('var', {}, v.symbol), i ? shown(v) : el('b', {}, shown(v))]);
    const first = main.find((v) => v.sections.length > 1 && v.value !== null);
    if (first) {
      const s = /** @type {number[]} */ (first.sections.filter((x) => x !== null));
      out.push([`${first.symbol}, smallest section`, height(Math.min(...s))], [`${first.symbol}, largest section`, height(Math.max(...s))]);
    }
    const notes = evaluation.result.notes.filter((n) => n.code !== 'stratified-filter' && n.code !== 'left-out');
    step.out(out, notes.length ? notes.map((n) => n.text).join(' ') : 'All with the settings of steps 1 to 5.');
    step.gist.textContent = `${main.map((v) => `${v.symbol} ${shown(v)}`).join('; ')}; ${listed.length} more`;
  }, step.root);

  sheet.renders(() => running(sheet));

  /** @type {(symbol: string) => HTMLElement} */
  function row(symbol) {
    const id = `value-${symbol}`;
    return el('tr', { 'data-row': symbol }, el('th', { scope: 'row' }, el('button', { type: 'button', class: 'sym', id, 'data-symbol': symbol, 'aria-expanded': 'false', 'aria-controls': `${id}-work`, onclick: () => toggle(symbol) }, symbol)),
      el('td', { class: 'name' }), el('td', { class: 'num val' }), el('td', { class: 'unit' }), el('td', { class: 'over' }));
  }

  /** @type {(line: HTMLTableRowElement, v: Value, entry: Entry | undefined, evaluated: number) => void} */
  function write(line, v, entry, evaluated) {
    const [, name, cell, unit, over] = line.cells;
    const parameter = entry && sheet.catalogue.parameters[entry.key];
    line.classList.toggle('undefined', v.value === null);
    line.classList.toggle('stale', sheet.stale.has(v.symbol));
    fill(name, parameter?.name ?? '', v.value === null && el('span', { class: 'reason' }, v.reason));
    if (v.value === null) {
      cell.removeAttribute('data-value');
      fill(cell, el('span', { class: 'none' }, 'not defined'));
    } else {
      cell.setAttribute('data-value', String(v.value));
      const text = number(v.value, v.unit);
      const at = text.indexOf(state().decimal);
      fill(cell, el('span', { class: 'i' }, at < 0 ? text : text.slice(0, at)), el('span', { class: 'f' }, at < 0 ? '' : text.slice(at)));
    }
    unit.textContent = v.value === null ? '' : unitName(v.unit);
    over.textContent = entry ? ({ 'each section, then the mean': 'sections', 'each section, then the largest': 'worst section' })[entry.over] ?? (entry.over.startsWith('a section that slides') ? 'any section' : mm(evaluated)) : '';
  }

  const state = () => sheet.state;
}

/** The sheet in one line. @type {(sheet: Sheet) => void} */
function running(sheet) {
  const { row } = sheet;
  const profile = sheet.evaluation?.problem ? undefined : sheet.evaluation?.result.profile;
  const n = profile?.sections ?? row.sections;
  const length = profile?.section ?? row.section;
  fill(sheet.at.byId('line-settings'), el('b', {}, row.name || `cut-off ${mm(row.long)}`), el('span', { class: 'lt' }, ` ${n} × ${mm(length)}, ${sheet.letter}`));
  const place = sheet.at.byId('line-values');
  if (!profile) return void (place.textContent = sheet.evaluation?.problem ? 'The trace cannot be evaluated' : 'No trace yet');
  fill(place, ...sheet.state.asked.flatMap((a) => sheet.value(a) ?? []).slice(0, 2).map((v) => el('span', {}, `${v.symbol} `, el('b', {}, shown(v)))));
}
