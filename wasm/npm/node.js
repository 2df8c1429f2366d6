// The entry for node, which reads the module from its file.
import { readFile } from 'node:fs/promises';
import { FurrowError, load as begin } from './furrow.js';

export { FurrowError };

/** @type {typeof import('./furrow.js').load} */
export const load = async (source = beside) => begin(await read(source));

/** The module of the package. */
export const beside = new URL('./furrow.wasm', import.meta.url);

/** The bytes behind an address of a file; what is no such address is given back. @type {(source: import('./furrow.js').ModuleSource) => Promise<import('./furrow.js').ModuleSource>} */
export async function read(source) {
  const href = typeof source === 'string' ? source : 'href' in source ? source.href : '';
  if (!href.startsWith('file:')) return source;
  try {
    return await readFile(new URL(href));
  } catch (error) {
    throw new FurrowError({ kind: 'module', message: `the module cannot be used: ${/** @type {Error} */ (error).message}` });
  }
}
