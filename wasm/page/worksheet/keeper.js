// Keeps the sheet: every settled change is stored within half a second, with the way back (undo), and comes again after a reload, a crash or a
// restart. Windows that show the same sheet take over each other's changes; the last one counts.
import { el } from '../shared/dom.js';
import { newId } from '../shared/store.js';
import { blank, nameOf } from './state.js';

/** @typedef {import('./state.js').State} State */
/** @typedef {import('./state.js').Trace} Trace */
/** @typedef {import('./state.js').Required} Required */
/** A requirement as it is stored: it is read again when the sheet is opened, by the furrow that opens it. @typedef {{text: string, edition: string, used: {text: string, edition: string} | null}} StoredRequired */
/** @typedef {Omit<State, 'traces' | 'required'> & {traces: string[], required: StoredRequired | null}} StoredState */
/** @typedef {import('../shared/store.js').StoredSheet & {state: StoredState, past: StoredState[], future: StoredState[], typed: string, hidden: string[], furrow: string}} Kept */

/** The form of a stored sheet; older ones are brought to it one step after the other. */
export const form = 1;
/** @type {((record: any) => any)[]} */
const steps = [];

/** The sheet that this window shows, kept by the browser as long as the window. */
const place = {
  /** @returns {{sheet?: string, scroll?: number, focus?: string}} */
  get: () => JSON.parse(sessionStorage.getItem('furrow-place') ?? '{}'),
  /** @type {(patch: object) => void} */
  set: (patch) => sessionStorage.setItem('furrow-place', JSON.stringify({ ...place.get(), ...patch })),
};

/** A stored sheet in the present form. @type {(record: any) => Kept} */
const renewed = (record) => steps.slice(record.form - 1).reduce((r, step) => step(r), record);

/** @type {(pad: import('../shared/shell.js').Pad, id: string) => Promise<Map<string, Trace>>} */
const tracesOf = async (pad, id) => new Map((await pad.store?.tracesOf(id))?.map((t) => [t.id, /** @type {Trace} */ (/** @type {unknown} */ (t))]));

/** Makes states of stored ones: their requirements are read again, each once. @type {(traces: Map<string, Trace>, client: import('../shared/client.js').Client) => (stored: StoredState) => Promise<State>} */
function thawing(traces, client) {
  /** @type {Map<string, Promise<import('../furrow.js').Plan>>} */
  const plans = new Map();
  /** @type {(text: string, edition: string) => Promise<import('../furrow.js').Plan>} */
  const plan = (text, edition) => {
    const key = JSON.stringify([text, edition]);
    const there = plans.get(key) ?? client.call('requirement', text, edition);
    plans.set(key, there);
    return there;
  };
  /** @type {Map<string, Required>} */
  const read = new Map();
  return async (stored) => {
    const key = JSON.stringify(stored.required);
    if (stored.required && !read.has(key)) {
      const { text, edition, used } = stored.required;
      const answer = await plan(text, edition);
      read.set(key, { text, answer, used: answer.settings ? answer : used && (await plan(used.text, used.edition)) });
    }
    return { ...blank, ...stored, required: read.get(key) ?? null, traces: stored.traces.flatMap((id) => traces.get(id) ?? []) };
  };
}

/** The worksheet of this window, or the one that was open last, for the other sheets; null without one. @type {(pad: import('../shared/shell.js').Pad) => Promise<{state: State, changed: number} | null>} */
export async function latest(pad) {
  const kept = await latestRecord(pad);
  return kept && { state: await thawing(await tracesOf(pad, kept.id), pad.client)(kept.state), changed: kept.changed };
}

/** The same as it is stored. @type {(pad: import('../shared/shell.js').Pad) => Promise<Kept | null>} */
export async function latestRecord(pad) {
  for (const id of [place.get().sheet, await pad.store?.choice('sheet')]) {
    const record = id && (await pad.store?.get('sheets', id));
    if (record) return renewed(record);
  }
  return null;
}

export class Keeper {
  #timer = 0;
  #since = 0;
  /** What was stored last. @type {unknown[]} */
  #stored = [];
  /** @type {WeakMap<State, StoredState>} */
  #frozen = new WeakMap();
  /** Other windows with this sheet. @type {Set<string>} */
  #others = new Set();
  #looking = 0;
  #adopting = 0;
  /** The turn of the answers that were kept last. */
  #answered = 0;
  /** Whether the sheet is in the store. */
  #there = false;
  /** @type {string} */
  id = newId();

