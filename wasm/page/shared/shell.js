// What every sheet of the pad starts with. A sheet calls openPad with its root and gets a Pad: the parts of the page, the calculation in
// its worker, what the module knows (catalogue, demonstration), the store, and places to say what is kept and what went wrong. The frame of
// each page (sheets/frame.html) has the parts that are used here: announce, kept, version, foot-caution.
import { fetchParts, known } from './begin.js';
import { Client } from './client.js';
import { el, fill } from './dom.js';
import { Kept } from './kept.js';
import { style } from './numbers.js';
import { offline } from './offline.js';
import { Parts } from './parts.js';
import { Store } from './store.js';

/** @typedef {import('../furrow.js').Catalogue} Catalogue */
/** @typedef {import('../furrow.js').Demo} Demo */
/** What every sheet starts with. @typedef {{version: {furrow: string, go: string, maxBytes: number}, catalogue: Catalogue, demos: Demo[]}} Start */

export class Pad {
  /**
   * @param {Parts} at
   * @param {Client} client
   * @param {Store | null} store null where the browser does not allow one
   * @param {unknown} refusal why there is no store
   * @param {Start} start
   */
  constructor(at, client, store, refusal, start) {
    this.at = at;
    this.client = client;
    this.store = store;
    this.refusal = refusal;
    /** The line in the head that says what is kept. */
    this.kept = new Kept(at);
    this.version = start.version;
    this.catalogue = start.catalogue;
    this.demos = start.demos;
    /** What the demonstration opens with. */
    this.first = start.demos[0];
    /** The record of the sheet as the bytes of its file, null where the page has no sheet of values. @type {() => Promise<Uint8Array | null>} */
    this.record = async () => null;
  }

  /** The trace that the demonstration opens with. @type {() => Promise<Demo & {profile: import('../furrow.js').Profile}>} */
  demo() {
    return this.client.call('demo', this.first.key);
  }

  /** Says below the head what went wrong, with what can be done; an empty message takes it away. @type {(message: string, ...acts: HTMLElement[]) => void} */
  trouble(message, ...acts) {
    trouble(this.at, message, ...acts);
  }
}

/** @type {(at: Parts, message: string, ...acts: HTMLElement[]) => void} */
function trouble(at, message, ...acts) {
  const box = at.find('trouble') ?? at.byId('main').insertAdjacentElement('afterbegin', el('div', { class: 'trouble', id: 'trouble', role: 'alert' }));
  if (!(box instanceof HTMLElement)) return;
  fill(box, message && el('p', {}, message), acts.length > 0 && el('p', { class: 'acts' }, ...acts));
  box.hidden = !message;
}

/**
 * Starts a sheet: use gets the pad. The calculation starts beside it, or with a memo when the memo does not know an answer. What fails is said on
 * the page.
 * @type {(root: ParentNode, use: (pad: Pad) => unknown, memo?: typeof import('./memo.js').Memo) => Promise<void>}
 */
export async function openPad(root, use, memo) {
  const at = new Parts(root);
  try {
    /** @type {unknown} */
    let refusal = null;
    const opening = Store.open().catch((error) => void (refusal = error));
    const client = new Client(fetchParts);
    const main = at.byId('main');
    client.onwork = (busy) => main.setAttribute('aria-busy', String(busy));
    const told = await known;
    if (told && memo) client.memo = new memo(told);
    else client.begin();
    const start = told?.start ?? (await client.call('start'));
    style.inches = start.catalogue.inches;
    const pad = new Pad(at, client, (await opening) ?? null, refusal, start);
    if (pad.store) pad.store.onclosed = () => pad.trouble('Another window has a newer furrow. Reload this page to go on.');
    client.onrestart = () => pad.trouble('The calculation stopped and was started again. Nothing you typed is lost.');
    at.byId('foot-caution').textContent = pad.catalogue.caution;
    await use(pad);
    client.begin();
    await client.started;
    const { furrow, go } = /** @type {Start['version']} */ (await client.call('version'));
    if (furrow !== pad.version.furrow || go !== pad.version.go) throw new Error(`files of two versions are mixed, ${furrow} and ${pad.version.furrow}`);
    at.byId('version').textContent = `${furrow}, ${go.replace('go', 'Go ')}`;
    await client.second();
    // Not before the first values: what is fetched for later must not slow them.
    setTimeout(() => offline(pad).catch(() => {}), 1000);
  } catch (error) {
    trouble(at, typeof WebAssembly === 'undefined' ? 'This page needs WebAssembly, because the whole calculation happens on this device. Nothing was sent.'
      : `The calculation could not be started: ${/** @type {Error} */ (error).message}. Reload the page to try again; nothing was sent.`);
    at.byId('version').textContent = 'did not start';
  }
}
