// The calculation, off the page's thread. A message {id, name, args} is answered by {id, value} or {id, fault}; the first
// message carries the compiled module. Arrays that the page does not draw from stay here.
import { load, FurrowError } from './furrow.js';

/** @typedef {import('./furrow.js').Furrow} Furrow */
/** @typedef {import('./furrow.js').Profile} Profile */

/** @type {Promise<Furrow> | undefined} */
let loaded;
/** @type {Profile | undefined} */
let trace;

/** @type {Record<string, (furrow: Furrow, ...args: any[]) => unknown>} */
const calls = {
  /** What the page needs once. @type {(furrow: Furrow) => unknown} */
  start(furrow) {
    const demos = furrow.demos();
    return { version: furrow.version, catalogue: furrow.catalogue(), demos, first: furrow.demo(demos[0].key) };
  },
  demo: (furrow, key) => furrow.demo(key),
  /** @type {(furrow: Furrow, bytes: Uint8Array, hints: import('./furrow.js').Hints) => unknown} */
  read: (furrow, bytes, hints) => furrow.read(bytes, hints),
  /** The trace stays here between evaluations. @type {(furrow: Furrow, profile: Profile) => void} */
  take(_, profile) {
    trace = profile;
  },
  /**
   * requirement is the text that settings follow from, where they do. also are calls that are answered in the same message, those that fail with undefined.
   * @type {(furrow: Furrow, settings: import('./furrow.js').Settings, requirement?: {text: string, edition: string}, also?: readonly (readonly [string, ...unknown[]])[]) => unknown}
   */
  evaluate(furrow, settings, requirement, also = []) {
    if (!trace) throw new FurrowError({ kind: 'request', message: 'there is no trace' });
    const { profiles, ...rest } = furrow.evaluate(trace, settings, requirement);
    const { profile } = rest.result.settings;
    const answers = also.map(([name, ...args]) => {
      try {
        return calls[name](furrow, ...args);
      } catch {
        return undefined; // the page asks again, and is told why
      }
    });
    return { ...rest, also: answers, drawn: profile === 'P' ? profiles.primary : profile === 'W' ? profiles.waviness : profiles.roughness };
  },
  requirement: (furrow, text, edition) => furrow.requirement(text, edition),
  judge: (furrow, text, options) => furrow.judge(text, options),
  hold: (furrow, trace) => furrow.hold(trace),
  measure: (furrow, id, settings) => furrow.measure(id, settings),
  summary: (furrow, values) => furrow.summary(values),
  compare: (furrow, request) => furrow.compare(request),
  instrument: (furrow, request, profiles) => furrow.instrument(request, profiles),
  selfcheck: (furrow, made) => furrow.selfcheck(made),
  record: (furrow, sheet, profiles, options) => furrow.record(sheet, profiles, options),
  reopen: (furrow, bytes) => furrow.reopen(bytes),
  verify: (furrow, bytes) => furrow.verify(bytes),
  digest: (furrow, bytes) => furrow.digest(bytes),
  construct: (furrow, symbol) => furrow.construct(symbol),
  /** Some pictures belong to an answer of compare or instrument, which is made again first. @type {(furrow: Furrow, name: string, options: any) => unknown} */
  figure(furrow, name, { of, ...options }) {
    if (of?.question) furrow.compare(of);
    if (of?.check) furrow.instrument(of, of.profiles);
    return furrow.figure(name, options);
  },
  study: (furrow, request, sheet) => furrow.study(request, sheet),
  transmit: (furrow, wavelength) => furrow.transmit(wavelength),
  make: (furrow, surface) => furrow.make(surface),
  /** Complete settings; those that cannot be followed throw. In the worker beside. @type {(furrow: Furrow, settings: import('./furrow.js').Settings, spacing?: number) => unknown} */
  complete: (furrow, settings, spacing = 0.5) => furrow.evaluate({ z: new Float64Array(64), spacing }, settings).result.settings,
  // In the worker beside, which holds no trace of its own:
  /** @type {(furrow: Furrow, profile: Profile, settings: import('./furrow.js').Settings) => unknown} */
  values(furrow, profile, settings) {
    const { result, problem } = furrow.evaluate(profile, settings);
    return { result, problem };
  },
  /** Starts a search for the settings that give printed values. @type {(furrow: Furrow, profile: Profile, settings: import('./furrow.js').Settings, printed: string, most: number) => unknown} */
  search(furrow, profile, settings, printed, most) {
    furrow.evaluate(profile, settings);
    return furrow.compare({ question: 'find', printed, settings, most });
  },
  /** @type {(furrow: Furrow, profile: Profile, settings: import('./furrow.js').Settings) => unknown} */
  steadiness(furrow, profile, settings) {
    furrow.evaluate(profile, settings);
    return furrow.compare({ question: 'steadiness' });
  },
  /** @type {(furrow: Furrow, profile: Profile, settings: import('./furrow.js').Settings, symbol: string) => unknown} */
  steady(furrow, profile, settings, symbol) {
    furrow.evaluate(profile, { ...settings, parameters: [symbol] });
    return furrow.steady(symbol);
  },
};

addEventListener('message', async ({ data }) => {
  if (data.module) {
    loaded ??= load(data.module);
    loaded.catch(() => {}); // reported by the first call
    return;
  }
  try {
    if (!loaded) throw new FurrowError({ kind: 'stopped', message: 'the module has not come' });
    postMessage({ id: data.id, value: await calls[data.name](await loaded, ...data.args) });
  } catch (error) {
    const { kind = 'internal', line, column, key, questions } = /** @type {FurrowError} */ (error);
    postMessage({ id: data.id, fault: { kind, message: String(/** @type {Error} */ (error).message), line, column, key, questions } });
  }
});
