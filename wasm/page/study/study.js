// The study: the exercise as it stands, what came of it, and the way from one to the other. An exercise is a StudyState of the module, which
// makes each next one; the page keeps it, the ones before it, and the one that is shown pale behind it. While something moves, only the latest
// change is calculated. What the calculation refuses leaves everything as it was.
import { style } from '../shared/numbers.js';
import { base } from './symbols.js';

/** @typedef {import('../furrow.js').StudyState} StudyState */
/** @typedef {import('../furrow.js').StudyMove} StudyMove */
/** @typedef {import('../furrow.js').FurrowError} FurrowError */
/** An exercise with the one that is kept as before. @typedef {{state: StudyState, before: StudyState | null}} Step */
/** @typedef {{width: number, height: number}} Size */
/** The trace of the worksheet, and the exercise on it. @typedef {{name: string, profile: import('../furrow.js').Profile, settings: import('../furrow.js').Settings, state: StudyState}} OfSheet */

const pause = 2000; // ms after which a change keeps what was before it

export class Study {
  /** @type {Step[]} */
  #past = [];
  /** @type {Step[]} */
  #future = [];
  /** What was shown when the present change began. @type {Step | null} */
  #origin = null;
  /** @type {Partial<StudyState>} */
  #patch = {};
  /** @type {Map<string, number>} */
  #sets = new Map();
  #running = false;
  #again = false;
  #sent = false;
  #last = -Infinity;
  #field = '';
  /** Ends of the height axes while they stay. @type {readonly [number, number] | null} */
  #heights = null;
  /** @type {StudyState} */
  state;
  /** @type {StudyState | null} */
  before = null;
  /** @type {StudyMove | null} */
  answer = null;
  /** Counts the answers. */
  revision = 0;
  /** Whether the present change is one of many, as a slider moves. */
  live = false;
  /** The picked step of the construction, from 1; 0: none. */
  picked = 0;
  /** Part of the trace that is drawn, mm; null: the whole. @type {readonly [number, number] | null} */
  zoom = null;
  /** Whether the exercise that hides its values was answered, or its values shown. */
  opened = false;
  /** Whether the exercise was made here, and not opened from a link. */
  own = true;
  /** Whether the pictures show the state before in place of the present one. */
  swapped = false;
  /** Whether a letter of the formula is open, with its number. */
  explained = false;
  /** Whether the distribution of the heights stands in place of the pictures. */
  distribution = false;
  /** Symbols whose values are hidden, by what hides them. @type {Record<'predict' | 'work', readonly string[]>} */
  hides = { predict: [], work: [] };
  /** Are called after each answer and each choice. @type {(() => void)[]} */
  renderers = [];
  /** The room for the pictures. @type {() => {trace: Size, construction: Size}} */
  room = () => ({ trace: { width: 640, height: 170 }, construction: { width: 640, height: 230 } });
  /** A change has settled. */
  onchange = () => {};
  /** @type {(message: string, field: string) => void} */
  onrefuse = () => {};
  /** @type {OfSheet | null} */
  ofSheet = null;

  /** @param {import('../shared/shell.js').Pad} pad */
  constructor(pad) {
    this.pad = pad;
    this.at = pad.at;
    this.client = pad.client;
    this.catalogue = pad.catalogue;
    this.state = { symbol: 'Rz', edition: pad.catalogue.editions[0].id, letter: 'R', surface: 'demo', demo: pad.first.key, way: 'look' };
  }

  get edition() {
    const { editions } = this.catalogue;
    return editions.find((e) => e.id === this.state.edition) ?? editions[0];
  }

  get letter() {
    return this.state.letter ?? 'R';
  }

  get symbols() {
    return this.edition.symbols[this.letter];
  }

  get symbol() {
    return this.state.symbol ?? '';
  }

  /** What the catalogue says of the symbol that is shown. */
  get parameter() {
    return this.answer && this.catalogue.parameters[this.answer.key];
  }

