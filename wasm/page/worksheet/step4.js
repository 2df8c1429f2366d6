// Step 4, roughness and waviness: the L-filter, and what both filters let through.
import { el, fill, fillSelect, Step, symbol } from '../shared/dom.js';
import { aloud, fixed, height, mm, number, plain, range, style, withUnit } from '../shared/numbers.js';
import { Picture } from '../shared/picture.js';
import { from } from './step3.js';

/** @typedef {import('./sheet.js').Sheet} Sheet */

const standard = [80, 250, 800, 2500, 8000];

/** Name and hint of each filter with a cut-off, and of each treatment of the ends, by key; from the catalogue. */
export const kinds = /** @type {Record<string, [string, string]>} */ ({});
export const ends = /** @type {Record<string, [string, string]>} */ ({});

/** @type {(cutoff: number) => number} */
const slid = (cutoff) => (100 * Math.log(cutoff / 80)) / Math.log(100);

// A standard value is taken at the step nearest to it alone: a wider catch would hold on to the slider as the arrow keys leave.
/** @type {(position: number) => number} */
const unslid = (position) => {
  const near = standard.find((s) => Math.abs(slid(s) - position) < 0.25);
  return near ?? Number((80 * 100 ** (position / 100)).toPrecision(2));
};

/** @type {(sheet: Sheet) => void} */
export function filters(sheet) {
  for (const f of sheet.catalogue.filters) if (f.size === 'cutoff') kinds[f.key] = [f.name, f.hint];
  for (const e of sheet.catalogue.ends) ends[e.key] = [e.name, e.hint];
  /** @type {(key: string | undefined) => readonly string[]} */
  const endsOf = (key) => sheet.catalogue.filters.find((f) => f.key === key)?.ends ?? [];
  const step = new Step(sheet.at, 'filters');
  const slide = sheet.at.input('long-slide');
  const kind = sheet.at.select('long-kind');
  const end = sheet.at.select('long-ends');
  /** @type {import('./sheet.js').State | undefined} */
  let before; // the state before a slide began

  const cutoff = () => sheet.state.settings.long?.cutoff ?? sheet.row.long;
  // The filter set by hand; at the requirement's own cut-off and kind the setting is taken out again.
  /** @type {(patch: import('../furrow.js').Band, options: {live?: boolean, field: string, from?: import('./sheet.js').State}) => void} */
  const set = (patch, options) => {
    /** @type {import('../furrow.js').Band} */
    const long = { filter: kind.value, cutoff: cutoff(), ...(sheet.state.settings.long ?? {}), ...patch };
    if (long.ends === 'retain' || !('ends' in long)) delete long.ends;
    if (long.ends && !endsOf(long.filter).includes(long.ends)) delete long.ends;
    const same = long.cutoff === sheet.row.long && long.filter === sheet.longKind && !long.ends;
    // A cut-off alone leaves the edition's filter to the parameters of stratified surfaces; a kind that is chosen takes it away.
    if (!patch.filter && sheet.state.settings.long?.filter === undefined && long.filter === sheet.edition.long) delete long.filter;
    sheet.set({ long: same ? undefined : long }, options);
  };
  sheet.at.numberField('long-cutoff', { unit: 'mm', scale: 1000, low: 1e-6, high: 1e6 }, (value) => set({ cutoff: value }, { field: 'long-cutoff' }));
  sheet.at.byId('long-shorter').addEventListener('click', () => set({ cutoff: neighbour(cutoff(), -1) }, { field: 'long-cutoff' }));
  sheet.at.byId('long-longer').addEventListener('click', () => set({ cutoff: neighbour(cutoff(), 1) }, { field: 'long-cutoff' }));
  slide.addEventListener('input', () => {
    before ??= sheet.state;
    const to = unslid(Number(slide.value));
    speak(slide, to);
    set({ cutoff: to }, { live: true, field: 'long-cutoff' });
  });
  slide.addEventListener('change', () => {
    const from = before ?? sheet.state;
    before = undefined;
    set({ cutoff: unslid(Number(slide.value)) }, { field: 'long-cutoff', from });
  });
  slide.addEventListener('keydown', (event) => {
    const way = event.key === 'PageUp' ? 1 : event.key === 'PageDown' ? -1 : 0;
    if (!way) return;
    event.preventDefault();
    set({ cutoff: neighbour(cutoff(), way) }, { field: 'long-cutoff' });
  });
  kind.addEventListener('change', () => set({ filter: kind.value }, { field: 'long-kind' }));
  end.addEventListener('change', () => set({ ends: end.value }, { field: 'long-ends' }));

  let wave = 250;
  sheet.at.numberField('filters-wave', { unit: 'mm', scale: 1000, low: 1e-9, high: 1e9 }, (value) => {
    wave = /** @type {number} */ (value);
    answer();
    transmission.draw();
  });
  async function answer() {
    const said = sheet.at.byId('filters-wave-answer');
    if (!sheet.evaluation || sheet.evaluation.problem) return fill(said, 'no trace yet');
    try {
      const { roughness, waviness, short } = await sheet.ask('transmit', wave);
      if (roughness === null || waviness === null) return fill(said, 'for this kind of filter there is no single answer for each wavelength.');
      fill(said, `${percent(roughness)} stays in R, ${percent(waviness)} goes to W${short !== null && short >= 0.05 ? `, ${percent(short)} is removed because it is too short` : ''}.`);
    } catch (error) {
      fill(said, /** @type {Error} */ (error).message);
    }
  }

  const drawn = () => !!sheet.evaluation && !sheet.evaluation.problem;
  const transmission = new Picture('filters-picture', 'transmission-numbers', sheet);
  transmission.what = () => (drawn() ? { name: 'transmission', options: { wave } } : null);
  transmission.caption = (f) => [f.caption];
  transmission.ondraw = (svg) => {
    svg.addEventListener('click', (event) => {
      const plot = transmission.figure?.frames[0];
      if (!plot) return;
      const box = svg.getBoundingClientRect();
      const x = ((event.clientX - box.left) * (transmission.figure?.width ?? 1)) / box.width;
      const share = Math.min(1, Math.max(0, (x - plot.left) / (plot.right - plot.left)));
      wave = Number((plot.xLow * (plot.xHigh / plot.xLow) ** share).toPrecision(3));
      sheet.at.showNumber('filters-wave', wave / 1000);
      answer();
      transmission.draw();
    });
  };
  const waves = new Picture('filters-waviness', 'filters-numbers', sheet);
  waves.what = () => (drawn() && sheet.evaluation?.result.settings.long ? { name: 'waviness', options: {} } : null);

  sheet.renders(() => {
    const { evaluation, row } = sheet;
    const settings = evaluation?.result.settings;
    const long = settings ? settings.long : { filter: sheet.longKind, cutoff: row.long, ends: 'retain' };
    fillSelect(kind, Object.entries(kinds).map(([k, [name]]) => [k, name]), sheet.state.settings.long?.filter ?? long?.filter ?? sheet.longKind);
    const possible = endsOf(kind.value);
    fillSelect(end, possible.map((e) => [e, e === 'retain' && possible.length === 2 ? 'as the filter itself does' : ends[e][0]]), sheet.state.settings.long?.ends ?? 'retain');
    sheet.at.byId('long-kind-hint').textContent = kinds[kind.value]?.[1] ?? '';
    sheet.at.byId('long-ends-hint').textContent = possible.length === 2 && end.value === 'retain' ? 'this filter needs no points beyond the ends' : ends[end.value]?.[1] ?? '';
    const at = cutoff();
    sheet.at.showNumber('long-cutoff', at / 1000);
    if (before === undefined) slide.value = String(slid(at));
    speak(slide, at);
    for (const [i, mark] of [...sheet.at.byId('long-marks').children].entries()) {
      mark.textContent = style.inch ? number(standard[i] / 1000, 'mm') : plain(standard[i] / 1000);
      mark.classList.toggle('on', standard[i] === at);
    }
    for (const [id, way] of /** @type {[string, number][]} */ ([['long-shorter', -1], ['long-longer', 1]])) {
      const to = neighbour(at, way);
      const button = /** @type {HTMLButtonElement} */ (sheet.at.byId(id));
      button.setAttribute('aria-label', `${way < 0 ? 'Shorter' : 'Longer'}, ${mm(to)}`);
      button.disabled = to === at;
    }
    for (const id of ['long-cutoff', 'long-slide', 'long-kind', 'long-ends']) /** @type {HTMLInputElement} */ (sheet.at.byId(id)).disabled = sheet.way(sheet.trace?.id ?? '').input === 'filtered';
    sheet.at.showNumber('filters-wave', wave / 1000);
    changed(sheet);

    if (!evaluation || evaluation.problem || !settings) {
      step.why('The primary profile P', [`Gaussian filter, `, symbol('N', 'ic'), ` ${mm(at)}`], 'The nesting index follows from step 1; the kind is the usual one.');
      step.out([['roughness', el('span', { class: 'wait' }, evaluation ? 'The trace cannot be evaluated' : 'No trace yet')]]);
      step.gist.textContent = evaluation ? 'The trace cannot be evaluated' : 'No trace yet';
      transmission.draw();
      waves.draw();
      answer();
      return;
    }
    const { summary } = evaluation;
    const own = sheet.state.settings.long;
    if (long) {
      const words = kinds[long.filter ?? '']?.[0] ?? long.filter ?? '';
      step.why('The primary profile P', [`${words[0].toUpperCase()}${words.slice(1)} filter, `, symbol('N', 'ic'), ` ${mm(long.cutoff ?? 0)}`, long.ends ? `; ends: ${ends[long.ends]?.[0] ?? long.ends}` : ''],
        [own ? 'Changed here.' : 'Nesting index and kind follow from step 1.', ' ', from('kind', sheet.origin('long.filter', own?.filter !== undefined && own.filter !== sheet.longKind)), from('nesting index', sheet.origin('long.cutoff', !!own && own.cutoff !== row.long))]);
      const w = summary.waviness;
      step.out([['roughness', 'R = P − W'], ['R', range(summary.roughness)],
        ['waviness', w.low === null ? 'none' : `within ±${height(Math.max(Math.abs(w.low), Math.abs(w.high ?? 0)), 2)}`],
        ['set by', own ? 'you' : sheet.leading ? 'the requirement' : 'the class of step 1']],
      'If you change the nesting index, a note says what the requirement asks for and offers to go back.');
      step.gist.textContent = `L-filter ${mm(long.cutoff ?? 0)}, ${words}${heights(evaluation)}`;
    } else {
      step.why('The primary profile P', 'No L-filter', [from('L-filter', sheet.origin('long.filter', own === null))]);
      step.out([['roughness', 'R = P']]);
      step.gist.textContent = `no L-filter${heights(evaluation)}`;
    }
    transmission.draw();
    waves.draw();
    answer();
  }, step.root);
}

