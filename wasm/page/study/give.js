// What goes to the worksheet, and only when it is asked for: the surface as a trace, or the setting.
import { el, fill } from '../shared/dom.js';
import { newId } from '../shared/store.js';
import { form, latestRecord } from '../worksheet/keeper.js';
import { blank, nameOf, rowKey, without } from '../worksheet/state.js';

/** @typedef {import('./study.js').Study} Study */
/** @typedef {import('../worksheet/state.js').Trace} Trace */
/** @typedef {import('../worksheet/keeper.js').StoredState} StoredState */

/** @type {(study: Study) => void} */
export function give(study) {
  const { at, pad } = study;
  const say = (/** @type {string} */ text, done = false) => {
    const box = at.byId('given-said');
    fill(box, text, done && ' ', done && el('a', { href: 'index.html' }, 'To the worksheet'));
    box.hidden = false;
  };

  /** Changes the stored worksheet, or begins one; its undo leads back. @type {(change: (state: StoredState, traces: Trace[]) => StoredState, added?: Trace[]) => Promise<boolean>} */
  const alter = async (change, added = []) => {
    const { store } = pad;
    if (!store) {
      say('This browser does not let the page keep a worksheet, so nothing can be taken there.');
      return false;
    }
    const there = await latestRecord(pad);
    const id = there?.id ?? newId();
    const traces = /** @type {Trace[]} */ (/** @type {unknown} */ (there ? await store.tracesOf(id) : []));
    const from = there?.state ?? { ...blank, traces: [], required: null };
    const state = change(from, traces);
    const all = [...traces, ...added];
    const name = nameOf({ ...blank, ...state, required: null, traces: state.traces.flatMap((t) => all.filter((x) => x.id === t)) });
    await store.putSheet({ typed: '', hidden: [], ...there, id, form, name, word: 'No verdict yet', changed: Date.now(), furrow: pad.version.furrow, state, past: there ? [...there.past, from] : [], future: [] }, all.map((t) => ({ ...t, sheet: id })));
    if (!there) await store.choose('sheet', id);
    return true;
  };
  /** @type {(act: () => Promise<unknown>) => Promise<void>} */
  const trying = async (act) => {
    try {
      await act();
    } catch (error) {
      say(`Nothing was taken: ${/** @type {Error} */ (error).message}.`);
    }
  };

  at.press('to-worksheet', () => trying(async () => {
    const { state } = study;
    const { z, spacing } = await study.beside(() => true, { do: 'surface', state });
    const of = state.surface === 'demo' ? pad.demos.find((d) => d.key === state.demo)?.title : state.surface === 'sheet' ? study.ofSheet?.name : state.surface === 'typed' ? 'typed heights' : 'a made surface';
    /** @type {Trace} */
    const trace = { id: newId(), profile: { z: Float64Array.from(z), spacing, name: 'made in Study' }, label: 'made in Study', origin: `Made in Study: ${of}. No measured trace`, note: '', demo: '', reading: null };
    const done = await alter((sheet, traces) => {
      const own = sheet.traces.flatMap((id) => traces.filter((t) => t.id === id));
      const stay = without({ ...blank, traces: own }) ? [] : sheet.traces;
      return { ...sheet, traces: [...stay, trace.id], drawn: trace.id, view: null };
    }, [trace]);
    if (done) say('The surface is on the worksheet, labelled “made in Study”.', true);
  }));

  at.press('study-take', () => trying(async () => {
    const { state, edition } = study;
    const kind = state.filter?.kind ?? (state.surface === 'made' || state.surface === 'typed' ? 'none' : 'class');
    if (kind === 'none') return say('Nothing is filtered here, so there is no setting to take. Choose a class first.');
    const { number, length, start } = state.sections ?? {};
    const done = await alter((sheet) => {
      const { short, long, sections, section, start: _, ...rest } = sheet.settings;
      const name = state.filter?.class || edition.rows[edition.default]?.name;
      const i = edition.rows.findIndex((r) => (name ? r.name === name || String(r.long / 1000) === name : false));
      return {
        ...sheet, row: kind === 'class' && i >= 0 ? rowKey(edition.rows[i], i) : sheet.row,
        settings: {
          ...rest, edition: edition.id,
          ...(kind === 'own' && { long: state.filter?.long ? { ...long, cutoff: state.filter.long * 1000 } : null, short: state.filter?.short ? { ...short, cutoff: state.filter.short } : null }),
          ...(number && { sections: number }), ...(length && { section: length * 1000 }), ...(start !== undefined && { start: start * 1000 }),
        },
      };
    });
    if (done) say('Filter and sections are on the worksheet as they are here. Undo there leads back.', true);
  }));
  study.renderers.push(() => {
    if (!study.live) at.byId('given-said').hidden = true;
  });
}
