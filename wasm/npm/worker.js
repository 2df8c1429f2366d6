// The entry furrow/worker of a browser.
import { remote } from './remote.js';

export { FurrowError } from './furrow.js';

/** @type {typeof import('./worker.js').load} */
export const load = (source = new URL('./furrow.wasm', import.meta.url), hire = () => new Worker(new URL('./thread.js', import.meta.url), { type: 'module' })) =>
  remote(source, (told, failed) => {
    const worker = /** @type {Worker} */ (hire());
    worker.addEventListener('message', ({ data }) => told(data));
    worker.addEventListener('error', (event) => failed(event.message || 'the thread does not start'));
    return { post: (message) => worker.postMessage(message), end: () => worker.terminate() };
  });
