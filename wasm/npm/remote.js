// The calls of furrow as promises: each is sent to a thread of its own, which can be stopped and is then replaced.
import { compile, connect, FurrowError } from './furrow.js';

/** @typedef {{post: (message: object) => void, end: () => void, idle?: () => void}} Thread */
/** Starts a thread, which answers a message {id, …} with {id, answer} or {id, fault}. @typedef {(told: (data: any) => void, failed: (message: string) => void) => Thread} Hire */
/** @typedef {{resolve: (value: any) => void, reject: (error: FurrowError) => void}} Waiting */

/** @type {(source: import('./furrow.js').ModuleSource, hire: Hire) => Promise<import('./worker.js').Furrow>} */
export async function remote(source, hire) {
  const module = await compile(source);
  /** @type {Map<number, Waiting>} */
  const waiting = new Map();
  /** @type {Thread | undefined} */
  let thread;
  let last = 0;
  let closed = false;

  /** @type {(message: string) => void} */
  const end = (message) => {
    thread?.end();
    thread = undefined;
    const lost = [...waiting.values()];
    waiting.clear();
    for (const { reject } of lost) reject(new FurrowError({ kind: 'stopped', message }));
  };

  const begin = () => {
    /** @type {Thread} */
    const mine = hire(
      ({ id, answer, fault }) => {
        if (mine !== thread) return;
        const call = waiting.get(id);
        waiting.delete(id);
        if (waiting.size === 0) mine.idle?.();
        if (fault) call?.reject(new FurrowError(fault));
        else call?.resolve(answer);
        if (fault?.kind === 'stopped') end(fault.message);
      },
      (message) => mine === thread && end(message),
    );
    mine.post({ module });
    return mine;
  };

  /** @type {(message: object) => Promise<any>} */
  const post = (message) =>
    new Promise((resolve, reject) => {
      if (closed) throw new FurrowError({ kind: 'request', message: 'furrow is closed' });
      thread ??= begin();
      waiting.set(++last, { resolve, reject });
      thread.post({ id: last, ...message });
    });

  const furrow = connect((...call) => post({ call }), await post({}));
  return /** @type {any} */ ({
    ...promised(furrow),
    evaluate: async (/** @type {Parameters<typeof furrow.evaluate>} */ ...args) => promised(await furrow.evaluate(...args)),
    stop: () => end('stopped'),
    close() {
      closed = true;
      end('furrow is closed');
    },
  });
}

/** The same with functions that refuse by a promise too. @type {(calls: object) => Record<string, unknown>} */
function promised(calls) {
  return Object.fromEntries(Object.entries(calls).map(([name, value]) => [name, typeof value === 'function' ? async (/** @type {unknown[]} */ ...args) => value(...args) : value]));
}