  /**
   * @param {import('./sheet.js').Sheet} sheet
   * @param {import('../shared/shell.js').Pad} pad
   */
  constructor(sheet, pad) {
    this.sheet = sheet;
    this.pad = pad;
    sheet.onchange = () => this.changed();
    const { root } = sheet.at;
    for (const step of this.#details) step.addEventListener('toggle', () => this.changed());
    root.addEventListener('focusin', ({ target }) => target instanceof HTMLElement && target.id && place.set({ focus: target.id }));
    addEventListener('scrollend', () => place.set({ scroll: scrollY }));
    addEventListener('pagehide', () => {
      this.flush(true);
      pad.store?.tell({ table: 'sheets', key: this.id, kind: 'bye' });
    });
    document.addEventListener('visibilitychange', () => document.hidden && this.flush());
    pad.store?.listen((news) => this.#hear(news));
    if (pad.store) navigator.locks?.request(lockOf(pad.store.window), () => new Promise(() => {}));
  }

  get #details() {
    return /** @type {NodeListOf<HTMLDetailsElement>} */ (this.sheet.at.root.querySelectorAll('details.step'));
  }

  /** Opens the sheet of this window, or the one that was open last; false without one. @type {() => Promise<boolean>} */
  async open() {
    const { store } = this.pad;
    if (!store) return false;
    for (const id of [place.get().sheet, await store.choice('sheet')]) {
      if (id && (await this.load(id, true))) return true;
    }
    return false;
  }

  /**
   * Shows a stored sheet. at says whether this window also goes to the place it was at; elsewhere that the sheet is worked on in another window,
   * which reads what is being typed there.
   * @type {(id: string, at?: boolean, elsewhere?: boolean) => Promise<boolean>}
   */
  async load(id, at = false, elsewhere = false) {
    const { store } = this.pad;
    const [record, answers] = await Promise.all([store?.get('sheets', id), store?.choice('answers')]);
    if (!store || !record) return false;
    this.pad.client.memo?.learn(answers);
    const kept = renewed(record);
    await this.#adopt(kept, elsewhere);
    if (!elsewhere) this.#is(id);
    if (at && place.get().focus) this.sheet.at.find(place.get().focus ?? '')?.focus({ preventScroll: true });
    if (at && place.get().scroll) this.sheet.whenSettled().then(() => scrollTo({ top: place.get().scroll, behavior: 'instant' }));
    return true;
  }

  /** Begins another sheet. @type {() => void} */
  fresh() {
    this.#is(newId());
    this.#there = false;
    this.#stored = [];
  }

  /** @param {string} id */
  #is(id) {
    const { store } = this.pad;
    store?.tell({ table: 'sheets', key: this.id, kind: 'bye' });
    this.id = id;
    this.#others.clear();
    this.#told();
    place.set({ sheet: id });
    store?.choose('sheet', id).catch(() => {});
    store?.tell({ table: 'sheets', key: id, kind: 'hello' });
  }

  /** @type {(kept: Kept, elsewhere: boolean) => Promise<void>} */
  async #adopt(kept, elsewhere) {
    const turn = ++this.#adopting;
    const read = thawing(await tracesOf(this.pad, kept.id), this.pad.client);
    /** @type {(stored: StoredState) => Promise<State>} */
    const thaw = async (stored) => {
      const state = await read(stored);
      this.#frozen.set(state, stored);
      return state;
    };
    /** @type {(list: StoredState[]) => Promise<State[]>} */
    const all = async (list) => {
      const out = [];
      for (const s of list) out.push(await thaw(s));
      return out;
    };
    const memory = { past: await all(kept.past), state: await thaw(kept.state), future: await all(kept.future), typed: kept.typed };
    this.#there = true;
    // A change that was made here meanwhile is the later one; of two that come from elsewhere the last one counts.
    if (turn !== this.#adopting || (elsewhere && this.#changedHere)) return;
    for (const step of this.#details) step.open = !kept.hidden.includes(step.id);
    this.sheet.remember(memory, elsewhere);
    this.#stored = this.#signs();
    this.pad.kept.since(kept.changed);
  }

  /** @type {(state: State) => StoredState} */
  #freeze(state) {
    const there = this.#frozen.get(state);
    if (there) return there;
    const { required } = state;
    const plain = required && { text: required.text, edition: required.answer.edition, used: required.used && { text: required.used.text, edition: required.used.edition } };
    const frozen = { ...state, traces: state.traces.map((t) => t.id), required: plain };
    this.#frozen.set(state, frozen);
    return frozen;
  }

