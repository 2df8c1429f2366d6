// Answers that are known before the calculation has started: those of the demonstration, which the build wrote, and those that the open sheet
// had last, which are kept with it. What the calculation answers follows from the request and from what it holds, so an answer is known by the
// whole of both and by the version of the calculation; it has the form of the text that the calculation itself gave. Every request goes to the
// calculation all the same: it has to hold the same traces, and what it answers is compared with what was known.

/** @typedef {{version: string, answers: Record<string, string>}} Answers by request, each as text */

const most = 200_000; // heights of a trace whose answers are kept
const requirements = 50; // that are kept

/** @param {Float64Array} z */
function coded(z) {
  let text = '';
  for (const b of new Uint8Array(z.buffer, z.byteOffset, z.byteLength)) text += String.fromCharCode(b);
  return btoa(text);
}

/** Heights in whole thousandths as the steps between them, with a minus behind the step to -0: a third of the bytes when packed. '' for others. @param {Float64Array} z */
function steps(z) {
  let at = 0;
  const list = [];
  for (const x of z) {
    const n = Math.round(x * 1000) | 0;
    if (n / 1000 !== x) return '';
    list.push(n - at + (Object.is(x, -0) ? '-' : ''));
    at = n;
  }
  return list.join();
}

/** @param {string} list */
function stepped(list) {
  let at = 0;
  return Float64Array.from(list.split(','), (step) => (at += parseInt(step)) / (step.endsWith('-') ? -1000 : 1000));
}

/** @param {Float64Array} z */
function heights(z) {
  const thousandths = steps(z);
  return thousandths ? { thousandths } : { float64: coded(z) };
}

/** A value as text, and back: each height is the same number. @type {(value: unknown) => string} */
export const textOf = (value) => JSON.stringify(value, (_, x) => (x instanceof Float64Array ? heights(x) : x)) ?? 'null';

/** @type {(text: string) => unknown} */
export const valueOf = (text) =>
  JSON.parse(text, (_, x) => (typeof x?.thousandths === 'string' ? stepped(x.thousandths) : typeof x?.float64 === 'string' ? decoded(x.float64) : x));

/** @param {string} code */
function decoded(code) {
  const text = atob(code);
  const bytes = new Uint8Array(text.length);
  for (let i = 0; i < bytes.length; i++) bytes[i] = text.charCodeAt(i);
  return new Float64Array(bytes.buffer);
}

/** A trace by its content. @type {(profile: import('../furrow.js').Profile) => Promise<unknown>} */
async function contentOf({ z, spacing, name }) {
  if (z.length > most) throw new Error('too long');
  return [new Uint8Array(await crypto.subtle.digest('SHA-256', new Float64Array(z))).join(), spacing, name];
}

export class Memo {
  /** Answers by request, until the calculation itself answers. @type {Map<string, string>} */
  #known;
  /** The latest answers of the calculation, one for each place. @type {Map<string, {request: string, answer: unknown}>} */
  #latest = new Map();
  /** The latest request for each place, by which it is known what the calculation holds. @type {Map<string, Promise<unknown>>} */
  #held = new Map();
  #open = 0;
  /** @type {(() => void)[]} */
  #waiting = [];
  /** Counts what the calculation answered. */
  turn = 0;
  /** Called when answers are shown that the calculation has not given yet, and when it has given all of them. @type {(sure: boolean) => void} */
  onsure = () => {};
  #differs = false;
  /** Called once when the calculation gave another answer, or stopped before it gave one; what is shown is asked for again. @type {(stopped: boolean) => Promise<void>} */
  ondiffer = async () => {};

  /** @param {Answers} built those that the build wrote for this version of the calculation */
  constructor(built) {
    this.built = built;
    this.#known = new Map(Object.entries(built.answers));
  }

  /** Whether the calculation has given every answer that is shown. */
  get sure() {
    return !this.#open;
  }

