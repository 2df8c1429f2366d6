// The page's side of the workers: calls with promises, one calculation after another, and a way to stop. Module and
// scripts are fetched once, by begin.js, and kept: a worker that stopped is replaced without a request. Calls may come before
// they are there. A second worker takes what is slow and can wait; when the first one has to be stopped it takes its place.
import { FurrowError } from '../furrow.js';

/** @typedef {{resolve: (value: any) => void, reject: (reason: unknown) => void, worker: Worker | null}} Waiting */

/** What is said of a calculation that someone stopped. */
const byHand = 'stopped';

/** Whether a calculation ended by itself, and not because someone stopped it. @type {(error: unknown) => boolean} */
export const died = (error) => error instanceof FurrowError && error.kind === 'stopped' && error.message !== byHand;

export class Client {
  /** @type {Map<number, Waiting>} */
  #waiting = new Map();
  #next = 0;
  /** Null until the parts are there. @type {Worker | null} */
  #first = null;
  /** @type {Worker | null} */
  #second = null;
  /** @type {import('./begin.js').Parts | undefined} */
  #parts;
  /** Calls that came before. @type {object[]} */
  #early = [];
  /** Why there will be none. @type {FurrowError | null} */
  #fault = null;
  /** Answers that are known before the calculation gives them. @type {import('./memo.js').Memo | null} */
  memo = null;
  /** @type {Promise<unknown>} */
  #aside = Promise.resolve();
  /** Called when calls begin to wait, and when none waits any more. @type {(busy: boolean) => void} */
  onwork = () => {};
  /** Called after a worker that failed by itself was replaced. */
  onrestart = () => {};

  /** Whether the workers could be started. @type {Promise<void>} */
  started;
  /** Has the workers started, unless that was done. */
  begin = () => {};

  /** @param {() => Promise<import('./begin.js').Parts>} fetching */
  constructor(fetching) {
    this.started = new Promise((/** @type {(begun: void) => void} */ begin) => (this.begin = begin)).then(fetching).then((parts) => {
      this.#parts = parts;
      this.#first = this.#hire();
      this.#first.postMessage({ module: parts.module });
      for (const w of this.#waiting.values()) w.worker = this.#first;
      for (const message of this.#early.splice(0)) this.#first.postMessage(message);
    }).catch((error) => {
      this.#fault = new FurrowError({ kind: 'stopped', message: error.message });
      for (const w of this.#waiting.values()) w.reject(this.#fault);
      this.#waiting.clear();
      this.onwork(false);
      throw this.#fault;
    });
    this.started.catch(() => {}); // said by the shell
  }

  #hire() {
    const worker = new Worker(/** @type {import('./begin.js').Parts} */ (this.#parts).script, { type: 'module' });
    worker.addEventListener('message', ({ data }) => {
      const waiting = this.#waiting.get(data.id);
      this.#waiting.delete(data.id);
      this.#told(worker);
      if (data.fault) waiting?.reject(new FurrowError(data.fault));
      else waiting?.resolve(data.value);
      if (data.fault?.kind === 'stopped') this.#replace(worker, data.fault.message);
    });
    worker.addEventListener('error', (event) => this.#replace(worker, event.message || 'the calculation stopped'));
    return worker;
  }

  // Tells when the first worker has nothing left to do.
  /** @param {Worker} worker */
  #told(worker) {
    if (worker === this.#first && ![...this.#waiting.values()].some((w) => w.worker === worker)) this.onwork(false);
  }

  /** @type {(worker: Worker, message: string) => void} */
  #replace(worker, message) {
    const lost = worker === this.#first;
    this.#end(worker, message);
    if (lost) this.onrestart();
  }

  /** @type {(worker: Worker, message: string) => void} */
  #end(worker, message) {
    worker.terminate();
    const lost = [...this.#waiting].filter(([, w]) => w.worker === worker);
    for (const [id] of lost) this.#waiting.delete(id);
    this.#told(worker);
    if (worker === this.#first) {
      this.#first = this.#second ?? this.#hire();
      this.#first.postMessage({ module: this.#parts?.module });
    }
    this.#second = this.#hire();
    for (const [, w] of lost) w.reject(new FurrowError({ kind: 'stopped', message }));
  }

  /** Has the second worker there. */
  async second() {
    this.begin();
    await this.started;
    return (this.#second ??= this.#hire());
  }

  /** Ends both workers for good. */
  close() {
    this.#first?.terminate();
    this.#second?.terminate();
  }

  /** Ends what is being calculated; calls that wait fail with the kind `stopped`, and the trace has to be given again. */
  stop() {
    if (this.#first) this.#end(this.#first, byHand);
  }

  /** Ends at once what the second worker is calculating; what waits for its turn goes on. */
  stopBeside() {
    if (this.#second) this.#end(this.#second, byHand);
  }

  /** @type {(worker: Worker | null, name: string, args: unknown[]) => Promise<any>} */
  #post(worker, name, args) {
    if (this.#fault) return Promise.reject(this.#fault);
    return new Promise((resolve, reject) => {
      const id = ++this.#next;
      if (worker === this.#first) this.onwork(true);
      this.#waiting.set(id, { resolve, reject, worker });
      if (worker) worker.postMessage({ id, name, args });
      else this.#early.push({ id, name, args });
    });
  }

  /** @type {(name: string, ...args: unknown[]) => Promise<any>} */
  call(name, ...args) {
    const answer = this.#post(this.#first, name, args);
    if (this.memo) return this.memo.answer(name, args, answer, this.begin);
    this.begin();
    return answer;
  }

  /** The same in the second worker, one after the other; what nobody wants any more when its turn comes is left out. @type {(wanted: () => boolean, name: string, ...args: unknown[]) => Promise<any>} */
  beside(wanted, name, ...args) {
    const turn = this.#aside.then(async () => {
      if (!wanted()) return null;
      const worker = await this.second();
      worker.postMessage({ module: this.#parts?.module });
      return this.#post(worker, name, args);
    });
    this.#aside = turn.catch(() => {});
    return turn;
  }
}
