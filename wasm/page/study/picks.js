// What is chosen: symbol, arguments, standard, profile, way, surface, filters.
import { el, fill, fillSelect } from '../shared/dom.js';
import { height, parse } from '../shared/numbers.js';
import { argsOf, base, entryOf, withArgs } from './symbols.js';

/** @typedef {import('./study.js').Study} Study */
/** @typedef {import('../furrow.js').StudyState} StudyState */
/** @typedef {import('../furrow.js').Letter} Letter */

const profiles = /** @type {const} */ ({ R: 'roughness profile R', W: 'waviness profile W', P: 'primary profile P' });

/** @type {(study: Study, tables: import('../furrow.js').StudyTables) => void} */
export function picks(study, tables) {
  const { at, catalogue } = study;
  const symbol = at.input('study-symbol');
  const of = (/** @type {import('../furrow.js').Entry} */ e) => catalogue.parameters[e.key];
  /** The catalogue in the order of its groups. @returns {readonly import('../furrow.js').Entry[]} */
  const order = () => {
    const groups = [...new Set(study.symbols.map((e) => of(e)?.group))];
    return groups.flatMap((g) => study.symbols.filter((e) => of(e)?.group === g));
  };

  const take = () => {
    at.accept('study-symbol');
    const typed = symbol.value.trim();
    const entry = entryOf(study.symbols, typed) ?? study.symbols.find((e) => of(e)?.name === typed);
    if (!entry) return at.refuse('study-symbol', `“${typed}” is not a symbol of ${study.edition.title} for the ${profiles[study.letter]}. ${study.symbol} stays.`);
    study.change({ symbol: argsOf(typed).length ? typed : entry.symbol, move: '' }, 'study-symbol');
  };
  symbol.addEventListener('focus', () => symbol.select());
  symbol.addEventListener('change', take);
  const step = (/** @type {number} */ way) => {
    const list = order();
    const i = list.findIndex((e) => e.key === study.entry?.key);
    study.change({ symbol: list[(i + way + list.length) % list.length].symbol, move: '' }, 'study-symbol');
  };
  at.press('symbol-previous', () => step(-1));
  at.press('symbol-next', () => step(1));

  const listen = (/** @type {string} */ id, /** @type {(value: string) => Partial<StudyState>} */ patch) =>
    at.select(id).addEventListener('change', () => study.change(patch(at.select(id).value), id));
  // A symbol that another standard or profile does not have gives way to one that it has.
  const kept = (/** @type {string} */ edition, /** @type {Letter} */ letter) => {
    const list = catalogue.editions.find((e) => e.id === edition)?.symbols[letter] ?? [];
    const own = letter + study.symbol.slice(1);
    return (entryOf(list, study.symbol) && study.symbol) || (entryOf(list, own) && own) || (list.find((e) => /^.z$/.test(e.symbol)) ?? list[0])?.symbol;
  };
  listen('study-edition', (edition) => {
    const { symbols } = catalogue.editions.find((e) => e.id === edition) ?? study.edition;
    const letter = symbols[study.letter].length ? study.letter : 'R';
    return { edition, letter, symbol: kept(edition, letter), move: '', ...(study.state.filter?.kind === 'class' ? { filter: { kind: 'class' } } : {}) };
  });
  listen('study-letter', (value) => {
    const letter = /** @type {Letter} */ (value);
    return { letter, symbol: kept(study.state.edition ?? '', letter), move: '' };
  });
  listen('study-class', (name) => ({ filter: { kind: 'class', class: name } }));
  listen('surface-demo', (demo) => ({ demo, moved: [], point: undefined, turned: undefined, every: undefined, sections: undefined }));
  at.radios('study-way', (way) => study.change({ way: /** @type {any} */ (way) }, 'study-way'));
  at.radios('study-filter', (kind) => study.change({ filter: { kind: /** @type {any} */ (kind) }, ...(kind === 'none' && study.letter === 'W' ? { letter: 'R', symbol: kept(study.state.edition ?? '', 'R') } : {}) }, 'study-filter'));
  at.radios('study-surface', (value) => {
    const surface = /** @type {NonNullable<StudyState['surface']>} */ (value);
    const { symbol: s, edition, letter, way } = study.state;
    const first = { symbol: s, edition, letter, way, filter: undefined, sections: undefined, moved: undefined, point: undefined, turned: undefined, every: undefined, move: '', length: undefined, spacing: undefined };
    if (surface === 'sheet' && study.ofSheet) return study.change({ ...first, ...study.ofSheet.state, symbol: s }, 'study-surface');
    const [sine] = tables.ingredients;
    study.change({ ...first, surface, ...(surface === 'made' && !study.state.parts?.length ? { parts: [{ kind: sine.kind, values: sine.fields.map((f) => f.first) }] } : {}), ...(surface === 'typed' && !study.state.heights?.length ? { heights: [3, 1, -2, 4, 0, -5, 2, 1, -1, 3, -4, 2, 0, -3, 1, -2] } : {}), ...(surface === 'demo' ? { demo: study.state.demo ?? study.pad.first.key } : {}) }, 'study-surface');
  });
  at.press('same-ra', async () => {
    try {
      const { state } = await study.beside(() => true, { do: 'equal', state: study.state });
      study.open({ state: { ...state, hide: study.state.hide }, before: study.state });
      at.byId('same-said').textContent = 'Both have the same Ra; the one of before is drawn dashed. Go through the symbols to see which values differ.';
    } catch (error) {
      at.byId('same-said').textContent = `${/** @type {Error} */ (error).message.replace(/^study: same-ra: /, '').replace(/\.$/, '')}.`;
    }
  });
  at.press('undo', () => study.undo());
  at.press('redo', () => study.redo());

  let drawn = '';
  study.renderers.push(() => {
    const { state, edition, answer, letter } = study;
    if (!study.live) document.title = `Study: ${study.symbol} · furrow`;
    at.byId('study').dataset.way = state.way ?? 'look';
    at.byId('study-h').textContent = `Study: ${study.symbol}`;
    if (!symbol.getAttribute('aria-invalid') && (symbol !== document.activeElement || base(symbol.value) === base(study.symbol))) symbol.value = study.symbol;
    at.byId('study-symbol-echo').textContent = answer ? `${study.symbol}, ${answer.name}` : '';
    const listed = `${edition.id} ${letter}`;
    if (listed !== drawn) {
      drawn = listed;
      fill(at.byId('study-symbols'), ...order().map((e) => el('option', { value: e.symbol, label: `${e.symbol}, ${of(e)?.name} (${of(e)?.group})` })));
    }
    args();
    fillSelect(at.select('study-edition'), catalogue.editions.filter((e) => Object.values(e.symbols).some((l) => l.length)).map((e) => [e.id, e.title]), edition.id);
    const kind = state.filter?.kind ?? (state.surface === 'made' || state.surface === 'typed' ? 'none' : 'class');
    const letters = (/** @type {const} */ (['R', 'W', 'P'])).filter((l) => edition.symbols[l].length && (l === 'R' || kind !== 'none'));
    fillSelect(at.select('study-letter'), letters.map((l) => [l, profiles[l]]), letter);
    at.showRadio('study-way', state.way ?? 'look');
    at.showRadio('study-surface', state.surface ?? 'demo');
    at.showRadio('study-filter', kind === 'none' ? 'none' : 'class');
    fillSelect(at.select('surface-demo'), study.pad.demos.map((d) => [d.key, d.title]), state.demo ?? '');
    for (const s of ['demo', 'made', 'typed']) {
      const box = at.find(`surface-${s}-box`);
      if (box) box.hidden = state.surface !== s;
    }
    at.byId('surface-note').textContent = state.surface === 'demo' ? (study.pad.demos.find((d) => d.key === state.demo)?.note ?? '')
      : state.surface === 'sheet' ? `From the worksheet: ${study.ofSheet?.name ?? ''}. Nothing here changes the worksheet.` : '';
    const classes = tables.classes[edition.id] ?? [];
    const own = edition.rows[edition.default]?.name;
    fillSelect(at.select('study-class'), [...(kind === 'own' ? [['own', 'set here']] : []), ...classes.map((c) => [c, /^[\d.]+$/.test(c) ? `cut-off ${c} mm` : c])],
      kind === 'own' ? 'own' : state.filter?.class || (classes.includes(own ?? '') ? (own ?? '') : (classes[edition.default] ?? '')));
    at.select('study-class').disabled = kind === 'none' || !classes.length;
    at.byId('study-removed').textContent = answer?.removed ?? '';
    if (!study.before) at.byId('same-said').textContent = '';
    const moved = at.byId('study-moved');
    const ordinates = state.moved ?? [];
    moved.hidden = !ordinates.length;
    if (moved.dataset.of !== JSON.stringify(ordinates)) fill(moved, ...ordinates.map((m, i) => el('li', {}, `point ${m.point} ${m.by < 0 ? 'lowered' : 'raised'} by ${height(Math.abs(m.by))} `,
      el('button', { type: 'button', class: 'quiet', id: `take-out-point-${m.point}`, onclick: () => study.change({ moved: ordinates.filter((_, k) => k !== i) }, 'study-moved') }, 'Remove'))));
    moved.dataset.of = JSON.stringify(ordinates);
    const notes = at.byId('study-notes');
    notes.hidden = !answer?.notes.length;
    if (notes.dataset.said !== String(answer?.notes)) fill(notes, ...(answer?.notes ?? []).map((n) => el('li', {}, n)));
    notes.dataset.said = String(answer?.notes);
    /** @type {HTMLButtonElement} */ (at.byId('undo')).disabled = !study.canUndo;
    /** @type {HTMLButtonElement} */ (at.byId('redo')).disabled = !study.canRedo;
  });

  // The fields of the arguments, one each; those that are a cut stand with the move.
  function args() {
    const box = at.byId('study-args');
    const list = study.parameter?.args ?? [];
    const values = argsOf(study.symbol);
    box.hidden = !list.length;
    const key = JSON.stringify([study.answer?.key, list.length]);
    if (box.dataset.of !== key) {
      box.dataset.of = key;
      fill(box, ...list.map((a, i) => el('div', { class: 'field' }, el('label', { for: `study-arg-${i + 1}` }, `${a.name}, ${a.unit}`), el('input', { type: 'text', class: 'n', id: `study-arg-${i + 1}`, inputmode: 'decimal', autocomplete: 'off', title: a.text }))));
      list.forEach((a, i) => at.numberField(`study-arg-${i + 1}`, { unit: a.unit === 'µm' ? 'µm' : '' }, (v) => {
        study.change({ symbol: withArgs(study.symbol, argsOf(study.symbol).map((x, k) => (k === i ? String(v) : x))) }, `study-arg-${i + 1}`);
      }));
    }
    list.forEach((_, i) => {
      const read = parse(values[i] ?? '');
      at.showNumber(`study-arg-${i + 1}`, 'value' in read ? read.value : null);
    });
  }
}
