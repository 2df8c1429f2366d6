// The thread of worker.js.
import { relay } from './relay.js';

const answer = relay((message, transfer) => postMessage(message, { transfer }));
addEventListener('message', ({ data }) => answer(data));
