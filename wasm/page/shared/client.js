// The page's side of the workers: calls with promises, one calculation after another, and a way to stop. Module and
// scripts are fetched once, at the start, and kept: a worker that stopped is replaced without a request. A second worker
// takes what is slow and can wait; when the first one has to be stopped it takes its place.
import { FurrowError } from '../furrow.js';

/** @typedef {{resolve: (value: any) => void, reject: (reason: unknown) => void, worker: Worker}} Waiting */

/** What is said of a calculation that someone stopped. */
const byHand = 'stopped';

/** Whether a calculation ended by itself, and not because someone stopped it. @type {(error: unknown) => boolean} */
export const died = (error) => error instanceof FurrowError && error.kind === 'stopped' && error.message !== byHand;

export class Client {
  /** @type {Map<number, Waiting>} */
  #waiting = new Map();
  #next = 0;
  /** @type {Worker} */
  #first;
  /** @type {Worker} */
  #second;
  /** @type {WebAssembly.Module} */
  #module;
  /** @type {Promise<unknown>} */
  #aside = Promise.resolve();
  /** Called when calls begin to wait, and when none waits any more. @type {(busy: boolean) => void} */
  onwork = () => {};
  /** Called after a worker that failed by itself was replaced. */
  onrestart = () => {};

  /** @type {string} */
  #script;

  /** @param {{module: WebAssembly.Module, script: string}} parts as fetchParts gives them */
  constructor({ module, script }) {
    this.#module = module;
    this.#script = script;
    this.#first = this.#hire();
    this.#second = this.#hire();
    this.#first.postMessage({ module });
  }

  #hire() {
    const worker = new Worker(this.#script, { type: 'module' });
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
      this.#first = this.#second;
      this.#first.postMessage({ module: this.#module });
    }
    this.#second = this.#hire();
    for (const [, w] of lost) w.reject(new FurrowError({ kind: 'stopped', message }));
  }

  /** Ends both workers for good. */
  close() {
    this.#first.terminate();
    this.#second.terminate();
  }

  /** Ends what is being calculated; calls that wait fail with the kind `stopped`, and the trace has to be given again. */
  stop() {
    this.#end(this.#first, byHand);
  }

  /** Ends at once what the second worker is calculating; what waits for its turn goes on. */
  stopBeside() {
    this.#end(this.#second, byHand);
  }

  /** @type {(worker: Worker, name: string, args: unknown[]) => Promise<any>} */
  #post(worker, name, args) {
    return new Promise((resolve, reject) => {
      const id = ++this.#next;
      if (worker === this.#first) this.onwork(true);
      this.#waiting.set(id, { resolve, reject, worker });
      worker.postMessage({ id, name, args });
    });
  }

  /** @type {(name: string, ...args: unknown[]) => Promise<any>} */
  call(name, ...args) {
    return this.#post(this.#first, name, args);
  }

  /** The same in the second worker, one after the other; what nobody wants any more when its turn comes is left out. @type {(wanted: () => boolean, name: string, ...args: unknown[]) => Promise<any>} */
  beside(wanted, name, ...args) {
    const turn = this.#aside.then(() => {
      if (!wanted()) return null;
      this.#second.postMessage({ module: this.#module });
      return this.#post(this.#second, name, args);
    });
    this.#aside = turn.catch(() => {});
    return turn;
  }
}

/** Fetches all that the workers need: the compiled module, and the address of their script. @type {(from?: (name: string) => Promise<Response>) => Promise<{module: WebAssembly.Module, script: string}>} */
export async function fetchParts(from = get) {
  const [module, ...texts] = await Promise.all([compile(await from('furrow.wasm')), ...['wasm_exec.js', 'furrow.js', 'worker.js'].map(async (name) => (await from(name)).text())]);
  // One script without imports: what each of the three imports is the one before it.
  const whole = texts.map((text) => text.replace(/^import .*$/gm, '').replace(/^export /gm, '')).join('\n');
  return { module, script: URL.createObjectURL(new Blob([whole], { type: 'text/javascript' })) };
}

/** @type {(name: string) => Promise<Response>} */
async function get(name) {
  const response = await fetch(new URL(`../${name}`, import.meta.url));
  if (!response.ok) throw new FurrowError({ kind: 'stopped', message: `${name} cannot be fetched: the server answered ${response.status}` });
  return response;
}

/** @param {Response} response */
async function compile(response) {
  if (response.headers.get('Content-Type')?.startsWith('application/wasm')) return WebAssembly.compileStreaming(response);
  return WebAssembly.compile(await response.arrayBuffer());
}
