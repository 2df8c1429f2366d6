// The traces of one surface, measured with the same settings as the one that is drawn: their values, which of them count, and what is to say of
// all of them together.
import { drawing } from '../shared/dom.js';
import { mm, style } from '../shared/numbers.js';

/** @typedef {import('../furrow.js').Measured} Measured */
/** @typedef {import('./state.js').Trace} Trace */

/** @type {(way: import('./state.js').Way) => boolean} */
const skidded = ({ skid }) => skid === 'with';

/** Whether values of two traces can stand side by side. @type {(a: import('./state.js').Way, b: import('./state.js').Way) => boolean} */
const alike = (a, b) => (a.input ?? 'raw') === (b.input ?? 'raw') && !a.invert === !b.invert && skidded(a) === skidded(b);

export class Series {
  /** What was measured, by trace. @type {Map<string, Measured>} */
  #measured = new Map();
  /** Counts the measurements, so that a spark knows when it is out of date. */
  #rounds = 0;
  /** Traces that the worker holds. @type {Set<string>} */
  #held = new Set();
  /** @type {Map<string, {key: string, picture: SVGSVGElement}>} */
  #sparks = new Map();
  /** Of the values of the first symbol that count; null without two of them. @type {import('../furrow.js').SeriesSummary | null} */
  summary = null;
  /** The traces and typed values that summary counts, in its order. @type {string[]} */
  counted = [];

  /** @param {import('./sheet.js').Sheet} sheet */
  constructor(sheet) {
    this.sheet = sheet;
  }

  /** The worker was replaced: it holds nothing. */
  lost() {
    this.#held.clear();
    this.#measured.clear();
  }

  /** The symbols that are listed for each trace: those required. */
  get symbols() {
    const { limits, state } = this.sheet;
    return [...new Set([...limits.flatMap((l) => l.symbol ?? []), ...state.asked])];
  }

  /** @type {(id: string) => Measured | undefined} */
  of(id) {
    return this.#measured.get(id);
  }

  /** The value of a trace, undefined while it is not measured. @type {(id: string, symbol: string) => Measured['values'][number] | undefined} */
  value(id, symbol) {
    return this.of(id)?.values.find((v) => v.symbol === symbol);
  }

  /** The unit of a symbol's values. @type {(symbol: string) => string} */
  unit(symbol) {
    for (const m of this.#measured.values()) {
      const v = m.values.find((x) => x.symbol === symbol);
      if (v) return v.unit;
    }
    return this.sheet.value(symbol)?.unit ?? 'µm';
  }

  /** Why a trace does not count, '' when it does; a trace that is too short counts only where no other is long enough. @type {(trace: Trace) => string} */
  refused(trace) {
    const other = this.#otherWay(trace.id);
    if (other) return other;
    const m = this.of(trace.id);
    if (!m || this.sheet.state.agreed || !this.sheet.state.traces.some((t) => this.#whole(t))) return '';
    if (m.problem) return m.problem;
    if (m.sections < m.asked) return `it holds ${m.sections} of ${m.asked} sections${m.missing ? `; ${mm(m.missing)} are missing` : ''}`;
    return '';
  }

  /** Why a trace was made in another way than those that count, '' when it was not. These are all where they are alike, and otherwise those that are as the sheet says of all. @type {(id: string) => string} */
  #otherWay(id) {
    const { sheet } = this;
    const { traces, out } = sheet.state;
    const mine = sheet.way(id);
    if (mine.skid === 'with' && sheet.letter !== 'R') return 'it was traced with a skid, which leaves no waviness and no primary profile';
    const all = sheet.way('');
    const counted = traces.filter((t) => !(t.id in out));
    if (counted.every((t) => alike(sheet.way(t.id), mine)) || alike(mine, all)) return '';
    const said = [(mine.input ?? 'raw') !== (all.input ?? 'raw') && { raw: 'its heights are as traced', levelled: 'its form is already removed', filtered: 'it is already filtered' }[mine.input ?? 'raw'],
      !mine.invert !== !all.invert && (mine.invert ? 'it is upside down' : 'it is not upside down'), skidded(mine) !== skidded(all) && (skidded(mine) ? 'it was traced with a skid' : 'it was not traced with a skid')];
    return `${said.filter(Boolean).join(', ')}; the others differ`;
  }

  /** @param {Trace} trace */
  #whole(trace) {
    const m = this.of(trace.id);
    return !!m && !m.problem && m.sections >= m.asked;
  }

