// The sheet: what was chosen (the state), what came out of it (the evaluation), and the way from one to the other. A
// change that the calculation refuses leaves both as they were.
import { died } from '../shared/client.js';
import { count, style } from '../shared/numbers.js';
import { inView } from '../shared/view.js';
import { Redraw } from './redraw.js';
import { Series } from './series.js';
import { base, blank, drawnOf, fixed, nameOf, originWords, rowKey, rowOf, spoken, without } from './state.js';

/** @typedef {import('../furrow.js').Settings} Settings */
/** @typedef {import('../furrow.js').Value} Value */
/** @typedef {import('../furrow.js').FurrowError} FurrowError */
/** @typedef {import('./state.js').State} State */
/** @typedef {import('./state.js').Trace} Trace */
/** @typedef {Omit<import('../furrow.js').Evaluation, 'profiles' | 'result'> & {result: import('../furrow.js').Result, drawn?: Promise<Float64Array | null>}} Evaluation */

/** What follows the letter in the symbols that are listed unless more is asked for. */
const usual = new Set(['a', 'q', 'p', 'v', 'z', 't', 'zx', 'sk', 'ku', 'sm', 'c', 'dq', 'mr', 'mc', 'dc', 'k', 'pk', 'vk', 'mrk1', 'mrk2']);

const mostSteps = 100; // of undo: each keeps its traces

export class Sheet extends Redraw {
  /** @type {State[]} */
  #past = [];
  /** @type {State[]} */
  #future = [];
  /** @type {Trace | null} */
  #given = null; // the trace that the worker holds
  #joined = ''; // the field that the next change may belong to
  #running = false;
  #again = false;
  #failed = 0; // evaluations in a row that ended with their worker
  /** The trace that is being worked. */
  working = '';
  /** The calculation stopped again with a trace. @type {(id: string) => void} */
  onstopped = () => {};
  /** @type {Evaluation | null} */
  evaluation = null;
  /** Counts the evaluations, so that a picture knows when it is out of date. */
  revision = 0;
  /** Counts the verdicts. */
  judgements = 0;
  /** Symbols whose values belong to an earlier setting, while a slider moves. @type {Set<string>} */
  stale = new Set();
  #live = false;
  #rests = 0;
  #opens = 0;
  /** Called when there is something to keep: a settled state, a text being typed. */
  onchange = () => {};
  /** Shows a text in the field of the requirement, whoever is in it, and has it read. @type {(text: string, read: boolean) => void} */
  ontyped = () => {};
  /** @type {(() => void)[]} */
  #waiting = [];
  /** Shows why a change was refused. @type {(error: FurrowError | Error, field: string) => void} */
  onrefuse = () => {};
  /** Says that a calculation takes long, or that it has ended. @type {(what: string) => void} */
  onbusy = () => {};
  /** The text of the requirement as it stands in its field, perhaps not yet read. */
  typed = '';
  /** The file that asks a question. */
  asks = '';
  /** What a file leaves open, in words. @type {readonly string[]} */
  fileOpen = [];
  /** The latest verdict, and the question that it answers. @type {{asked: string, verdict: import('../furrow.js').Verdict} | null} */
  #judged = null;
  /** The latest kept check of the instrument that the record names. @type {import('../furrow.js').Sheet['check']} */
  check = null;
  /** That check whole, as the Instrument sheet kept it. @type {import('../check/main.js').KeptCheck | null} */
  kept = null;
  /** The picked section or step of the open construction. */
  picked = 0;
  /** The symbol whose working is open. */
  open = '';

  /** @param {import('../shared/shell.js').Pad} pad */
  constructor(pad) {
    super(pad.client);
    this.at = pad.at;
    this.catalogue = pad.catalogue;
    this.demos = pad.demos;
    this.maxBytes = pad.version.maxBytes;
    this.state = blank;
    this.settled = blank; // the state that the evaluation belongs to
    this.series = new Series(this);
  }

  get edition() {
    const { editions } = this.catalogue;
    return editions.find((e) => e.id === this.state.settings.edition) ?? editions[0];
  }

