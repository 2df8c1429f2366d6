// furrow.js starts the WebAssembly module and gives its functions to a script; furrow.d.ts declares them. It needs
// wasm_exec.js, the loader that comes with the Go that compiled the module, and nothing of the page. The npm package holds it as it is.
import './wasm_exec.js';

const scope = /** @type {Record<string, any>} */ (/** @type {unknown} */ (globalThis));
const registration = '__furrow_ready';

/** The version that this file belongs to; a module of another one is refused. */
const version = '0.1.0';

// The loader leaves its class on the global object; what stays there are the stand-ins for fs, process and path that a
// running Go program looks for.
const { Go } = scope;
delete scope.Go;

/** @type {typeof import('./furrow.js').FurrowError} */
export const FurrowError = class FurrowError extends Error {
  /** @param {import('./furrow.js').Fault} fault */
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

/** @type {typeof import('./furrow.js').faultOf} */
export function faultOf(error) {
  const { kind = 'internal', line, column, key, questions } = /** @type {import('./furrow.js').FurrowError} */ (error);
  return { kind, message: String(/** @type {Error} */ (error).message), line, column, key, questions };
}

/** @typedef {import('./furrow.js').Answer} Answer */
/** @typedef {(text?: string, data?: Float64Array | Uint8Array, handle?: number) => ({value?: Answer, error?: string} | null | undefined)} Raw */

/** @type {typeof import('./furrow.js').load} */
export async function load(source = new URL('./furrow.wasm', import.meta.url)) {
  const { ask, version } = await start(await compile(source));
  return connect(ask, version);
}

/** @type {typeof import('./furrow.js').start} */
export async function start(module) {
  const go = new Go();
  const instance = await WebAssembly.instantiate(module, go.importObject).catch((error) => unusable(error.message));
  /** @type {Record<string, Raw>} */
  const table = await new Promise((resolve, reject) => {
    scope[registration] = resolve;
    go.run(instance).then(() => unusable('it stopped as it started'), (/** @type {Error} */ error) => unusable(error.message)).catch(reject);
  }).finally(() => delete scope[registration]);

  /** @type {import('./furrow.js').Ask} */
  const ask = (name, text, data, handle) => {
    let reply;
    try {
      reply = table[name](text, data, handle);
    } catch (error) {
      throw new FurrowError({ kind: 'stopped', message: String(error) });
    }
    if (reply?.value) return reply.value;
    if (!reply?.error) throw new FurrowError({ kind: 'stopped', message: 'the calculation stopped' });
    const fault = JSON.parse(reply.error);
    if (fault.kind === 'gone') return undefined;
    throw new FurrowError(fault);
  };
  const about = JSON.parse(/** @type {Answer} */ (ask('version', '')).text);
  if (about.furrow !== version) unusable(`it is of furrow ${about.furrow}, and furrow.js is of ${version}`);
  return { ask, version: about };
}

/** @type {typeof import('./furrow.js').connect} */
export function connect(ask, version) {
  /** @type {(name: string, request?: object, data?: Float64Array | Uint8Array) => any} */
  const answer = (name, request, data) => ask(name, written(request), data);
  /** @type {(name: string, request?: object, data?: Float64Array | Uint8Array) => any} */
  const call = (name, request, data) => then(answer(name, request, data), parsed);
  let last = 0;

  // An evaluation that the module let go, because others needed its room, comes back from what was given.
  /** @type {(profile: import('./furrow.js').GivenProfile, request: object) => any} */
  const evaluate = (profile, request) => {
    const given = heights(profile);
    /** @type {Float64Array | undefined} */
    let z = given === profile.z ? given.slice() : given;
    const text = written(request, finite);
    const handle = ++last;
    /** @type {(name: string, request: object) => any} */
    const about = (name, request) => {
      if (!z) refuse('the evaluation is closed');
      const open = z;
      const wanted = written(request);
      return then(ask(name, wanted, undefined, handle), (here) => here ?? both(ask('evaluate', text, open, handle), ask(name, wanted, undefined, handle)));
    };
    /** @type {(name: string, request: object) => any} */
    const told = (name, request) => then(about(name, request), parsed);
    return then(ask('evaluate', text, z, handle), (first) => {
      const said = parsed(first);
      return {
        ...said,
        values: said.result.values,
        profiles: (/** @type {string[]} */ ...names) => then(about('profiles', { names }), ({ arrays }) => arrays),
        construct: (/** @type {string} */ symbol) => told('construct', { symbol }),
        figure: (/** @type {string} */ name, options = {}) => told('figure', { name, options }),
        judge: (/** @type {string} */ text, options = {}) => told('judge', { text, ...options }),
        compare: (/** @type {object} */ request) => told('compare', request),
        steady: (/** @type {string} */ symbol) => told('steady', { symbol }),
        transmit: (/** @type {number} */ wavelength) => told('transmit', { wavelength }),
        close() {
          z = undefined;
          return then(answer('close', { handle }), () => {});
        },
      };
    });
  };

  return /** @type {import('./furrow.js').Furrow} */ ({
    version,
    catalogue: () => call('catalogue'),
    demos: () => call('demos'),
    demo: (key) => then(answer('demo', { key }), ({ text, arrays }) => {
      const demo = JSON.parse(text);
      return { ...demo, profile: { z: arrays.z, spacing: demo.spacing, name: demo.title } };
    }),
    read: (file, hints = {}) => then(answer('read', { hints }, bytes(file)), ({ text, arrays }) => {
      const { spacing, name, ...report } = JSON.parse(text);
      return { profile: { z: arrays.z, spacing, name }, ...report };
    }),
    evaluate: (profile, settings = {}, requirement = undefined) => evaluate(profile, { spacing: profile?.spacing, name: profile?.name, settings, requirement }),
    figure: (name, options = {}) => call('figure', { name, options }),
    make: (surface) => then(answer('make', surface), ({ text, arrays }) => ({ profile: { z: arrays.z, spacing: surface.spacing, name: 'made surface' }, ...JSON.parse(text) })),
    requirement: (text, edition = '') => call('requirement', { text, edition }),
    judge: (text, options = {}) => call('judge', { text, ...options }),
    record(sheet, profiles, { want = ['json', 'html'], comma = false, inch = false } = {}) {
      const all = profiles.map(heights);
      return call('record', { sheet, points: all.map((z) => z.length), want, comma, inch }, joined(all));
    },
    reopen: (file) => then(answer('reopen', undefined, bytes(file)), ({ text, arrays }) => {
      const { points, ...opened } = JSON.parse(text);
      let at = 0;
      const profiles = opened.sheet.traces.map((/** @type {import('./furrow.js').SheetTrace} */ t, /** @type {number} */ i) => ({ z: arrays.z.subarray(at, (at += points[i])), spacing: t.spacing, name: t.name }));
      return { ...opened, profiles };
    }),
    verify: (file) => call('verify', undefined, bytes(file)),
    digest: (file) => call('digest', undefined, bytes(file)),
    instrument(request, profiles = []) {
      const all = profiles.map(heights);
      const traces = profiles.map(({ spacing, name }, i) => ({ points: all[i].length, spacing, name }));
      return call('instrument', { ...request, traces }, joined(all));
    },
    selfcheck: (made) => call('selfcheck', { made }),
    study(request, sheet) {
      const { spacing, name } = sheet ?? {};
      return call('study', { ...request, sheet: sheet && { spacing, name } }, sheet && heights(sheet));
    },
    hold: ({ id, profile, only = null }) => then(profile ? answer('hold', { id, name: profile.name, spacing: profile.spacing, only }, heights(profile)) : answer('hold', { only }), () => {}),
    measure: (id, settings) => call('measure', { id, settings }),
    summary: (values) => call('summary', { values }),
  });
}

// What answers at once and what answers with a promise go the same way: each step waits only where there is something to wait for.
/** @type {(value: any, next: (value: any) => unknown) => any} */
const then = (value, next) => (typeof value?.then === 'function' ? value.then(next) : next(value));

/** The second of two answers, when both are there. @type {(first: any, second: any) => any} */
const both = (first, second) => (typeof first?.then === 'function' ? Promise.all([first, second]).then(() => second) : second);

/** The class of a value, also of one from another frame or context. @type {(value: unknown) => string} */
const kind = (value) => Object.prototype.toString.call(value).slice(8, -1);

/** @type {(answer: Answer) => any} */
const parsed = ({ text }) => JSON.parse(text);

// JSON writes null for a number that is none, and null means something in settings.
/** @type {(key: string, value: unknown) => unknown} */
function finite(key, value) {
  if (typeof value === 'number' && !Number.isFinite(value)) refuse(`${key} is ${value}`);
  return value;
}

/** @type {(request?: object, replace?: (key: string, value: unknown) => unknown) => string} */
function written(request, replace) {
  try {
    return request === undefined ? '' : JSON.stringify(request, replace);
  } catch (error) {
    if (error instanceof FurrowError) throw error;
    return refuse(`the request cannot be written as JSON: ${/** @type {Error} */ (error).message}`);
  }
}

/** @type {(message: string) => never} */
function refuse(message) {
  throw new FurrowError({ kind: 'request', message });
}

/** @type {(reason: string) => never} */
function unusable(reason) {
  throw new FurrowError({ kind: 'module', message: `the module cannot be used: ${reason}` });
}

// heights gives the heights of a profile as numbers of 64 bits, which alone cross; a view of other bytes would be misread.
/** @type {(profile: import('./furrow.js').GivenProfile) => Float64Array} */
function heights(profile) {
  const z = profile?.z;
  switch (kind(z)) {
    case 'Float64Array':
      return /** @type {Float64Array} */ (z);
    case 'Float32Array':
    case 'Int32Array':
    case 'Int16Array':
      return new Float64Array(z);
    case 'Array': {
      const other = /** @type {readonly number[]} */ (z).findIndex((v) => typeof v !== 'number');
      if (other < 0) return new Float64Array(z);
      return refuse(`the height at point ${other + 1} is not a number; NaN marks a point without a height`);
    }
  }
  return refuse('the heights must come as an array of numbers or as a Float64Array, Float32Array, Int32Array or Int16Array');
}

/** The bytes of a file. @type {(file: Uint8Array | ArrayBuffer) => Uint8Array} */
function bytes(file) {
  if (kind(file) === 'Uint8Array') return /** @type {Uint8Array} */ (file);
  if (kind(file) === 'ArrayBuffer') return new Uint8Array(file);
  return refuse('a file must come as a Uint8Array or an ArrayBuffer');
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

/** @type {typeof import('./furrow.js').compile} */
export async function compile(source) {
  try {
    if (kind(source) === 'WebAssembly.Module') return /** @type {WebAssembly.Module} */ (source);
    if (kind(source) === 'ArrayBuffer' || ArrayBuffer.isView(source)) return await WebAssembly.compile(/** @type {BufferSource} */ (source));
    const response = /** @type {Response} */ (kind(source) === 'Response' ? source : await fetch(/** @type {string | URL} */ (source)).catch((error) => unusable(`${source} cannot be fetched: ${error.message}`)));
    if (!response.ok) unusable(`${response.url} answered ${response.status}`);
    // A server that sends another type gets the bytes read instead.
    if (response.headers.get('Content-Type')?.startsWith('application/wasm')) return await WebAssembly.compileStreaming(response);
    return await WebAssembly.compile(await response.arrayBuffer());
  } catch (error) {
    return error instanceof FurrowError ? Promise.reject(error) : unusable(/** @type {Error} */ (error).message);
  }
}