  /** Traces that count for the verdict. */
  get judged() {
    const { out, traces } = this.sheet.state;
    return traces.filter((t) => !(t.id in out) && !this.refused(t)).map((t) => t.id);
  }

  /** Measures each trace; ends early when a later change waits. @type {(later: () => boolean) => Promise<void>} */
  async update(later) {
    const { client, state } = this.sheet;
    const ids = state.traces.map((t) => t.id);
    if ([...this.#held].some((id) => !ids.includes(id))) {
      await client.call('hold', { only: ids });
      for (const id of this.#held) if (!ids.includes(id)) this.#forget(id);
    }
    const { exclude, input: _, invert: __, ...settings } = this.sheet.compose();
    const parameters = this.symbols.length ? this.symbols : settings.parameters?.slice(0, 1);
    const measured = new Map();
    for (const [i, trace] of state.traces.entries()) {
      if (later()) return;
      if (i && i % 5 === 0 && ids.length > 10) this.sheet.onbusy(`Calculating ${i} of ${ids.length} traces …`);
      this.sheet.working = trace.id;
      if (!this.#held.has(trace.id)) {
        await client.call('hold', { id: trace.id, profile: { ...trace.profile, name: trace.label } });
        this.#held.add(trace.id);
      }
      const parts = state.parts[trace.id];
      const { input, invert } = this.sheet.way(trace.id);
      measured.set(trace.id, await client.call('measure', trace.id, { ...settings, parameters, ...(input && { input }), ...(invert && { invert }), ...(parts && { exclude: parts }) }));
    }
    this.#measured = measured;
    this.#rounds++;
    await this.#summarize();
  }

  /** @param {string} id */
  #forget(id) {
    this.#held.delete(id);
    this.#sparks.delete(id);
  }

  async #summarize() {
    const [symbol] = this.symbols;
    const { state } = this.sheet;
    /** @type {[string, number][]} */
    const list = this.judged.flatMap((id) => {
      const v = this.value(id, symbol)?.value;
      return v === null || v === undefined ? [] : [/** @type {[string, number]} */ ([id, v])];
    });
    for (const v of state.values) if (!(v.id in state.out) && v.symbol === symbol) list.push([v.id, v.value]);
    this.counted = list.map(([id]) => id);
    this.summary = list.length > 1 ? await this.sheet.client.call('summary', list.map(([, v]) => v)) : null;
  }

  /** The place of an outlier in the list, by trace. @type {(id: string) => import('../furrow.js').SeriesSummary['outliers'][number] | undefined} */
  far(id) {
    return this.summary?.outliers.find((o) => this.counted[o.index] === id);
  }

  /** The profile of a trace as small as a word, all on one scale of heights; null while it is drawn. @type {(trace: Trace, width: number, done: () => void) => SVGSVGElement | null} */
  spark(trace, width, done) {
    const all = [...this.#measured.values()];
    const heights = [Math.min(...all.map((m) => m.low ?? 0)), Math.max(...all.map((m) => m.high ?? 0))];
    const m = this.of(trace.id);
    if (!m || m.problem) return null;
    const key = JSON.stringify([this.#rounds, width, heights, style.mark]);
    const had = this.#sparks.get(trace.id);
    if (had?.key === key) return had.picture;
    this.#draw(trace.id, key, width, heights).then(done, () => {});
    return had?.picture ?? null;
  }

  /** @type {(id: string, key: string, width: number, heights: number[]) => Promise<void>} */
  async #draw(id, key, width, heights) {
    const { svg } = await this.sheet.client.call('figure', 'spark', { trace: id, width, id: `spark-${id}`, heights });
    const picture = drawing(svg);
    picture.setAttribute('aria-hidden', 'true');
    picture.removeAttribute('role');
    this.#sparks.set(id, { key, picture });
  }
}
