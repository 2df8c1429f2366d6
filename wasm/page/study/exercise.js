// What was answered first, for each exercise of this visit. The store keeps those of the last exercise alone.

/** @typedef {import('../furrow.js').StudyState} StudyState */
/** First answers by the letter of their question: the index of the option, -1 for "I do not know". @typedef {Record<string, number>} Answers */
/**
 * The exercise as it was when it was first met, what was answered and guessed, whether its values were shown since, and a number by which its code
 * is told from others.
 * @typedef {{state: StudyState, answers: Answers, tag: number, guess?: number, shown?: boolean}} First
 */

/** What makes an exercise: all but what is looked at. @type {(s: StudyState) => string} */
export const subject = ({ symbol, move, way, point, width, window, shift, fade, ...rest }) => JSON.stringify(Object.entries(rest).sort());

/** The letters of the questions of an exercise, in the order of its codes. @type {(s: StudyState) => string[]} */
export const lettersOf = ({ questions }) => [...(questions || 'abcdefghijklmnop')];

/** @type {(state: StudyState) => First} */
const begun = (state) => ({ state, answers: {}, tag: crypto.getRandomValues(new Uint16Array(1))[0] & 0xfff });

export class Exercise {
  /** By the exercise. @type {Map<string, First>} */
  #all = new Map();
  /** The exercise whose answer the picture shows, by what the picture shows. @type {Map<string, string>} */
  #shown = new Map();
  #now = '';
  /** The exercise of the link that was opened or copied last. @type {StudyState | null} */
  linked = null;

  get first() {
    return this.#all.get(this.#now);
  }

  get answers() {
    return this.first?.answers ?? {};
  }

  /** The exercise that codes are of: that of the link, else the one in use. */
  get coded() {
    return (this.linked && this.#all.get(subject(this.linked))) || this.first;
  }

  /** Takes up an exercise, with what was answered before; whether anything was. @type {(state: StudyState, before?: First) => boolean} */
  use(state, before) {
    const name = subject(state);
    this.#now = this.#shown.get(name) ?? name;
    if (before || !this.first) this.#all.set(this.#now, before ? { ...begun(state), ...before } : begun(state));
    return Object.keys(this.answers).length > 0 || this.first?.guess !== undefined;
  }

  /** The exercise has this link: its codes are of it, and what was answered stays. @type {(state: StudyState) => void} */
  link(state) {
    this.linked = state;
    const name = subject(state);
    this.#all.set(name, { ...(this.#all.get(name) ?? begun(state)), state });
  }

  /** Keeps an answer, unless there is one. @type {(letter: string, option: number) => void} */
  answer(letter, option) {
    const { first } = this;
    if (first) first.answers = { [letter]: option, ...first.answers };
  }

  /** Keeps a guess, unless there is one. @type {(value: number) => void} */
  guess(value) {
    const { first } = this;
    if (first) first.guess ??= value;
  }

  /** The picture goes to the state of a reply; the exercise stays. @type {(state: StudyState) => string} */
  show(state) {
    const name = subject(state);
    if (name !== this.#now && !this.#all.has(name)) this.#shown.set(name, this.#now);
    return name;
  }

  /** What is shown is the exercise itself. */
  leave() {
    this.#shown.clear();
  }

  /** The exercise of what is shown. @type {(state: StudyState) => StudyState} */
  of(state) {
    return (this.#shown.has(subject(state)) && this.first?.state) || state;
  }

  clear() {
    this.#all.clear();
    this.#shown.clear();
    this.#now = '';
    this.linked = null;
  }
}
