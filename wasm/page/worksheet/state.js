// What a sheet holds: its state, from which everything else follows, and the small questions about it that need no calculation.
import { aloud, number, unitName, withUnit } from '../shared/numbers.js';
import { newId } from '../shared/store.js';

/** @typedef {import('../furrow.js').Profile} Profile */
/** @typedef {import('../furrow.js').Settings} Settings */
/** @typedef {import('../furrow.js').Value} Value */
/** @typedef {import('../furrow.js').Row} Row */
/** @typedef {import('../furrow.js').Plan} Plan */
/** A made-up surface, in µm, and what is known of it beforehand. @typedef {{surface: import('../furrow.js').Surface, known: readonly import('../furrow.js').Known[]}} Made */
/** What the drawing asks for, as it was read; used is the latest plan that gave settings: these stay in use while the text is refused. @typedef {{text: string, answer: Plan, used: Plan | null}} Required */
/**
 * A trace and where it came from; it never changes. bytes are those of its file, where it came from one that is small enough to be kept, and
 * hints what the file left open and was answered.
 * @typedef {{id: string, profile: Profile, label: string, origin: string, note: string, demo: string, reading: import('../furrow.js').Reading | null, made?: Made, bytes?: Uint8Array, hints?: import('../furrow.js').Hints, file?: import('../furrow.js').FileSource}} Trace
 */
/** What is known of how a trace was made: what its heights hold, whether it is upside down, and the skid. @typedef {{input?: import('../furrow.js').Input, invert?: boolean, skid: string}} Way */
/** A value without a trace: text is the number as typed, in the unit of the parameter. @typedef {{id: string, symbol: string, text: string, value: number, from: string}} TypedValue */
/**
 * @typedef {object} State
 * @property {string} name given to the sheet, '' until it is renamed
 * @property {readonly Trace[]} traces of one surface, in the order in which they came
 * @property {string} drawn id of the trace that is drawn
 * @property {Readonly<Record<string, string>>} out traces and typed values that do not count, by id, with the reason
 * @property {Readonly<Record<string, import('../furrow.js').Exclusion[]>>} parts left out of each trace, by id
 * @property {Readonly<Record<string, Way>>} ways of traces that are not as settings and skid say of all, by id
 * @property {readonly TypedValue[]} values typed in
 * @property {Required | null} required the requirement, null while none is written
 * @property {string} rule acceptance rule in place of the requirement's own, or ''
 * @property {string} agreed who agreed that settings or rule deviate, or ''
 * @property {string} u expanded uncertainty as typed, '' without one
 * @property {string} k its coverage factor as typed
 * @property {'maker' | 'buyer' | 'none' | ''} prove who must prove it; '': the maker
 * @property {'2017' | '1998' | ''} guard how the uncertainty counts; '': 2017
 * @property {Readonly<Record<string, string>>} blanks what people write on the record, by field
 * @property {string} row name or number of the setting class, '' for the edition's default
 * @property {Settings} settings what was set besides; everything else follows from edition and class
 * @property {string[]} asked symbols asked for
 * @property {string} show which values are listed
 * @property {string} skid how it was traced
 * @property {string} decimal the reader's decimal mark
 * @property {'metric' | 'inch'} units µm and mm, or µin and in, for what people see
 * @property {[number, number] | null} view part of the trace drawn, µm; null: the whole
 */

/** @type {State} */
export const blank = {
  name: '', traces: [], drawn: '', out: {}, parts: {}, ways: {}, values: [], required: null, rule: '', agreed: '', u: '', k: '2', prove: '', guard: '', blanks: {}, row: '', settings: {}, asked: ['Rz', 'Ra'],
  show: 'usual', skid: 'unknown', decimal: '.', units: 'metric', view: null,
};

/** @type {(demo: import('../furrow.js').Demo & {profile: Profile}) => Trace} */
export const demoTrace = (demo) => ({ id: newId(), profile: demo.profile, label: demo.title, origin: 'An invented trace of the demonstration', note: demo.note, demo: demo.key, reading: null });

/** Shows the demonstration in place of what is there, with no way back. @type {(sheet: import('./sheet.js').Sheet, shown: Pick<State, 'decimal' | 'units'>) => Promise<void>} */
export async function demonstrate(sheet, shown) {
  const trace = demoTrace(await sheet.client.call('demo', sheet.demos[0].key));
  sheet.remember({ state: { ...blank, ...shown, traces: [trace], drawn: trace.id }, past: [], future: [], typed: '' });
}

/** A symbol without its arguments. @type {(symbol: string) => string} */
export const base = (symbol) => symbol.replace(/\(.*/, '');

/** The trace that is drawn. @type {(state: State) => Trace | null} */
export const drawnOf = ({ traces, drawn }) => traces.find((t) => t.id === drawn) ?? traces[0] ?? null;

/** A file name without its ending. @type {(label: string) => string} */
const bare = (label) => label.replace(/\.[a-z][a-z0-9]{0,4}$/i, '');

/** The name of a sheet: the one it was given, or that of its first trace. @type {(state: State) => string} */
export function nameOf({ name, traces: [first] }) {
  return name || (first?.demo ? first.label : first && bare(first.label)) || 'Surface profile worksheet';
}

/** Whether only an invented trace or nothing is there. @type {(state: State) => boolean} */
export const without = ({ traces }) => traces.every((t) => t.demo || t.made);

/** What a requirement fixes, and nothing that belongs to the trace. @type {(wanted: Settings) => Settings} */
export function fixed({ short, long, waviness_limit, sections, section, choices }) {
  return { short, long, waviness_limit, sections, section, choices };
}

/** The row of the table that settings come to, with what the table says of tip and spacing where they stand in it. @type {(wanted: Settings, rows: readonly Row[]) => Row} */
export function rowOf({ short, long, sections, section }, rows) {
  const like = rows.find((r) => r.long === (long?.cutoff ?? 0) && r.short === (short?.cutoff ?? 0));
  const own = { long: long?.cutoff ?? 0, short: short?.cutoff ?? 0, sections: sections ?? like?.sections ?? 1, section: section ?? long?.cutoff ?? 0 };
  const same = like && like.sections === own.sections && like.section === own.section;
  if (same) return like;
  return { ...own, name: '', evaluation: own.sections * own.section, maxSpacing: like?.maxSpacing ?? 0, tipRadius: like?.tipRadius ?? 0 };
}

/** The key of a row in the state. @type {(row: Row, i: number) => string} */
export const rowKey = (row, i) => row.name || String(i);

/** An origin in words: the standard with its clause, "drawing" or "set here"; what rests on nothing else is set here. @type {(o?: import('../furrow.js').Origin) => {said: string, basis: string, text: string}} */
export const originWords = (o) => ({ said: o?.from === 'standard' ? o.source : (o?.from ?? 'set here'), basis: o?.from === 'standard' ? o.basis : '', text: o?.text ?? '' });

/** How things are shown, which stays when a sheet takes another's place. @type {(state: State) => Pick<State, 'decimal' | 'units'>} */
export const display = ({ decimal, units }) => ({ decimal, units });

/** A value for those who listen. @type {(v: {value: number | null, unit: string}) => string} */
export const spoken = (v) => aloud(shown(v));

/** @type {(v: {value: number | null, unit: string}, digits?: number) => string} */
export const shown = (v, digits = 3) => (v.value === null ? 'not defined' : withUnit(number(v.value, v.unit, digits), unitName(v.unit)));
