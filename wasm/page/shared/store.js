// The store of the pad: everything that is kept lies in one IndexedDB database of this browser, shared by the four sheets, and nothing of it
// leaves the device. A sheet gets it as pad.store, null where the browser does not allow one. A record that is put whole replaces the one
// before it; what belongs together is put in one transaction, so a crash leaves either the old or the new. Other windows are told of each
// change: listen calls back with the table and the key.
//
// Tables, each with its key:
//   sheets    id      worksheets: {id, form, name, word, changed, ...} as worksheet/keeper.js writes them
//   traces    id      traces of sheets, written once: {id, sheet, profile, bytes, ...}, index sheet
//   settings  id      saved settings: {id, name, words, settings}
//   checks    id      instrument checks, for check/: {id, instrument, date, ...}, index instrument
//   choices   (name)  single values: the reader's decimal mark and units, the sheet that was open last, and what the calculation answered to it
//
// To change the form of the database add a step to migrations; steps that were released never change. The tests hold a database of each
// released form and open it.
import { openDB } from '../vendor/idb/idb.js';

/** @typedef {'sheets' | 'traces' | 'settings' | 'checks'} Table */
/** @typedef {{id: string, form: number, name: string, word: string, changed: number, [more: string]: unknown}} StoredSheet */
/** @typedef {{id: string, sheet: string, [more: string]: unknown}} StoredTrace */
/** @typedef {{id: string, name: string, words: string, settings: import('../furrow.js').Settings}} StoredSettings */
/** @typedef {{table: string, key: string, kind: 'put' | 'removed' | 'hello' | 'here' | 'bye', window: string}} News */

/** One step for each form of the database. @type {((db: any) => void)[]} */
const migrations = [
  (db) => {
    db.createObjectStore('sheets', { keyPath: 'id' });
    db.createObjectStore('traces', { keyPath: 'id' }).createIndex('sheet', 'sheet');
    db.createObjectStore('settings', { keyPath: 'id' });
    db.createObjectStore('checks', { keyPath: 'id' }).createIndex('instrument', 'instrument');
    db.createObjectStore('choices');
  },
];

/** A new key. */
export const newId = () => crypto.randomUUID();

export class Store {
  /** Opens the database; the error is the browser's, such as SecurityError. */
  static async open() {
    /** @type {Store | undefined} */
    let store;
    const db = await openDB('furrow', migrations.length, {
      upgrade: (base, from) => migrations.slice(from).forEach((step) => step(base)),
      // Another window brings a newer form: it must not wait for this one.
      blocking: () => {
        db.close();
        store?.onclosed();
      },
    });
    return (store = new Store(db));
  }

  /** Tells windows apart. */
  window = newId();
  /** Traces that were put here. @type {Set<string>} */
  #written = new Set();
  /** The database was closed, because another window has a newer furrow. */
  onclosed = () => {};
  #channel = new BroadcastChannel('furrow');

  /** @param {any} db */
  constructor(db) {
    this.db = db;
  }

  /** @type {(table: Table) => Promise<any[]>} */
  all(table) {
    return this.db.getAll(table);
  }

  /** @type {(table: Table, id: string) => Promise<any>} */
  get(table, id) {
    return this.db.get(table, id);
  }

  /** @type {(table: Table, record: {id: string, [more: string]: unknown}) => Promise<void>} */
  async put(table, record) {
    await this.db.put(table, record);
    this.tell({ table, key: record.id, kind: 'put' });
  }

  /** @type {(table: Table, id: string) => Promise<void>} */
  async remove(table, id) {
    await this.db.delete(table, id);
    this.tell({ table, key: id, kind: 'removed' });
  }

  /** A single value, undefined where there is none. @type {(name: string) => Promise<any>} */
  choice(name) {
    return this.db.get('choices', name);
  }

  /** @type {(name: string, value: unknown) => Promise<void>} */
  async choose(name, value) {
    const tx = this.db.transaction('choices', 'readwrite');
    const asked = tx.objectStore('choices').put(value, name);
    tx.commit(); // a page that is left ends before the store answers
    await Promise.all([asked, tx.done]);
    this.tell({ table: 'choices', key: name, kind: 'put' });
  }

  /** The checks of an instrument, or all, the latest last. @type {(instrument?: string) => Promise<any[]>} */
  async checks(instrument) {
    const list = instrument === undefined ? await this.all('checks') : await this.db.getAllFromIndex('checks', 'instrument', instrument);
    return list.sort((/** @type {{date: string}} */ a, /** @type {{date: string}} */ b) => (a.date < b.date ? -1 : 1));
  }

  /**
   * Puts a sheet with the traces it needs; what the store has of its other traces goes. A page that is left ends before the store answers: with leaving
   * all is asked for at once, and what is not needed goes the next time.
   * @type {(sheet: StoredSheet, traces: Iterable<StoredTrace>, leaving?: boolean) => Promise<void>}
   */
  async putSheet(sheet, traces, leaving = false) {
    const list = [...traces];
    const tx = this.db.transaction(['sheets', 'traces'], 'readwrite');
    const table = tx.objectStore('traces');
    const asked = [tx.objectStore('sheets').put(sheet)];
    if (leaving) {
      asked.push(...list.filter((t) => !this.#written.has(t.id)).map((t) => table.put(t)));
      tx.commit();
    } else {
      const there = new Set(await table.index('sheet').getAllKeys(sheet.id));
      for (const t of list) if (!there.delete(t.id)) asked.push(table.put(t));
      for (const id of there) asked.push(table.delete(id));
    }
    await Promise.all([...asked, tx.done]);
    for (const t of list) this.#written.add(t.id);
    this.tell({ table: 'sheets', key: sheet.id, kind: 'put' });
  }

  /** @type {(sheet: string) => Promise<StoredTrace[]>} */
  tracesOf(sheet) {
    return this.db.getAllFromIndex('traces', 'sheet', sheet);
  }

  /** Removes a sheet with its traces, and answers that may be its own. @type {(id: string) => Promise<void>} */
  async removeSheet(id) {
    const tx = this.db.transaction(['sheets', 'traces', 'choices'], 'readwrite');
    const table = tx.objectStore('traces');
    const keys = await table.index('sheet').getAllKeys(id);
    await Promise.all([tx.objectStore('sheets').delete(id), tx.objectStore('choices').delete('answers'), ...keys.map((/** @type {string} */ key) => table.delete(key)), tx.done]);
    this.tell({ table: 'sheets', key: id, kind: 'removed' });
  }

  /** Tells the other windows. @type {(news: Omit<News, 'window'>) => void} */
  tell(news) {
    this.#channel.postMessage({ ...news, window: this.window });
  }

  /** What other windows tell. @type {(hear: (news: News) => void) => void} */
  listen(hear) {
    this.#channel.addEventListener('message', ({ data }) => hear(data));
  }
}
