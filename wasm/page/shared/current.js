// The worksheet for the other sheets: the trace that is drawn on it, what the drawing asks, the settings in use and the values, as they were
// stored last. Another sheet reads them when it starts, and again when it is told of a change:
//
//	const sheet = await currentSheet(pad);        // null: nothing is stored; a sheet then offers the demonstration (pad.first)
//	pad.store?.listen(({ table }) => { if (table === 'sheets') ... });
//
// useOnWorksheet puts settings on the worksheet that is open; it comes with its next opening, and at once in a window that shows it.

/** @typedef {{settings: import('../furrow.js').Settings, drawn: string, requirement: string, edition: string, values: {symbol: string, value: number | null, unit: string}[]}} InUse */
/** @typedef {InUse & {id: string, name: string, word: string, trace: {profile: import('../furrow.js').Profile, label: string} | null}} Current */

/** The record of the worksheet that was open last. @type {(store: import('./store.js').Store | null) => Promise<any>} */
async function open(store) {
  const id = await store?.choice('sheet');
  return id ? store?.get('sheets', id) : null;
}

/** @type {(pad: import('./shell.js').Pad) => Promise<Current | null>} */
export async function currentSheet({ store }) {
  const record = await open(store);
  if (!store || !record?.use) return null;
  const trace = await store.get('traces', record.use.drawn);
  return { ...record.use, id: record.id, name: record.name, word: record.word, trace: trace ? { profile: trace.profile, label: trace.label } : null };
}

/** Puts settings on the worksheet that is open, as one change that can be undone there. False without one. @type {(pad: import('./shell.js').Pad, settings: import('../furrow.js').Settings) => Promise<boolean>} */
export async function useOnWorksheet({ store }, settings) {
  const record = await open(store);
  if (!store || !record) return false;
  const { name, parameters, exclude, crop, ...own } = settings;
  const traces = await store.tracesOf(record.id);
  await store.putSheet({ ...record, past: [...record.past, record.state], future: [], state: { ...record.state, row: '', view: null, settings: { ...record.state.settings, ...own } }, changed: Date.now() }, traces);
  return true;
}
