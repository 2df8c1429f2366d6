// What a thread does: it starts the module that the first message brings, and passes calls on to it.
import { faultOf, start } from './furrow.js';

/** @type {(post: (message: object, transfer: ArrayBuffer[]) => void) => (message: any) => Promise<void>} */
export function relay(post) {
  /** @type {ReturnType<typeof start>} */
  let started;
  return async ({ id, module, call }) => {
    if (module) {
      started = start(module);
      started.catch(() => {}); // reported by the first call
      return;
    }
    try {
      const { ask, version } = await started;
      if (!call) return post({ id, answer: version }, []);
      const answer = ask(.../** @type {Parameters<typeof ask>} */ (call));
      post({ id, answer }, Object.values(answer?.arrays ?? {}).map((z) => /** @type {ArrayBuffer} */ (z.buffer)));
    } catch (error) {
      post({ id, fault: faultOf(error) }, []);
    }
  };
}