/** @type {(v: number) => string} */
const percent = (v) => withUnit(fixed(v, 1), '%');

/** @type {(slide: HTMLInputElement, cutoff: number) => void} */
function speak(slide, cutoff) {
  slide.setAttribute('aria-valuetext', `${aloud(mm(cutoff))}${standard.includes(cutoff) ? ', standard value' : ''}`);
}

/** The next standard value. @type {(cutoff: number, way: number) => number} */
function neighbour(cutoff, way) {
  const list = way > 0 ? standard : [...standard].reverse();
  return list.find((s) => (way > 0 ? s > cutoff : s < cutoff)) ?? cutoff;
}

// The note that stands whenever the L-filter differs from the requirement.
/** @type {(sheet: Sheet) => void} */
function changed(sheet) {
  const box = sheet.at.byId('filters-changed');
  const own = sheet.state.settings.long;
  const { row } = sheet;
  box.hidden = !own;
  if (!own) return;
  const { sections = row.sections, section = own.cutoff } = sheet.state.settings;
  const other = own.cutoff !== row.long;
  fill(box,
    el('p', {}, el('b', {}, ...(other ? [symbol('N', 'ic'), ` is ${mm(own.cutoff ?? 0)}; the requirement asks for ${mm(row.long)}.`] : [`The filter was changed here; the requirement asks for “${kinds[sheet.longKind]?.[0] ?? sheet.longKind}” at ${mm(row.long)}, with its usual ends.`])),
      other && section ? ` ${sections} sections then cover ${mm(sections * section)}, not ${mm(row.evaluation)}.` : ''),
    el('p', { class: 'acts' }, el('button', { type: 'button', id: 'long-back', onclick: () => sheet.set({ long: undefined }) }, `Back to ${mm(row.long)}`)));
}

/** How high roughness and waviness are: " · R 3.8 µm high, W 0.6 µm high". @type {(e: import('./sheet.js').Evaluation) => string} */
function heights({ summary: { roughness, waviness } }) {
  /** @type {[string, import('../furrow.js').Span][]} */
  const both = [['R', roughness], ['W', waviness]];
  const list = both.flatMap(([name, { low, high }]) => (low === null || high === null ? [] : `${name} ${height(high - low, 2)} high`));
  return list.length ? ` · ${list.join(', ')}` : '';
}