  /** The limit whose settings are in use: the first of the requirement. */
  get leading() {
    return this.wanted && (this.state.required?.used?.limits[0] ?? null);
  }

  /** What the verdict is asked for, but for the traces that count. @returns {{text: string, options: import('../furrow.js').JudgeOptions}} */
  get asking() {
    const { required, rule, agreed, u, k, prove, guard, out, values } = this.state;
    const typed = values.filter((v) => !(v.id in out)).map((v) => `${v.symbol} ${v.text}`).join('; ');
    return { text: required?.text ?? '', options: { edition: this.edition.id, rule, agreed, fileOpen: this.fileOpen, typed, u, ...(u ? { k: Number(k), prove, guard } : {}) } };
  }

  /** All that a verdict belongs to besides the values that are shown. */
  get #question() {
    return JSON.stringify([this.asking, this.state.traces.map((t) => t.id), this.state.out]);
  }

  /** The verdict on the requirement as it stands in its field; null while that is typed, read or judged. */
  get verdict() {
    if (this.typed.trim() !== (this.state.required?.text ?? '').trim()) return null;
    return this.#judged?.asked === this.#question ? this.#judged.verdict : null;
  }

  /** The settings that the requirement asks for, null without one. */
  get wanted() {
    return this.state.required?.used?.settings ?? null;
  }

  /** The column of the edition's table that was chosen, by the requirement unless by hand. @returns {import('../furrow.js').Row} */
  get row() {
    const { rows, default: serves } = this.edition;
    const { wanted } = this;
    const row = rows.find((r, i) => rowKey(r, i) === this.state.row);
    return row ?? (wanted ? rowOf(wanted, rows) : (rows[serves] ?? rows[0]));
  }

  /** The kind of L-filter that is asked for. */
  get longKind() {
    return (!this.state.row && this.wanted?.long?.filter) || this.edition.long;
  }

  /**
   * Where a setting in use comes from: set here, the drawing, or a standard with its clause. own says whether it was set by hand.
   * @type {(key: string, own: boolean) => {said: string, basis: string, text: string}}
   */
  origin(key, own) {
    if (own || (this.state.row && /^(long|short|sections?)/.test(key))) return originWords();
    const o = this.leading?.origins[key];
    if (o) return originWords(o);
    return originWords(this.evaluation?.result.origins[key]);
  }

  /** The name of the sheet: the one it was given, or that of its first trace. */
  get name() {
    return nameOf(this.state);
  }

  /** The trace that is drawn. */
  get trace() {
    return drawnOf(this.state);
  }

  /** How a trace was made. @type {(id: string) => import('./state.js').Way} */
  way(id) {
    const { settings: { input, invert }, skid, ways } = this.state;
    return ways[id] ?? { input, invert, skid };
  }

  /** Says how the drawn trace was made; of all where it is alone. @type {(patch: Partial<import('./state.js').Way>, field: string) => void} */
  setWay(patch, field) {
    const { traces, ways } = this.state;
    const id = this.trace?.id ?? '';
    const way = { ...this.way(id), ...patch };
    if (traces.length > 1) return this.change({ ways: { ...ways, [id]: way } }, { field });
    this.sayOfAll(way, field);
  }

  /** Says the same of all traces. @type {(way: import('./state.js').Way, field: string) => void} */
  sayOfAll({ input, invert, skid }, field) {
    const { input: _, invert: __, ...settings } = this.state.settings;
    if (skid === 'with') delete settings.profile;
    this.change({ skid, ways: {}, settings: { ...settings, ...(input && { input }), ...(invert && { invert }) } }, { field });
  }

  /** What is left out of the drawn trace. */
  get excluded() {
    return this.state.parts[this.trace?.id ?? ''] ?? [];
  }

  /** Leaves parts out of the drawn trace. @type {(exclude: import('../furrow.js').Exclusion[], options?: {field?: string}) => void} */
  exclude(exclude, options) {
    const id = this.trace?.id;
    if (!id) return;
    const { [id]: before, ...others } = this.state.parts;
    this.change({ parts: exclude.length ? { ...others, [id]: exclude } : others }, options);
  }

  /** Adds traces of the same surface; invented ones leave when the first own trace comes. @type {(list: Trace[]) => void} */
  add(list) {
    const [first] = list;
    if (!first) return;
    if (without(this.state)) return this.replace(list);
    this.change({ traces: [...this.state.traces, ...list], drawn: first.id, view: null });
  }

  /** Removes a trace or a value that was typed in. @type {(id: string) => void} */
  remove(id) {
    const { traces, values, out, parts, ways } = this.state;
    const drawn = this.trace?.id;
    const rest = traces.filter((t) => t.id !== id);
    const at = traces.findIndex((t) => t.id === id);
    /** @type {<T>(of: Readonly<Record<string, T>>) => Record<string, T>} */
    const but = (of) => Object.fromEntries(Object.entries(of).filter(([key]) => key !== id));
    this.change({ traces: rest, values: values.filter((v) => v.id !== id), out: but(out), parts: but(parts), ways: but(ways), ...(drawn === id ? { drawn: rest[Math.min(at, rest.length - 1)]?.id ?? '', view: null } : {}) });
  }

  /** Takes traces in place of all that are there. @type {(list: Trace[], options?: {live?: boolean, from?: State}) => void} */
  replace(list, options) {
    const { crop, start, exclude, ...settings } = this.state.settings;
    this.change({ traces: list, drawn: list[0]?.id ?? '', out: {}, parts: {}, ways: {}, view: null, settings }, options);
  }

  get letter() {
    return this.state.settings.profile ?? 'R';
  }

  get canUndo() {
    return this.#past.length > 0;
  }

  get canRedo() {
    return this.#future.length > 0;
  }

  /**
   * Changes the state. With live, the change is one of many, as a slider moves, and no step of undoing; the last one is
   * made without. field is the id of the control that a refusal is shown at.
   * With join it belongs to the
   * change before it when that came from the same field, as each letter typed does.
   * @type {(patch: Partial<State>, options?: {live?: boolean, join?: boolean, field?: string, from?: State}) => void}
   */
  change(patch, { live = false, join = false, field = '', from = this.state } = {}) {
    if (!live && !(join && field === this.#joined)) {
      this.#past.push(from);
      if (this.#past.length > mostSteps) this.#past.shift();
      this.#future = [];
    }
    this.state = { ...this.state, ...patch };
    this.field = field;
    this.#joined = join ? field : '';
    this.#live = live;
    this.run();
  }

  /** @type {(settings: Settings, options?: {live?: boolean, field?: string, from?: State}) => void} */
  set(settings, options) {
    const merged = { ...this.state.settings, ...settings };
    for (const [key, value] of Object.entries(merged)) if (value === undefined) delete merged[/** @type {keyof Settings} */ (key)];
    this.change({ settings: merged }, options);
  }

  /** What is typed next is a change of its own. */
  part() {
    this.#joined = '';
  }

  /** What is to be kept: the settled state, what led to it, and the text that is being typed, or that was read and waits for its values. */
  get memory() {
    const { state, settled } = this;
    const at = this.#past.indexOf(settled);
    const waits = state.required !== settled.required ? (state.required?.text ?? '') : '';
    return { state: settled, past: at < 0 ? this.#past : this.#past.slice(0, at), future: this.#future, typed: this.typed || waits };
  }

  /** Takes what was kept in place of what is there. A text that was being typed is read again, unless it is being typed elsewhere. @type {(memory: {state: State, past: State[], future: State[], typed: string}, elsewhere?: boolean) => void} */
  remember({ state, past, future, typed }, elsewhere = false) {
    this.#past = [...past];
    this.#future = [...future];
    this.#joined = '';
    this.state = this.settled = state;
    this.evaluation = null;
    this.#judged = null;
    this.typed = typed;
    this.ontyped(typed, !elsewhere);
    this.run(true);
  }

  /** Waits until everything is calculated and drawn. @type {() => Promise<void>} */
  whenSettled() {
    return new Promise((done) => (this.#running ? this.#waiting.push(done) : done()));
  }

  undo() {
    const state = this.#past.pop();
    if (!state) return;
    this.#future.push(this.state);
    this.#joined = '';
    this.state = state;
    this.run();
  }

  redo() {
    const state = this.#future.pop();
    if (!state) return;
    this.#past.push(this.state);
    this.state = state;
    this.run();
  }

  /** The settings file of the state: edition and class first, then what was set besides. @type {() => Settings} */
  compose() {
    const { settings, asked, row } = this.state;
    const { wanted } = this;
    // A class chosen by hand takes the place of what the requirement chose.
    /** @type {Settings} */
    const s = { ...(wanted && !row && fixed(wanted)), ...settings, name: this.name };
    const { input, invert } = this.way(this.trace?.id ?? '');
    Object.assign(s, { input, invert: invert || undefined });
    if (this.excluded.length) s.exclude = this.excluded;
    const column = this.row;
    if (row && column.long && s.long === undefined) s.long = { cutoff: column.long };
    if (row && column.short && s.short === undefined) s.short = { cutoff: column.short };
    s.parameters = [...new Set([...asked, ...this.limits.flatMap((l) => l.symbol ?? []), ...this.listed()])];
    if (!s.parameters.length) s.parameters = [`${this.letter}a`];
    return s;
  }

  /** The limits on the profile that is evaluated. */
  get limits() {
    const { answer } = this.state.required ?? {};
    return this.wanted?.edition === this.edition.id ? (answer?.limits ?? []).filter((l) => l.profile === this.letter) : [];
  }

  /** The symbols that the table lists besides those asked for. @type {() => string[]} */
  listed() {
    const all = this.edition.symbols[this.letter];
    if (this.state.show === 'asked') return [];
    // While a slider moves, what is not shown waits for the end of it, and so does what needs the slow filter.
    if (this.#live && !inView(this.at.byId('values'))) return [`${this.letter}a`];
    return all.filter((e) => (this.state.show === 'all' || usual.has(base(e.symbol).slice(1))) && !(this.#live && this.catalogue.parameters[e.key].on !== 'own')).map((e) => e.symbol);
  }

  /** A symbol of the roughness profile, with the letter of the profile that is evaluated. @type {(name: string) => string} */
  spelled(name) {
    return /^[RPW]/.test(name) ? this.letter + name.slice(1) : name;
  }

  /** The worker was replaced by one that knows nothing: the sheet as it stood is worked again. */
  lost() {
    this.#given = null;
    this.series.lost();
    if (!this.#running) this.run();
  }

  /** Evaluates; while one calculation runs, the latest change waits for it and the ones between are left out. A sheet that opens is shown without its values only when these take long. */
  async run(opens = false) {
    clearTimeout(this.#rests);
    if (!this.#live) {
      this.rest();
      this.#dress();
      if (opens) this.#opens = setTimeout(() => this.redraw(), 100);
      else this.redraw();
    }
    if (this.#running) {
      this.#again = true;
      return;
    }
    this.#running = true;
    do {
      this.#again = false;
      await this.#once();
    } while (this.#again);
    this.#running = false;
    if (this.#live) {
      // A slider that is held and does not move: everything is worked, as when it is let go.
      this.#rests = setTimeout(() => {
        this.#live = false;
        this.run();
      }, 300);
    } else this.onchange();
    for (const act of this.#waiting.splice(0)) act();
  }

  async #once() {
    await this.#worked();
    clearTimeout(this.#opens);
    this.redraw();
  }

  async #worked() {
    const { state, trace } = this;
    if (!trace) {
      this.evaluation = null;
      this.settled = state;
      await this.series.update(() => this.#again).then(() => this.#judge()).catch((error) => this.onrefuse(error, this.field ?? ''));
      return;
    }
    const live = this.#live;
    // While a slider moves, the other traces wait for the end of it, and the verdict with them.
    const alone = state.traces.length === 1 && !state.values.length;
    const late = setTimeout(() => this.onbusy(`Evaluating ${count(trace.profile.z.length)} points`), 300);
    const changed = this.#given !== trace;
    this.working = trace.id;
    try {
      if (changed) await this.client.call('take', trace.profile);
      this.#given = trace;
      const { used } = this.state.required ?? {};
      const followed = this.wanted && !this.state.row && used ? { text: used.text, edition: used.edition } : undefined;
      const { text, options } = this.asking;
      const evaluation = /** @type {Evaluation} */ (await this.evaluate([this.compose(), followed], live && alone ? [['judge', text, options]] : []));
      // What a requirement needs is told also where the trace is too short for it.
      const asked = state.required !== this.settled.required;
      if (evaluation.problem && !changed && !asked && this.evaluation && !this.evaluation.problem) throw Object.assign(new Error(evaluation.problem), { kind: 'trace' });
      if (!live) await this.series.update(() => this.#again);
      if (live && !alone) this.#judged = null;
      else await this.#judge(live);
      this.#failed = 0;
      if (live) this.#keep(evaluation);
      else this.stale = new Set();
      this.moving = this.#live; // also where a step of a slider came meanwhile
      this.evaluation = evaluation;
      this.revision++;
      this.settled = state;
      this.#say();
    } catch (error) {
      // What stopped the calculation is tried again: nothing of it is lost.
      if (!this.#again && !died(error)) {
        this.#past = this.#past.filter((s) => s !== this.settled);
        this.state = this.settled;
      }
      if (/** @type {FurrowError} */ (error).kind === 'stopped') {
        this.#given = null;
        this.series.lost();
        this.#again = this.#failed++ < 2;
        if (this.#failed > 1) this.onstopped(this.working);
      }
      this.onrefuse(/** @type {Error} */ (error), this.field ?? '');
    } finally {
      clearTimeout(late);
      this.onbusy('');
    }
    this.#dress();
  }

  // The verdict comes with the values that it judges; there is none where a later change waits.
  /** @param {boolean} [latest] on the trace that was evaluated last, alone */
  async #judge(latest = false) {
    const { text, options } = this.asking;
    const asked = this.#question;
    this.#judged = null;
    if (this.#again && !latest) return;
    this.#judged = { asked, verdict: latest ? await this.ask('judge', text, options) : await this.client.call('judge', text, { ...options, traces: this.series.judged }) };
    this.judgements++;
  }

  // While a slider moves, values that were not worked stay as they were, and are marked.
  /** @param {Evaluation} evaluation */
  #keep(evaluation) {
    if (!this.evaluation) return;
    const { values } = evaluation.result;
    const worked = new Set(values.map((v) => v.symbol));
    const kept = this.evaluation.result.values.filter((v) => !worked.has(v.symbol));
    this.stale = new Set(kept.map((v) => v.symbol));
    evaluation.result = { ...evaluation.result, values: [...values, ...kept] };
  }

  /** Numbers are shown as the reader has them. */
  #dress() {
    style.mark = this.state.decimal;
    style.inch = this.state.units === 'inch';
    this.at.showUnits();
  }

  /** What stands in the field of the requirement: from the first key on there is no verdict until it is read. @type {(typed: string) => void} */
  type(typed) {
    this.typed = typed;
    this.at.hush();
    this.redraw();
    this.onchange();
  }

  /** What files leave open, and the one that is asked about; the verdict says so. @type {(open: readonly string[], file: string) => void} */
  leaveOpen(open, file) {
    this.asks = file;
    if (!open.length && !this.fileOpen.length) return;
    this.fileOpen = open;
    this.run();
  }

  // The values asked for, once the sheet has settled.
  #say() {
    const { evaluation } = this;
    if (!evaluation) return;
    const said = this.state.asked.map((a) => this.value(a)).filter((v) => v !== undefined)
      .map((v) => (v.value === null ? `${v.symbol} not defined: ${v.reason}.` : `${v.symbol} ${spoken(v)}.`));
    const { verdict } = this;
    if (verdict && this.state.required) said.push(`${verdict.word}${verdict.why ? `: ${verdict.sentence}` : '.'}`);
    this.at.announce(evaluation.problem ? `Nothing could be evaluated: ${evaluation.problem}.` : said.join(' '));
  }

  /** @type {(symbol: string) => Value | undefined} */
  value(symbol) {
    return this.evaluation?.result.values.find((v) => v.symbol === symbol);
  }
}
