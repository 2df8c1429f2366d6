// The entry furrow/worker of node. A thread that has nothing to do does not keep the program alive.
import { Worker } from 'node:worker_threads';
import { beside, read } from './node.js';
import { remote } from './remote.js';

export { FurrowError } from './furrow.js';

/** @type {typeof import('./worker.js').load} */
export const load = async (source = beside, hire = () => new Worker(new URL('./thread.node.js', import.meta.url))) =>
  remote(await read(source), (told, failed) => {
    const worker = /** @type {Worker} */ (hire());
    worker.on('message', told);
    worker.on('error', (error) => failed(error.message));
    return {
      post(message) {
        worker.ref();
        worker.postMessage(message);
      },
      idle: () => worker.unref(),
      end: () => void worker.terminate(),
    };
  });
