// The thread of worker.node.js.
import { parentPort } from 'node:worker_threads';
import { relay } from './relay.js';

const port = /** @type {import('node:worker_threads').MessagePort} */ (parentPort);
port.on('message', relay((message, transfer) => port.postMessage(message, transfer)));
