// furrow.js starts the WebAssembly module and gives its functions to a script; furrow.d.ts declares them. It needs
// wasm_exec.js, the loader that comes with the Go that compiled the module, and nothing of the page.
import './wasm_exec.js';

const scope = /** @type {Record<string, any>} */ (/** @type {unknown} */ (globalThis));
const registration = '__furrow_ready';

// The loader leaves its class on the global object; what stays there are the stand-ins for fs, process and path that a
// running Go program looks for.
const { Go } = scope;
delete scope.Go;

/** @type {typeof import('./furrow.js').FurrowError} */
export const FurrowError = class FurrowError extends Error {
  /** @param {{kind: import('./furrow.js').ErrorKind, message: string, line?: number, column?: number, key?: string, questions?: readonly import('./furrow.js').Question[]}} fault */
  constructor(fault) {
    super(fault.message);
    this.name = 'FurrowError';
    this.kind = fault.kind;
    this.line = fault.line;
    this.column = fault.column;
    this.key = fault.key;
    this.questions = fault.questions;
  }
};

/** @typedef {{text: string, arrays: Record<string, Float64Array>}} Answer */
/** @typedef {(text?: string, data?: Float64Array | Uint8Array) => ({value?: Answer, error?: string} | null | undefined)} Raw */

/** @type {typeof import('./furrow.js').load} */
export async function load(source = new URL('furrow.wasm', import.meta.url)) {
  const go = new Go();
  const instance = await instantiate(source, go.importObject);
  /** @type {Record<string, Raw>} */
  const table = await new Promise((resolve, reject) => {
    scope[registration] = resolve;
    go.run(instance).then(() => reject(new FurrowError({ kind: 'stopped', message: 'the calculation stopped as it started' })), reject);
  }).finally(() => delete scope[registration]);

  /** @type {(name: string, request?: object, data?: Float64Array | Uint8Array) => Answer} */
  const call = (name, request, data) => {
    let reply;
    try {
      reply = table[name](request === undefined ? '' : JSON.stringify(request), data);
    } catch (error) {
      throw new FurrowError({ kind: 'stopped', message: String(error) });
    }
    if (!reply || (!reply.value && !reply.error)) throw new FurrowError({ kind: 'stopped', message: 'the calculation stopped' });
    if (reply.error) throw new FurrowError(JSON.parse(reply.error));
    return /** @type {Answer} */ (reply.value);
  };
  return {
    version: JSON.parse(call('version').text),
    catalogue: () => JSON.parse(call('catalogue').text),
    demos: () => JSON.parse(call('demos').text),
    demo(key) {
      const { text, arrays } = call('demo', { key });
      const demo = JSON.parse(text);
      return { ...demo, profile: { z: arrays.z, spacing: demo.spacing, name: demo.title } };
    },
    read(bytes, hints = {}) {
      const { text, arrays } = call('read', { hints }, bytes);
      const { spacing, name, ...report } = JSON.parse(text);
      return { profile: { z: arrays.z, spacing, name }, ...report };
    },
    evaluate(profile, settings = {}, requirement = undefined) {
      const { spacing, name } = profile;
      const { text, arrays } = call('evaluate', { spacing, name, settings, requirement }, heights(profile));
      return { ...JSON.parse(text), profiles: arrays };
    },
    construct: (symbol) => JSON.parse(call('construct', { symbol }).text),
    figure: (name, options = {}) => JSON.parse(call('figure', { name, options }).text),
    make(surface) {
      const { text, arrays } = call('make', surface);
      return { profile: { z: arrays.z, spacing: surface.spacing, name: 'made surface' }, ...JSON.parse(text) };
    },
    requirement: (text, edition = '') => JSON.parse(call('requirement', { text, edition }).text),
    judge: (text, options = {}) => JSON.parse(call('judge', { text, ...options }).text),
    record(sheet, profiles, { want = ['json', 'html'], comma = false, inch = false } = {}) {
      const all = profiles.map(heights);
      return JSON.parse(call('record', { sheet, points: all.map((z) => z.length), want, comma, inch }, joined(all)).text);
    },
    reopen(bytes) {
      const { text, arrays } = call('reopen', undefined, bytes);
      const { points, ...opened } = JSON.parse(text);
      let at = 0;
      const profiles = opened.sheet.traces.map((/** @type {import('./furrow.js').SheetTrace} */ t, /** @type {number} */ i) => ({ z: arrays.z.subarray(at, (at += points[i])), spacing: t.spacing, name: t.name }));
      return { ...opened, profiles };
    },
    verify: (bytes) => JSON.parse(call('verify', undefined, bytes).text),
    digest: (bytes) => JSON.parse(call('digest', undefined, bytes).text),
    compare: (request) => JSON.parse(call('compare', request).text),
    instrument(request, profiles = []) {
      const all = profiles.map(heights);
      const traces = profiles.map(({ spacing, name }, i) => ({ points: all[i].length, spacing, name }));
      return JSON.parse(call('instrument', { ...request, traces }, joined(all)).text);
    },
    selfcheck: (made) => JSON.parse(call('selfcheck', { made }).text),
    study(request, sheet) {
      const { spacing, name } = sheet ?? {};
      return JSON.parse(call('study', { ...request, sheet: sheet && { spacing, name } }, sheet && heights(sheet)).text);
    },
    hold: ({ id, profile, only = null }) => void (profile ? call('hold', { id, name: profile.name, spacing: profile.spacing, only }, heights(profile)) : call('hold', { only })),
    measure: (id, settings) => JSON.parse(call('measure', { id, settings }).text),
    summary: (values) => JSON.parse(call('summary', { values }).text),
    steady: (symbol) => JSON.parse(call('steady', { symbol }).text),
    transmit: (wavelength) => JSON.parse(call('transmit', { wavelength }).text),
  };
}

