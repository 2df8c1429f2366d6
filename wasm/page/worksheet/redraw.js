// What is drawn after a change. While a slider moves, only what is in view is drawn, and a step takes one message to the worker: what was asked
// about the evaluation before comes with the next one.
import { inView, watch } from '../shared/view.js';

/** @typedef {{render: () => void, root: Element | null, late: boolean}} One */

export class Redraw {
  /** Whether a slider moves: what is out of view is drawn when it comes into view, or when the slider rests. */
  moving = false;
  /** @type {One[]} */
  #all = [];
  /** Calls about the latest evaluation, as JSON. @type {Set<string>} */
  #asked = new Set();
  /** Answers that came with the evaluation. @type {Map<string, unknown>} */
  #ahead = new Map();

  /** @param {import('../shared/client.js').Client} client */
  constructor(client) {
    this.client = client;
  }

  /** Has render called after every change; while a slider moves, only where root is in view. @type {(render: () => void, root?: Element | null) => void} */
  renders(render, root = null) {
    const one = { render, root, late: false };
    this.#all.push(one);
    if (root) watch(root, () => one.late && this.#render(one));
  }

  /** Shows everything again, as after a choice that changes no value. */
  redraw() {
    for (const one of this.#all) this.#render(one);
  }

  /** @param {One} one */
  #render(one) {
    one.late = this.moving && !!one.root && !inView(one.root);
    if (!one.late) one.render();
  }

  /** Asks about the latest evaluation. @type {(name: string, ...args: unknown[]) => Promise<any>} */
  async ask(name, ...args) {
    const key = JSON.stringify([name, ...args]);
    if (this.moving) this.#asked.add(key);
    return this.#ahead.get(key) ?? this.client.call(name, ...args);
  }

  /** An evaluation, with all that was asked about the one before while the slider moved. @type {(args: unknown[], more: [string, ...unknown[]][]) => Promise<any>} */
  async evaluate(args, more) {
    const keys = [...new Set([...this.#asked, ...more.map((call) => JSON.stringify(call))])];
    this.#asked.clear();
    const { also, ...evaluation } = await this.client.call('evaluate', ...args, keys.map((key) => JSON.parse(key)));
    this.#ahead = new Map(keys.map((key, i) => [key, also[i]]));
    return evaluation;
  }

  /** What stood still is drawn whole, and nothing is asked beforehand. */
  rest() {
    this.moving = false;
    this.#asked.clear();
  }
}
