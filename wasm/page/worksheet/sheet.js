// The sheet: what was chosen (the state), what came out of it (the evaluation), and the way from one to the other. A
// change that the calculation refuses leaves both as they were.
import { count, figure, style, withUnit } from '../shared/numbers.js';

/** @typedef {import('../furrow.js').Profile} Profile */
/** @typedef {import('../furrow.js').Settings} Settings */
/** @typedef {import('../furrow.js').Value} Value */
/** @typedef {import('../furrow.js').Row} Row */
/** @typedef {import('../furrow.js').Reading} Reading */
/** @typedef {import('../furrow.js').FurrowError} FurrowError */
/** A made-up surface, in µm, and what is known of it beforehand. @typedef {{surface: import('../furrow.js').Surface, known: readonly import('../furrow.js').Known[]}} Made */
/** @typedef {import('../furrow.js').Plan} Plan */
/** What the drawing asks for, as it was read; used is the latest plan that gave settings: these stay in use while the text is refused. @typedef {{text: string, answer: Plan, used: Plan | null}} Required */
/** @typedef {Omit<import('../furrow.js').Evaluation, 'profiles' | 'result'> & {result: import('../furrow.js').Result, drawn?: Float64Array}} Evaluation */
/**
 * A trace and where it came from.
 * @typedef {{profile: Profile, label: string, origin: string, note: string, demo: string, reading: Reading | null, made?: Made}} Trace
 */
/**
 * @typedef {object} State
 * @property {string} name given to the sheet, '' until it is renamed
 * @property {Trace | null} trace
 * @property {Required | null} required the requirement, null while none is written
 * @property {string} rule acceptance rule in place of the requirement's own, or ''
 * @property {string} agreed who agreed that settings or rule deviate, or ''
 * @property {string} row name or number of the setting class, '' for the edition's default
 * @property {Settings} settings what was set besides; everything else follows from edition and class
 * @property {string[]} asked symbols asked for
 * @property {string} show which values are listed
 * @property {string} skid how it was traced
 * @property {string} decimal the reader's decimal mark
 * @property {[number, number] | null} view part of the trace drawn, µm; null: the whole
 */

/** What follows the letter in the symbols that are listed unless more is asked for. */
const usual = new Set(['a', 'q', 'p', 'v', 'z', 't', 'zx', 'sk', 'ku', 'sm', 'c', 'dq', 'mr', 'mc', 'dc', 'k', 'pk', 'vk', 'mrk1', 'mrk2']);

