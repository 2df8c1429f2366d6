// The page's side of the worker: calls with promises, one calculation after another, and a way to stop. Module and
// scripts are fetched once, at the start; a second worker stands by, so that stopping needs no request.
import { FurrowError } from './furrow.js';

/** @typedef {{resolve: (value: any) => void, reject: (reason: unknown) => void}} Waiting */

export class Client {
  /** @type {Map<number, Waiting>} */
  #waiting = new Map();
  #next = 0;
  /** @type {Worker} */
  #worker;
  /** @type {Worker | undefined} */
  #spare;
  /** @type {WebAssembly.Module} */
  #module;
  /** Called when calls begin to wait, and when none waits any more. @type {(busy: boolean) => void} */
  onwork = () => {};
  /** Called after a worker that failed by itself was replaced. */
  onrestart = () => {};

  /** @param {WebAssembly.Module} module */
  constructor(module) {
    this.#module = module;
    this.#worker = this.#begin();
    this.#spare = this.#hire();
  }

  #hire() {
    return new Worker(new URL('worker.js', import.meta.url), { type: 'module' });
  }

  // begin puts the spare worker to work; one more is hired only if that one has to end too.
  #begin() {
    const worker = this.#spare ?? this.#hire();
    this.#spare = undefined;
    worker.postMessage({ module: this.#module });
    worker.addEventListener('message', ({ data }) => {
      const waiting = this.#waiting.get(data.id);
      this.#waiting.delete(data.id);
      if (!this.#waiting.size) this.onwork(false);
      if (data.fault) waiting?.reject(new FurrowError(data.fault));
      else waiting?.resolve(data.value);
      if (data.fault?.kind === 'stopped' && worker === this.#worker) this.#replace(data.fault.message);
    });
    worker.addEventListener('error', (event) => {
      if (worker === this.#worker) this.#replace(event.message || 'the calculation stopped');
    });
    return worker;
  }

  /** @param {string} message */
  #replace(message) {
    this.#end(message);
    this.onrestart();
  }

  /** @param {string} message */
  #end(message) {
    this.#worker.terminate();
    const waiting = [...this.#waiting.values()];
    this.#waiting.clear();
    this.onwork(false);
    this.#worker = this.#begin();
    for (const w of waiting) w.reject(new FurrowError({ kind: 'stopped', message }));
  }

  /** Ends what is being calculated; calls that wait fail with the kind `stopped`, and the trace has to be given again. */
  stop() {
    this.#end('stopped');
  }

  /** @type {(name: string, ...args: unknown[]) => Promise<any>} */
  call(name, ...args) {
    return new Promise((resolve, reject) => {
      const id = ++this.#next;
      if (!this.#waiting.size) this.onwork(true);
      this.#waiting.set(id, { resolve, reject });
      this.#worker.postMessage({ id, name, args });
    });
  }
}

/** Fetches and compiles the module; the workers get it ready. */
export async function compile() {
  const address = new URL('furrow.wasm', import.meta.url);
  const response = await fetch(address);
  if (!response.ok) throw new FurrowError({ kind: 'stopped', message: `furrow.wasm cannot be fetched: the server answered ${response.status}` });
  if (response.headers.get('Content-Type')?.startsWith('application/wasm')) return WebAssembly.compileStreaming(response);
  return WebAssembly.compile(await response.arrayBuffer());
}