// heights gives the heights of a profile as numbers of 64 bits, which alone cross; a view of other bytes would be misread.
/** @type {(profile: import('./furrow.js').GivenProfile) => Float64Array} */
function heights({ z }) {
  switch (Object.prototype.toString.call(z).slice(8, -1)) {
    case 'Float64Array':
      return /** @type {Float64Array} */ (z);
    case 'Float32Array':
    case 'Int32Array':
    case 'Int16Array':
      return new Float64Array(z);
    case 'Array': {
      const other = /** @type {readonly number[]} */ (z).findIndex((v) => typeof v !== 'number');
      if (other < 0) return new Float64Array(z);
      throw new FurrowError({ kind: 'request', message: `the height at point ${other + 1} is not a number; NaN marks a point without a height` });
    }
  }
  throw new FurrowError({ kind: 'request', message: 'the heights must come as an array of numbers or as a Float64Array, Float32Array, Int32Array or Int16Array' });
}

// joined holds the heights of all profiles one behind the other.
/** @type {(all: readonly Float64Array[]) => Float64Array} */
function joined(all) {
  const joint = new Float64Array(all.reduce((n, z) => n + z.length, 0));
  let at = 0;
  for (const z of all) {
    joint.set(z, at);
    at += z.length;
  }
  return joint;
}

// instantiate streams where it can; a server that sends another type than application/wasm gets the bytes read instead.
/** @type {(source: string | URL | Response | BufferSource | WebAssembly.Module, imports: WebAssembly.Imports) => Promise<WebAssembly.Instance>} */
async function instantiate(source, imports) {
  if (source instanceof WebAssembly.Module) return WebAssembly.instantiate(source, imports);
  if (!(source instanceof Response) && !(typeof source === 'string') && !(source instanceof URL)) {
    return (await WebAssembly.instantiate(source, imports)).instance;
  }
  const response = source instanceof Response ? source : await fetch(source);
  if (!response.ok) throw new FurrowError({ kind: 'stopped', message: `${response.url} answered ${response.status}` });
  if (response.headers.get('Content-Type')?.startsWith('application/wasm')) {
    return (await WebAssembly.instantiateStreaming(response, imports)).instance;
  }
  return (await WebAssembly.instantiate(await response.arrayBuffer(), imports)).instance;
}
