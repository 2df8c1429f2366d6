// What a page starts with: what the build knows beforehand, and the compiled module and the script of the workers.
import { compile } from '../furrow.js';

/** All that workers need: the compiled module, and the address of their script. @typedef {{module: WebAssembly.Module, script: string}} Parts */
/**
 * What the build wrote: the version of the calculation, what every sheet starts with, and the first answers of the worksheet (shared/memo.js).
 * @typedef {{version: string, start: import('./shell.js').Start, answers: Record<string, string>}} Known
 */

/** Checksums of files, which a copy for another server states: a browser refuses a file that was changed. @type {Record<string, string>} */
const sums = {};

/** @type {(name: string) => Promise<Response>} */
async function get(name) {
  const response = await fetch(new URL(`../${name}`, import.meta.url), { integrity: sums[name] ?? '' });
  if (!response.ok) throw new Error(`${name} cannot be fetched: the server answered ${response.status}`);
  return response;
}

/** Fetches all that the workers need. @type {(from?: typeof get) => Promise<Parts>} */
export async function fetchParts(from = get) {
  const [module, ...texts] = await Promise.all([from('furrow.wasm').then(compile), ...['wasm_exec.js', 'furrow.js', 'worker.js'].map(async (name) => (await from(name)).text())]);
  // One script without imports: what each of the three imports is the one before it.
  const whole = texts.map((text) => text.replace(/^import .*$/gm, '').replace(/^export /gm, '')).join('\n');
  return { module, script: URL.createObjectURL(new Blob([whole], { type: 'text/javascript' })) };
}

/** Null where it cannot be had: then everything waits for the calculation. @type {Promise<Known | null>} */
export const known = get('known.json').then((response) => response.json()).catch(() => null);
