// A link that holds the requirement, the settings and the recipe of a made surface or the name of an invented trace; never a measured one. The data
// stand behind the #, so they never reach a server.
import { newId } from '../shared/store.js';
import { blank, display } from './state.js';

/** @typedef {import('./sheet.js').Sheet} Sheet */
/** @typedef {{form: 1, requirement: string, edition: string, settings: import('../furrow.js').Settings, row: string, asked: string[], rule: string, demo?: string, surface?: import('../furrow.js').Surface}} Held */

const mark = '#sheet=';

/** The link and what it holds, in words. @type {(sheet: Sheet) => {address: string, holds: string}} */
export function linkOf(sheet) {
  const { state, trace } = sheet;
  const { name, exclude, crop, ...settings } = state.settings;
  /** @type {Held} */
  const held = { form: 1, requirement: state.required?.text ?? '', edition: sheet.edition.id, settings, row: state.row, asked: state.asked, rule: state.rule, ...(trace?.demo ? { demo: trace.demo } : {}), ...(trace?.made ? { surface: trace.made.surface } : {}) };
  const bytes = new TextEncoder().encode(JSON.stringify(held));
  const code = btoa(String.fromCharCode(...bytes)).replace(/\+/g, '-').replace(/\//g, '_').replace(/=+$/, '');
  const words = [held.requirement ? 'the requirement' : '', 'the settings', held.demo ? 'the name of the invented trace' : '', held.surface ? 'the recipe of the made surface' : ''].filter(Boolean);
  return { address: `${location.origin}${location.pathname}${mark}${code}`, holds: `${words.slice(0, -1).join(', ')}${words.length > 1 ? ' and ' : ''}${words.at(-1)}${trace && !trace.demo && !trace.made ? ', and no trace' : ''}` };
}

/** What a link holds; null without one, an error for one that cannot be read. @type {(hash: string) => Held | null} */
export function heldIn(hash) {
  if (!hash.startsWith(mark)) return null;
  const code = hash.slice(mark.length).replace(/-/g, '+').replace(/_/g, '/');
  const held = JSON.parse(new TextDecoder().decode(Uint8Array.from(atob(code), (c) => c.charCodeAt(0))));
  if (held?.form !== 1 || typeof held.requirement !== 'string' || typeof held.settings !== 'object' || !Array.isArray(held.asked)) throw new Error('it was made by another furrow');
  return held;
}

/** Shows what a link holds as a new sheet. @type {(sheet: Sheet, held: Held) => Promise<void>} */
export async function follow(sheet, held) {
  const { client } = sheet;
  const { required, traces } = {
    required: held.requirement ? await client.call('requirement', held.requirement, held.edition) : null,
    traces: /** @type {import('./state.js').Trace[]} */ ([]),
  };
  if (held.surface) {
    const { profile, known } = await client.call('make', held.surface);
    traces.push({ id: newId(), profile, label: 'Made surface', origin: 'A surface made here', note: '', demo: '', reading: null, made: { surface: held.surface, known } });
  } else if (held.demo) {
    const demo = await client.call('demo', held.demo);
    traces.push({ id: newId(), profile: demo.profile, label: demo.title, origin: 'An invented trace of the demonstration', note: demo.note, demo: demo.key, reading: null });
  }
  const answer = /** @type {import('../furrow.js').Plan | null} */ (required);
  sheet.change({
    ...blank, ...display(sheet.state), traces, drawn: traces[0]?.id ?? '', rule: String(held.rule ?? ''), row: String(held.row ?? ''), settings: { ...held.settings, edition: held.edition }, asked: held.asked.map(String),
    required: answer && { text: held.requirement, answer, used: answer.settings ? answer : null },
  });
}