  get entry() {
    const key = this.answer?.key;
    return this.symbols.find((e) => e.key === key);
  }

  /** Whether the exercise hides every value until it is answered. */
  get closed() {
    return !!this.state.hide && !this.opened;
  }

  /** Whether the value of the symbol is hidden. */
  get hidden() {
    return this.closed || Object.values(this.hides).flat().some((s) => s.replace(/\(.*/, '') === this.symbol.replace(/\(.*/, ''));
  }

  get canUndo() {
    return this.#past.length > 0;
  }

  get canRedo() {
    return this.#future.length > 0;
  }

  /** Whether two exercises are about the same heights to begin with. @type {(a: StudyState, b: StudyState) => boolean} */
  #alike(a, b) {
    return a.surface === b.surface && a.demo === b.demo && a.letter === b.letter && a.edition === b.edition;
  }

  /** Shows what the exercise hides. */
  show() {
    this.opened = true;
    this.run();
  }

  /** Shows the state before in the pictures, or the present one again. @type {(swapped: boolean) => void} */
  swap(swapped) {
    if (swapped === this.swapped) return;
    this.swapped = swapped && !!this.before;
    this.run();
  }

  /** Changes what is chosen; a surface that is another one has nothing before it. @type {(patch: Partial<StudyState>, field?: string) => void} */
  change(patch, field = '') {
    const next = { ...this.state, ...patch };
    this.#begin(field);
    Object.assign(this.#patch, patch);
    this.live = false;
    this.#heights = null;
    if (!this.#alike(next, this.state)) this.before = null;
    if (patch.symbol && base(patch.symbol) !== base(this.symbol)) Object.assign(this.#patch, { window: undefined, shift: undefined });
    if ('symbol' in patch || !this.#alike(next, this.state)) {
      this.picked = 0;
      this.zoom = null;
    }
    this.run();
  }

  /** Moves things by the ids of their fields. With live it is one of many moves. @type {(set: readonly {id: string, value: number}[], options?: {live?: boolean, field?: string}) => void} */
  move(set, { live = false, field = set[0]?.id ?? '' } = {}) {
    const now = performance.now();
    const rested = now - this.#last > pause;
    this.#last = now;
    this.#begin(field);
    if (rested && !this.before) this.before = this.state;
    for (const { id, value } of set) {
      this.#sets.delete(id);
      this.#sets.set(id, value);
    }
    this.live = live;
    this.#heights = this.answer?.heights ?? null;
    this.run();
  }

  /** @param {string} field */
  #begin(field) {
    this.swapped = false;
    this.#origin ??= { state: this.state, before: this.before };
    this.#field = field;
  }

  /** Keeps the exercise as it is as the one before, or none. @type {(before: StudyState | null) => void} */
  keep(before) {
    this.#begin('pin');
    this.before = before;
    this.live = false;
    this.run();
  }

  /** Shows an exercise in place of the present one; one that was kept or linked begins anew. @type {(step: Step, fresh?: boolean) => void} */
  open({ state, before }, fresh = false) {
    if (fresh) this.#past = this.#future = [];
    else this.#begin('');
    this.before = before;
    this.#patch = {};
    this.#sets.clear();
    if (!this.#alike(state, this.state) || state.symbol !== this.state.symbol) [this.picked, this.zoom] = [0, null];
    this.state = state;
    this.#heights = null;
    this.live = false;
    this.run();
  }

  /** @type {(from: Step[], to: Step[]) => void} */
  #back(from, to) {
    const step = from.pop();
    if (!step) return;
    to.push({ state: this.state, before: this.before });
    this.#origin = null;
    this.state = step.state;
    this.before = step.before;
    this.swapped = false;
    this.#heights = null;
    this.live = false;
    this.run();
  }

  undo() {
    this.#back(this.#past, this.#future);
  }

  redo() {
    this.#back(this.#future, this.#past);
  }

  /** Goes through the steps of the construction; a step that has a place is zoomed to. @type {(way: number) => void} */
  step(way) {
    const n = this.answer?.steps.length ?? 0;
    if (!n) return;
    this.picked = (this.picked + way + n + 1) % (n + 1);
    const step = this.answer?.steps[this.picked - 1];
    this.zoom = step && step.from !== null && step.to !== null && !this.#whole(step.from, step.to) ? this.#around(step.from, step.to) : null;
    this.run();
  }

  /** @type {(from: number, to: number) => boolean} */
  #whole(from, to) {
    return to - from > 0.9 * (this.answer?.length ?? 0);
  }

  // A place with as much on both sides as it is long, and at least ten points.
  /** @type {(from: number, to: number) => [number, number]} */
  #around(from, to) {
    const side = Math.max(to - from, ((this.answer?.spacing ?? 1) * 10) / 1000);
    return [Math.max(0, from - side), to + side];
  }

  /** @type {(zoom: readonly [number, number] | null) => void} */
  view(zoom) {
    this.zoom = zoom;
    this.run();
  }

  /** The worker was replaced by one that knows nothing. */
  lost() {
    this.#sent = false;
    if (!this.#running) this.run();
  }

  /** The trace of the worksheet, where a call needs it. */
  get sheetProfile() {
    return this.state.surface === 'sheet' ? this.ofSheet?.profile : undefined;
  }

  /** Asks the module about the exercise, beside what is shown. @type {(wanted: () => boolean, request: import('../furrow.js').StudyRequest) => Promise<any>} */
  beside(wanted, request) {
    const { sheetProfile: sheet } = this;
    return this.client.beside(wanted, 'study', { ...request, ...(sheet && { settings: this.ofSheet?.settings }) }, sheet);
  }

  async run() {
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

  /** @type {(state: StudyState, set: {id: string, value: number}[]) => Promise<StudyMove>} */
  #ask(state, set) {
    const sheet = state.surface === 'sheet' && !this.#sent ? this.ofSheet?.profile : undefined;
    if (sheet) this.#sent = true;
    /** @type {import('../furrow.js').StudyView} */
    const view = { ...this.room(), comma: style.mark === ',', picked: this.picked, hidden: this.hidden, distribution: this.distribution, live: this.live, letters: this.explained, ...(this.zoom && { from: this.zoom[0], to: this.zoom[1] }), ...(this.#heights && { heights: this.#heights }) };
    return this.client.call('study', { do: 'move', state, set, before: this.before, swap: this.swapped, view, ...(sheet && { settings: this.ofSheet?.settings }) }, sheet);
  }

  async #once() {
    const asked = this.state;
    const patch = this.#patch;
    const set = [...this.#sets].map(([id, value]) => ({ id, value }));
    const { live } = this;
    this.#patch = {};
    this.#sets = new Map();
    try {
      let answer = await this.#ask({ ...asked, ...patch }, set);
      if (answer.cut && !live && this.#heights) {
        this.#heights = null;
        answer = await this.#ask(answer.state, []);
        this.at.announce('Height scale changed.');
      }
      if (this.state !== asked) return; // another exercise was opened meanwhile
      this.answer = answer;
      this.state = answer.state;
      this.revision++;
      if (!live && this.#origin && !this.#again) {
        if (JSON.stringify(this.#origin) !== JSON.stringify({ state: this.state, before: this.before })) {
          this.#past.push(this.#origin);
          this.#future = [];
        }
        this.#origin = null;
      }
    } catch (error) {
      if (this.state !== asked) return;
      if (this.#origin && !this.#again) this.before = this.#origin.before;
      this.#origin = null;
      const { kind, key, message } = /** @type {FurrowError} */ (error);
      if (kind !== 'stopped') this.onrefuse(message, key || this.#field);
    }
    for (const render of this.renderers) render();
    if (!live && !this.#again) this.onchange();
  }
}