  /** By what a change is known. */
  #signs() {
    const { state, past, future, typed } = this.sheet.memory;
    return [state, past.length, past.at(-1), future.length, typed, [...this.#details].map((d) => d.open).join()];
  }

  /** Whether there is a change that is not stored yet. */
  get #changedHere() {
    return this.sheet.state !== this.sheet.settled || this.#signs().some((s, i) => s !== this.#stored[i]);
  }

  /** Something has changed: it is stored soon. */
  changed() {
    const now = performance.now();
    if (!this.#timer) this.#since = now;
    clearTimeout(this.#timer);
    this.#timer = setTimeout(() => this.flush(), Math.max(0, Math.min(250, this.#since + 450 - now)));
  }

  /** Stores what has changed, now; with leaving as the last thing that this page does. */
  async flush(leaving = false) {
    clearTimeout(this.#timer);
    this.#timer = 0;
    const { sheet, pad: { store, kept } } = this;
    const memory = sheet.memory;
    const untouched = !this.#there && !memory.past.length && !memory.typed.trim();
    if (untouched) return kept.nothing(sheet.trace?.demo ? 'Demonstration, nothing to keep' : 'Nothing to keep yet');
    const signs = this.#signs();
    if (signs.every((s, i) => s === this.#stored[i])) return this.#keepAnswers();
    if (!store) return kept.refused(this.pad.refusal);
    this.#stored = signs;
    const states = [...memory.past, memory.state, ...memory.future];
    const traces = new Map(states.flatMap((s) => s.traces).map((t) => [t.id, { ...t, sheet: this.id }]));
    /** @type {Kept} */
    const record = {
      id: this.id, form, name: nameOf(memory.state), word: sheet.verdict?.word ?? 'No verdict yet', changed: Date.now(), furrow: this.pad.version.furrow,
      state: this.#freeze(memory.state), past: memory.past.map((s) => this.#freeze(s)), future: memory.future.map((s) => this.#freeze(s)),
      typed: memory.typed, hidden: [...this.#details].filter((d) => !d.open).map((d) => d.id),
    };
    const first = !this.#there;
    this.#there = true;
    if (first && leaving) this.#is(this.id); // nothing is done after the wait
    if (!(await kept.during(() => store.putSheet(record, traces.values(), leaving)))) this.#stored = [];
    else if (first && !leaving) this.#is(this.id);
    await this.#keepAnswers();
  }

  // Keeps what the calculation answered to the sheet as it stands, so that it opens with that. Without it opening takes longer, and nothing else.
  async #keepAnswers() {
    const { sheet, pad: { store, client: { memo } } } = this;
    if (!store || !this.#there || !memo?.sure || memo.turn === this.#answered || sheet.state !== sheet.settled) return;
    this.#answered = memo.turn;
    await store.choose('answers', memo.kept).catch(() => {});
  }

  // What other windows tell.
  /** @param {import('../shared/store.js').News} news */
  #hear({ table, key, kind, window }) {
    if (table !== 'sheets' || key !== this.id) return;
    if (kind === 'bye') this.#others.delete(window);
    else this.#others.add(window);
    if (kind === 'hello') this.pad.store?.tell({ table, key, kind: 'here' });
    this.#told();
    if (kind === 'put' && !this.#changedHere) this.load(key, false, true).catch((error) => this.pad.kept.refused(error));
  }

  // Says that the sheet is open elsewhere too; a window that crashed tells nothing, but its lock is gone.
  #told() {
    const { kept, store } = this.pad;
    clearTimeout(this.#looking);
    kept.over(this.#others.size ? ['Also open in another window. The last change counts. ', el('button', { type: 'button', class: 'quiet', id: 'kept-show', onclick: () => this.load(this.id) }, 'Show it here')] : null);
    if (!this.#others.size || !store) return;
    this.#looking = setTimeout(async () => {
      const held = (await navigator.locks?.query())?.held?.map((l) => l.name);
      if (held) for (const w of this.#others) if (!held.includes(lockOf(w))) this.#others.delete(w);
      this.#told();
    }, 2000);
  }
}

/** @type {(window: string) => string} */
const lockOf = (window) => `furrow-${window}`;
