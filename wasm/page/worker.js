// The calculation, off the page's thread. A message {id, name, args} is answered by {id, value} or {id, fault}; the first
// message carries the compiled module. Arrays that the page does not draw from stay here.
import { load, faultOf, FurrowError } from './furrow.js';

/** @typedef {import('./furrow.js').Furrow} Furrow */
/** @typedef {import('./furrow.js').Profile} Profile */

/** @type {Promise<Furrow> | undefined} */
let loaded;
/** @type {Profile | undefined} */
let trace;

/** @typedef {import('./furrow.js').Evaluation} Evaluation */
/** The latest evaluation, the latest one with values, and what was judged last. @type {{latest?: Evaluation, shown?: Evaluation, judged?: Evaluation}} */
let kept = {};

/** Keeps what is in use now, and closes what is no longer. @type {(now: typeof kept) => void} */
function keep(now) {
  const before = Object.values(kept);
  kept = { ...kept, ...now };
  for (const e of new Set(before)) if (e && !Object.values(kept).includes(e)) e.close();
}

/** @type {(furrow: Furrow, ...args: Parameters<Furrow['evaluate']>) => Evaluation} */
function evaluate(furrow, ...args) {
  const e = furrow.evaluate(...args);
  keep(e.problem ? { latest: e } : { latest: e, shown: e });
  return e;
}

/** The latest evaluation with values. @type {() => Evaluation} */
function shown() {
  if (!kept.shown) throw new FurrowError({ kind: 'request', message: 'nothing has been evaluated yet' });
  return kept.shown;
}

/** @type {Record<string, (furrow: Furrow, ...args: any[]) => unknown>} */
const calls = {
  /** What the page needs once. @type {(furrow: Furrow) => unknown} */
  start: (furrow) => ({ version: furrow.version, catalogue: furrow.catalogue(), demos: furrow.demos() }),
  version: (furrow) => furrow.version,
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
    const e = evaluate(furrow, trace, settings, requirement);
    const { result, first, start, sectionPoints, sections, summary, findings, problem } = e;
    const answers = also.map(([name, ...args]) => {
      try {
        return calls[name](furrow, ...args);
      } catch {
        return undefined; // the page asks again, and is told why
      }
    });
    return { result, first, start, sectionPoints, sections, summary, findings, problem, also: answers };
  },
  /** The heights of the profile that is evaluated. */
  drawn() {
    const e = shown();
    const { profile } = e.result.settings;
    return e.profiles(profile)[profile];
  },
  requirement: (furrow, text, edition) => furrow.requirement(text, edition),
  judge(furrow, text, options) {
    keep({ judged: kept.latest });
    return (kept.latest ?? furrow).judge(text, options);
  },
  hold: (furrow, trace) => furrow.hold(trace),
  measure: (furrow, id, settings) => furrow.measure(id, settings),
  summary: (furrow, values) => furrow.summary(values),
  compare: (_, request) => shown().compare(request),
  instrument: (furrow, request, profiles) => furrow.instrument(request, profiles),
  selfcheck: (furrow, made) => furrow.selfcheck(made),
  record: (furrow, sheet, profiles, options) => furrow.record(sheet, profiles, options),
  reopen: (furrow, bytes) => furrow.reopen(bytes),
  verify: (furrow, bytes) => furrow.verify(bytes),
  digest: (furrow, bytes) => furrow.digest(bytes),
  construct: (_, symbol) => shown().construct(symbol),
  /** Some pictures belong to an answer of compare or instrument, which is made again first. @type {(furrow: Furrow, name: any, options: any) => unknown} */
  figure(furrow, name, { of, ...options }) {
    if (of?.question) shown().compare(of);
    if (of?.check) furrow.instrument(of, of.profiles);
    if (of?.check || options.trace) return furrow.figure(name, options);
    return name === 'decision' ? (kept.judged ?? furrow).figure(name, options) : shown().figure(name, options);
  },
  study: (furrow, request, sheet) => furrow.study(request, sheet),
  transmit: (_, wavelength) => shown().transmit(wavelength),
  make: (furrow, surface) => furrow.make(surface),
  /** Complete settings; those that cannot be followed throw. In the worker beside. @type {(furrow: Furrow, settings: import('./furrow.js').Settings, spacing?: number) => unknown} */
  complete: (furrow, settings, spacing = 0.5) => evaluate(furrow, { z: new Float64Array(64), spacing }, settings).result.settings,
  // In the worker beside, which holds no trace of its own:
  /** @type {(furrow: Furrow, profile: Profile, settings: import('./furrow.js').Settings) => unknown} */
  values(furrow, profile, settings) {
    const { result, problem } = evaluate(furrow, profile, settings);
    return { result, problem };
  },
  /** Starts a search for the settings that give printed values. @type {(furrow: Furrow, profile: Profile, settings: import('./furrow.js').Settings, printed: string, most: number) => unknown} */
  search(furrow, profile, settings, printed, most) {
    evaluate(furrow, profile, settings);
    return shown().compare({ question: 'find', printed, settings, most });
  },
  /** @type {(furrow: Furrow, profile: Profile, settings: import('./furrow.js').Settings) => unknown} */
  steadiness(furrow, profile, settings) {
    evaluate(furrow, profile, settings);
    return shown().compare({ question: 'steadiness' });
  },
  /** @type {(furrow: Furrow, profile: Profile, settings: import('./furrow.js').Settings, symbol: string) => unknown} */
  steady(furrow, profile, settings, symbol) {
    evaluate(furrow, profile, { ...settings, parameters: [symbol] });
    return shown().steady(symbol);
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
    postMessage({ id: data.id, fault: faultOf(error) });
  }
});
