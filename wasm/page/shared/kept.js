// The line at the right of the head: whether what was done is stored. It changes politely and has one line kept free for it.
import { el, fill } from './dom.js';

/** @typedef {import('./dom.js').Child} Child */

/** @type {(at: Date) => string} */
const words = (at) => `Kept on this device, ${at.toDateString() === new Date().toDateString() ? '' : `${at.toISOString().slice(0, 10)}, `}${at.toLocaleTimeString([], { hour: '2-digit', minute: '2-digit', hour12: false })}`;

export class Kept {
  #late = 0;
  #turn = 0;
  #failed = false;
  /** What was stored last, and when. */
  #words = '';
  /** Said behind the time, such as "works offline". */
  #besides = '';
  /** @type {Child[] | null} */
  #over = null;
  /** Leads to the record, which can be saved as a file all the same. @type {() => void} */
  onsave = () => location.assign('index.html#record');

  /** @param {import('./parts.js').Parts} at */
  constructor(at) {
    this.place = at.byId('kept');
  }

  /** Nothing is to be stored. @type {(said: string) => void} */
  nothing(said) {
    this.#turn++;
    clearTimeout(this.#late);
    this.#words = said;
    this.#show(said);
  }

  /** Stores something, and says so. False when it could not. @type {(act: () => Promise<unknown>) => Promise<boolean>} */
  async during(act) {
    const turn = ++this.#turn;
    clearTimeout(this.#late);
    this.#late = setTimeout(() => this.#show('Keeping …'), 300);
    try {
      await act();
      this.#failed = false;
      this.#words = words(new Date());
      if (turn === this.#turn) this.#show(this.#words);
      return true;
    } catch (error) {
      this.refused(error);
      return false;
    } finally {
      if (turn === this.#turn) clearTimeout(this.#late);
    }
  }

  /** What is shown was stored then. @type {(time: number) => void} */
  since(time) {
    this.#turn++;
    this.#words = words(new Date(time));
    if (!this.#failed) this.#show(this.#words);
  }

  /** The store cannot be used. @type {(error: unknown) => void} */
  refused(error) {
    const full = /** @type {DOMException} */ (error)?.name === 'QuotaExceededError';
    clearTimeout(this.#late);
    // Told at once the first time, and not again at each change.
    this.place.setAttribute('role', this.#failed ? 'status' : 'alert');
    this.#failed = true;
    fill(this.place, full ? 'Not kept: storage is full. ' : 'Not kept: this browser does not allow it. ', el('button', { type: 'button', class: 'quiet', id: 'kept-save', onclick: () => this.onsave() }, 'Save the record'));
  }

  /** Said behind the time. @type {(words: string) => void} */
  also(said) {
    this.#besides = said;
    if (!this.#failed && this.#words.startsWith('Kept')) this.#show(this.#words);
  }

  /** Said in place of everything else that went well, null to end it. @type {(words: Child[] | null) => void} */
  over(said) {
    this.#over = said;
    if (!this.#failed) this.#show(this.#words);
  }

  /** @param {string} said */
  #show(said) {
    this.place.setAttribute('role', 'status');
    if (this.#over) return fill(this.place, ...this.#over);
    const whole = said.startsWith('Kept') && this.#besides ? `${said} · ${this.#besides}` : said;
    if (this.place.textContent !== whole) this.place.textContent = whole;
  }
}