  /** Takes answers of this version; those of another one are left. @param {Answers | null | undefined} answers */
  learn(answers) {
    if (answers?.version === this.built.version && !this.turn) for (const [request, answer] of Object.entries(answers.answers)) this.#known.set(request, answer);
  }

  /** What is to be kept: the latest answers, but for those that the build wrote. @returns {Answers} */
  get kept() {
    const plans = [...this.#latest.keys()].filter((place) => place.startsWith('requirement')).slice(0, -requirements);
    for (const place of plans) this.#latest.delete(place);
    const { version, answers } = this.built;
    const list = [...this.#latest.values()].filter(({ request }) => request && !(request in answers));
    return { version, answers: Object.fromEntries(list.map(({ request, answer }) => [request, textOf(answer)])) };
  }

  /** Waits until every answer that is shown was given by the calculation. @type {() => Promise<void>} */
  confirmed() {
    return new Promise((done) => (this.#open ? this.#waiting.push(done) : done()));
  }

  /** The place that the answer of a call has, and the request it belongs to: whole, with what the calculation holds for it. @type {(name: string, args: any[]) => [string, Promise<unknown>] | null} */
  #asked(name, args) {
    const held = (/** @type {string} */ place) => this.#held.get(place) ?? Promise.reject(new Error('nothing is held'));
    const of = (/** @type {unknown[]} */ ...parts) => Promise.all([name, ...parts]);
    switch (name) {
      case 'requirement':
        return [`requirement ${textOf(args)}`, of(...args)];
      case 'demo':
      case 'summary':
        return [name, of(...args)];
      case 'take':
        return [name, of(contentOf(args[0]))];
      case 'evaluate':
        return [name, of(held('take'), ...args)];
      case 'hold':
        return args[0].profile ? [`hold ${args[0].id}`, of(contentOf(args[0].profile))] : null;
      case 'measure':
        return [`measure ${args[0]}`, of(held(`hold ${args[0]}`), args[1])];
      case 'judge': {
        const [text, { traces, ...options }] = args;
        return [name, of(text, options, this.#held.get('evaluate'), traces && Promise.all(traces.map((/** @type {string} */ id) => held(`measure ${id}`))))];
      }
    }
    return null;
  }

  /** The answer to a call: at once where it is known, and otherwise that of the calculation, which begins then. @type {(name: string, args: any[], real: Promise<any>, begin: () => void) => Promise<any>} */
  async answer(name, args, real, begin) {
    if (name === 'hold' && args[0].only) this.#drop(args[0].only);
    const [place, asked] = this.#asked(name, args) ?? [];
    if (!place || !asked) return begin(), real;
    this.#held.set(place, asked);
    real.then(() => void this.turn++, () => {});
    const request = await asked.then(textOf, () => ''); // '' for what is not kept
    real.then((answer) => this.#held.get(place) === asked && this.#latest.set(place, { request, answer }), () => this.#latest.delete(place));
    const known = this.turn || !request ? undefined : this.#known.get(request);
    if (known === undefined) return begin(), real;
    this.#compare(known, real);
    return valueOf(known);
  }

  // Compares what was known with what the calculation answers.
  /** @type {(known: string, real: Promise<unknown>) => Promise<void>} */
  async #compare(known, real) {
    if (!this.#open++) this.onsure(false);
    const differs = await real.then((answer) => textOf(answer) !== known && 'answer', (error) => (error.kind === 'stopped' ? 'stopped' : 'answer'));
    if (differs && !this.#differs) {
      this.#differs = true;
      this.#known.clear();
      await this.ondiffer(differs === 'stopped');
    }
    if (--this.#open) return;
    this.onsure(true);
    for (const act of this.#waiting.splice(0)) act();
  }

  /** What the calculation holds no longer. @param {string[]} only traces that stay */
  #drop(only) {
    for (const of of [this.#held, this.#latest]) {
      for (const place of of.keys()) {
        const [, id] = /^(?:hold|measure) (.*)/.exec(place) ?? [];
        if (id ? !only.includes(id) : !only.length) of.delete(place);
      }
    }
  }
}