/** A symbol without its arguments. @type {(symbol: string) => string} */
export const base = (symbol) => symbol.replace(/\(.*/, '');

/** @type {State} */
export const blank = {
  name: '', trace: null, required: null, rule: '', agreed: '', row: '', settings: {}, asked: ['Rz', 'Ra'], show: 'usual', skid: 'unknown', decimal: '.', view: null,
};

export class Sheet {
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
  /** @type {Evaluation | null} */
  evaluation = null;
  /** Counts the evaluations, so that a picture knows when it is out of date. */
  revision = 0;
  /** Symbols whose values belong to an earlier setting, while a slider moves. @type {Set<string>} */
  stale = new Set();
  #live = false;
  /** Is called after every change, with what changed last. @type {(() => void)[]} */
  renderers = [];
  /** Shows why a change was refused. @type {(error: FurrowError | Error, field: string) => void} */
  onrefuse = () => {};
  /** Says that a calculation takes long, or that it has ended. @type {(what: string) => void} */
  onbusy = () => {};
  /** The text of the requirement as it stands in its field, perhaps not yet read. */
  typed = '';
  /** What a file leaves open, in words. @type {readonly string[]} */
  fileOpen = [];
  /** The latest verdict, and what it was asked for. @type {{asked: string, verdict: import('../furrow.js').Verdict} | null} */
  #judged = null;
  /** The picked section or step of the open construction. */
  picked = 0;
  /** The symbol whose working is open. */
  open = '';

  /** @param {import('../shared/shell.js').Pad} pad */
  constructor(pad) {
    this.at = pad.at;
    this.client = pad.client;
    this.catalogue = pad.catalogue;
    this.demos = pad.demos;
    this.maxBytes = pad.version.maxBytes;
    this.state = blank;
    this.settled = blank; // the state that the evaluation belongs to
  }

  get edition() {
    const { editions } = this.catalogue;
    return editions.find((e) => e.id === this.state.settings.edition) ?? editions[0];
  }

  /** The limit whose settings are in use: the first of the requirement. */
  get leading() {
    return this.wanted && (this.state.required?.used?.limits[0] ?? null);
  }

  /** What the verdict is asked for. @type {() => {text: string, options: import('../furrow.js').JudgeOptions}} */
  #asking() {
    const { required, rule, agreed, trace } = this.state;
    return { text: required?.text ?? '', options: { edition: this.edition.id, rule, agreed, fileOpen: this.fileOpen, traceless: !trace } };
  }

  /** The verdict on the requirement as it stands in its field; null while that is typed, read or judged. */
  get verdict() {
    if (this.typed.trim() !== (this.state.required?.text ?? '').trim()) return null;
    return this.#judged?.asked === JSON.stringify(this.#asking()) ? this.#judged.verdict : null;
  }

  /** The settings that the requirement asks for, null without one. */
  get wanted() {
    return this.state.required?.used?.settings ?? null;
  }

  /** The column of the edition's table that was chosen, by the requirement unless by hand. @returns {Row} */
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
    if (own || (this.state.row && /^(long|short|sections?)/.test(key))) return said();
    const o = this.leading?.origins[key];
    if (o) return said(o);
    return said(this.evaluation?.result.origins[key]);
  }

  /** The name of the sheet: the one it was given, or that of its trace. */
  get name() {
    const { name, trace } = this.state;
    return name || (trace?.demo ? trace.label : trace?.label.replace(/\.[a-z][a-z0-9]{0,4}$/i, '')) || 'Surface profile worksheet';
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

  /** Forgets what led to the present state: the sheet as it opens cannot be undone. */
  begin() {
    this.#past = [];
    this.#future = [];
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
    // While a slider moves, what needs the slow filter waits for the end of it.
    return all.filter((e) => (this.state.show === 'all' || usual.has(base(e.symbol).slice(1))) && !(this.#live && this.catalogue.parameters[e.key].on !== 'own')).map((e) => e.symbol);
  }

  /** A symbol of the roughness profile, with the letter of the profile that is evaluated. @type {(name: string) => string} */
  spelled(name) {
    return /^[RPW]/.test(name) ? this.letter + name.slice(1) : name;
  }

  /** The worker was replaced by one that knows nothing: the sheet as it stood is worked again. */
  lost() {
    this.#given = null;
    if (!this.#running) this.run();
  }

  /** Evaluates; while one calculation runs, the latest change waits for it and the ones between are left out. */
  async run() {
    style.mark = this.state.decimal;
    this.#draw();
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
  }

  async #once() {
    const { state } = this;
    const { trace } = state;
    if (!trace) {
      this.evaluation = null;
      this.settled = state;
      await this.#judge().catch((error) => this.onrefuse(error, this.field ?? ''));
      this.#draw();
      return;
    }
    const late = setTimeout(() => this.onbusy(`Evaluating ${count(trace.profile.z.length)} points`), 300);
    const changed = this.#given !== trace;
    try {
      if (changed) await this.client.call('take', trace.profile);
      this.#given = trace;
      const { used } = this.state.required ?? {};
      const followed = this.wanted && !this.state.row && used ? { text: used.text, edition: used.edition } : undefined;
      const evaluation = /** @type {Evaluation} */ (await this.client.call('evaluate', this.compose(), followed));
      // What a requirement needs is told also where the trace is too short for it.
      const asked = state.required !== this.settled.required;
      if (evaluation.problem && !changed && !asked && this.evaluation && !this.evaluation.problem) throw Object.assign(new Error(evaluation.problem), { kind: 'trace' });
      await this.#judge();
      this.#failed = 0;
      this.#keep(evaluation);
      this.evaluation = evaluation;
      this.revision++;
      this.settled = state;
      this.#say();
    } catch (error) {
      if (!this.#again) {
        this.#past = this.#past.filter((s) => s !== this.settled);
        this.state = this.settled;
      }
      if (/** @type {FurrowError} */ (error).kind === 'stopped') {
        this.#given = null;
        this.#again = this.#failed++ < 2;
      }
      this.onrefuse(/** @type {Error} */ (error), this.field ?? '');
    } finally {
      clearTimeout(late);
      this.onbusy('');
    }
    style.mark = this.state.decimal;
    this.#draw();
  }

  // The verdict comes with the values that it judges.
  async #judge() {
    const asking = this.#asking();
    this.#judged = null;
    this.#judged = { asked: JSON.stringify(asking), verdict: await this.client.call('judge', asking.text, asking.options) };
  }

  // While a slider moves, values that were not worked stay as they were, and are marked.
  /** @param {Evaluation} evaluation */
  #keep(evaluation) {
    this.stale = new Set();
    if (!this.#live || !this.evaluation) return;
    const { values } = evaluation.result;
    const worked = new Set(values.map((v) => v.symbol));
    const kept = this.evaluation.result.values.filter((v) => !worked.has(v.symbol));
    this.stale = new Set(kept.map((v) => v.symbol));
    evaluation.result = { ...evaluation.result, values: [...values, ...kept] };
  }

  #draw() {
    for (const render of this.renderers) render();
  }

  /** What stands in the field of the requirement: from the first key on there is no verdict until it is read. @type {(typed: string) => void} */
  type(typed) {
    this.typed = typed;
    this.at.hush();
    this.#draw();
  }

  /** What a file leaves open; the verdict says so. @type {(open: readonly string[]) => void} */
  leaveOpen(open) {
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

/** An origin in words: the standard with its clause, "drawing" or "set here"; what rests on nothing else is set here. @type {(o?: import('../furrow.js').Origin) => {said: string, basis: string, text: string}} */
const said = (o) => ({ said: o?.from === 'standard' ? o.source : (o?.from ?? 'set here'), basis: o?.from === 'standard' ? o.basis : '', text: o?.text ?? '' });

/** What a requirement fixes, and nothing that belongs to the trace. @type {(wanted: Settings) => Settings} */
function fixed({ short, long, waviness_limit, sections, section, choices }) {
  return { short, long, waviness_limit, sections, section, choices };
}

/** The row of the table that settings come to, with what the table says of tip and spacing where they stand in it. @type {(wanted: Settings, rows: readonly Row[]) => Row} */
function rowOf({ short, long, sections, section }, rows) {
  const like = rows.find((r) => r.long === (long?.cutoff ?? 0) && r.short === (short?.cutoff ?? 0));
  const own = { long: long?.cutoff ?? 0, short: short?.cutoff ?? 0, sections: sections ?? like?.sections ?? 1, section: section ?? long?.cutoff ?? 0 };
  const same = like && like.sections === own.sections && like.section === own.section;
  if (same) return like;
  return { ...own, name: '', evaluation: own.sections * own.section, maxSpacing: like?.maxSpacing ?? 0, tipRadius: like?.tipRadius ?? 0 };
}

/** The key of a row in the state. @type {(row: Row, i: number) => string} */
export const rowKey = (row, i) => row.name || String(i);

const units = /** @type {Record<string, string>} */ ({ 'µm': 'micrometres', '%': 'percent', '1/mm': 'per millimetre', '1/10 mm': 'per 10 millimetres' });

/** @type {(v: Value) => string} */
const spoken = (v) => `${figure(/** @type {number} */ (v.value))} ${units[v.unit] ?? v.unit}`.trim();

/** @type {(v: Value, digits?: number) => string} */
export const shown = (v, digits = 3) => (v.value === null ? 'not defined' : withUnit(figure(v.value, digits), v.unit === '1/10 mm' ? 'per 10 mm' : v.unit));
