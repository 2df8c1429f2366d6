// Open, save, settings: the sheets of this device, records, saved settings, the link, and how things are shown.
import { html, render } from '../vendor/lit-html/lit-html.js';
import { mm } from '../shared/numbers.js';
import { newId } from '../shared/store.js';
import { copyText, give } from './files.js';
import { linkOf } from './link.js';
import { blank, display } from './state.js';

/** @typedef {import('./sheet.js').Sheet} Sheet */
/** @typedef {import('../shared/store.js').StoredSheet} StoredSheet */
/** @typedef {import('../shared/store.js').StoredSettings} StoredSettings */

/** What is refused of an imported file, in words. */
const foreign = 'This file holds no settings of furrow.';

/** @type {(sheet: Sheet, pad: import('../shared/shell.js').Pad, keeper: import('./keeper.js').Keeper, acts: {demo: () => void}) => void} */
export function menu(sheet, pad, keeper, { demo }) {
  const { at } = sheet;
  const { store } = pad;
  const button = at.byId('sheet-file');
  const box = at.byId('sheet-menu');
  /** Sheets and settings that were removed since the menu was opened: they can come back. @type {Map<string, () => Promise<unknown>>} */
  const removed = new Map();
  /** Settings whose name is being changed. */
  let naming = '';

  /** @param {boolean} open */
  const show = (open) => {
    box.hidden = !open;
    button.setAttribute('aria-expanded', String(open));
    if (!open) return;
    removed.clear();
    list().then(() => /** @type {HTMLElement | null} */ (box.querySelector('button'))?.focus());
  };
  at.press('sheet-file', () => show(!!box.hidden));
  box.addEventListener('keydown', (event) => {
    if (event.key !== 'Escape') return;
    show(false);
    button.focus();
  });
  store?.listen(({ table }) => {
    if (!box.hidden && (table === 'sheets' || table === 'settings')) list();
  });

  async function list() {
    if (!store) {
      render(html`<caption class="vh">Sheets</caption><tbody><tr><td>This browser keeps nothing here. Save the record instead.</td></tr></tbody>`, at.byId('sheets-kept'));
      return;
    }
    await keeper.flush();
    const sheets = /** @type {StoredSheet[]} */ (await store.all('sheets')).sort((a, b) => b.changed - a.changed);
    render(html`<caption class="vh">Sheets on this device</caption><thead><tr><th scope="col">Name</th><th scope="col">Verdict</th><th scope="col">Changed</th><td></td></tr></thead>
      <tbody>${sheets.length ? sheets.map((s, i) => html`<tr><th scope="row">${s.name}${s.id === keeper.id ? ' (open)' : ''}</th><td>${s.word}</td><td>${new Date(s.changed).toISOString().slice(0, 10)}</td>
        <td class="acts"><button type="button" class="inline" id=${`sheet-open-${i + 1}`} @click=${() => open(s.id)}>Open<span class="vh"> ${s.name}</span></button><button type="button" class="inline" id=${`sheet-copy-${i + 1}`} @click=${() => copy(s)}>Copy<span class="vh"> ${s.name}</span></button><button type="button" class="inline" id=${`sheet-remove-${i + 1}`} @click=${() => remove(s)}>Remove<span class="vh"> ${s.name}</span></button></td></tr>`)
        : html`<tr><td colspan="4">None yet.</td></tr>`}${again('sheet')}</tbody>`, at.byId('sheets-kept'));
    const saved = /** @type {StoredSettings[]} */ (await store.all('settings')).sort((a, b) => a.name.localeCompare(b.name));
    render(html`<caption class="vh">Saved settings</caption><thead><tr><th scope="col">Name</th><th scope="col">In words</th><td></td></tr></thead>
      <tbody>${saved.length ? saved.map((s, i) => html`<tr><th scope="row">${naming === s.id ? html`<form @submit=${(/** @type {Event} */ e) => rename(e, s)}><input type="text" id=${`settings-name-${i + 1}`} aria-label="Name of these settings" maxlength="120" .value=${s.name}></form>` : s.name}</th><td>${s.words}</td>
        <td class="acts"><button type="button" class="inline" id=${`settings-use-${i + 1}`} @click=${() => use(s)}>Use<span class="vh"> ${s.name}</span></button><button type="button" class="inline" id=${`settings-rename-${i + 1}`} @click=${() => name(s, i)}>Rename<span class="vh"> ${s.name}</span></button><button type="button" class="inline" id=${`settings-export-${i + 1}`} @click=${() => give(`${s.name}.json`, 'application/json', `${JSON.stringify({ ...s.settings, name: s.name }, null, 1)}\n`)}>Export<span class="vh"> ${s.name}</span></button><button type="button" class="inline" id=${`settings-remove-${i + 1}`} @click=${() => drop(s)}>Remove<span class="vh"> ${s.name}</span></button></td></tr>`)
        : html`<tr><td colspan="3">None yet.</td></tr>`}${again('settings')}</tbody>`, at.byId('settings-saved'));
  }

  /** What was removed can come back while the menu is open. @type {(what: string) => unknown} */
  const again = (what) => [...removed].filter(([id]) => id.startsWith(what)).map(([id, back]) => html`<tr><td colspan="4">Removed: ${id.split('\t')[1]}. <button type="button" class="inline" @click=${() => back().then(() => (removed.delete(id), list()))}>Bring it back</button></td></tr>`);

  /** @param {string} id */
  async function open(id) {
    await keeper.flush();
    if (await keeper.load(id)) show(false);
    at.byId('sheet-name').focus();
  }

  /** @param {StoredSheet} s */
  async function copy(s) {
    if (!store) return;
    const id = newId();
    const traces = await store.tracesOf(s.id);
    const ids = new Map(traces.map((t) => [t.id, newId()]));
    // All that names a trace names its copy.
    const text = JSON.stringify(s, (key, v) => (typeof v === 'string' && key !== 'id' ? (ids.get(v) ?? v) : v && typeof v === 'object' && !Array.isArray(v) ? Object.fromEntries(Object.entries(v).map(([k, x]) => [ids.get(k) ?? k, x])) : v));
    await store.putSheet({ ...JSON.parse(text), id, name: `${s.name}, copy`, state: { ...JSON.parse(text).state, name: `${s.name}, copy` }, changed: Date.now() }, traces.map((t) => ({ ...t, id: ids.get(t.id) ?? t.id, sheet: id })));
    list();
  }

  /** @param {StoredSheet} s */
  async function remove(s) {
    if (!store) return;
    const traces = await store.tracesOf(s.id);
    await store.removeSheet(s.id);
    removed.set(`sheet\t${s.name}\t${s.id}`, () => store.putSheet(s, traces));
    if (s.id === keeper.id) {
      keeper.fresh();
      demo();
    }
    list();
  }

  at.press('sheet-new', async () => {
    await keeper.flush();
    keeper.fresh();
    demo();
    show(false);
    at.byId('requirement-text').focus();
  });

  // Saved settings.
  const form = /** @type {HTMLFormElement} */ (at.byId('settings-form'));
  const said = at.byId('settings-said');
  at.press('settings-save', () => {
    form.hidden = false;
    at.input('settings-name').value = sheet.name;
    at.input('settings-name').select();
  });
  form.addEventListener('submit', async (event) => {
    event.preventDefault();
    const given = at.input('settings-name').value.trim();
    if (!given || !store) return;
    const { exclude, parameters, name: _, ...settings } = sheet.compose();
    await store.put('settings', { id: newId(), name: given, words: inWords(settings), settings: { ...settings, parameters: sheet.state.asked } });
    form.hidden = true;
    said.textContent = `Saved: ${given}.`;
    at.byId('settings-save').focus();
    list();
  });

  /** @type {(s: import('../furrow.js').Settings) => string} */
  function inWords(s) {
    const edition = sheet.catalogue.editions.find((e) => e.id === s.edition) ?? sheet.edition;
    const long = s.long === null ? 'no L-filter' : `L-filter ${mm(s.long?.cutoff ?? sheet.row.long)}${s.long?.filter ? ` ${sheet.catalogue.filters.find((f) => f.key === s.long?.filter)?.name ?? s.long.filter}` : ''}`;
    return [edition.title, long, s.form && `form ${s.form.kind}`, s.sections && `${s.sections} sections`].filter(Boolean).join(', ');
  }

  /** @param {StoredSettings} s */
  function use(s) {
    const { parameters, name: _, edition, ...settings } = s.settings;
    // Settings of their own take the place of what the requirement asks for; the verdict says that they deviate.
    sheet.change({ row: '', view: null, settings: { ...settings, ...(edition ? { edition } : {}) }, asked: parameters?.length ? parameters : sheet.state.asked });
    said.textContent = `In use: ${s.name}.`;
  }

  /** @type {(s: StoredSettings, i: number) => void} */
  function name(s, i) {
    naming = s.id;
    list().then(() => at.input(`settings-name-${i + 1}`).select());
  }

  /** @type {(event: Event, s: StoredSettings) => Promise<void>} */
  async function rename(event, s) {
    event.preventDefault();
    const field = /** @type {HTMLFormElement} */ (event.target).querySelector('input');
    naming = '';
    if (field?.value.trim()) await store?.put('settings', { ...s, name: field.value.trim() });
    list();
  }

  /** @param {StoredSettings} s */
  async function drop(s) {
    await store?.remove('settings', s.id);
    removed.set(`settings\t${s.name}\t${s.id}`, () => store?.put('settings', s) ?? Promise.resolve());
    list();
  }

  const importer = at.input('settings-import-input');
  at.press('settings-import', () => importer.click());
  importer.addEventListener('change', async () => {
    const [file] = importer.files ?? [];
    importer.value = '';
    if (!file || !store) return;
    try {
      const settings = JSON.parse(await file.text());
      if (!settings || typeof settings !== 'object' || !('furrow_settings' in settings || 'edition' in settings || 'long' in settings)) throw new Error(foreign);
      if (settings.furrow_settings > 1) throw new Error(`It was written by a newer furrow (furrow_settings ${settings.furrow_settings}).`);
      // The module says whether the settings can be followed: unknown keys are refused by name.
      await sheet.client.beside(() => true, 'complete', settings);
      const called = typeof settings.name === 'string' && settings.name ? settings.name : file.name.replace(/\.json$/i, '');
      await store.put('settings', { id: newId(), name: called, words: inWords(settings), settings });
      said.textContent = `Imported: ${called}.`;
      list();
    } catch (error) {
      said.textContent = `${file.name} is not imported: ${error instanceof SyntaxError ? foreign : /** @type {Error} */ (error).message}`;
    }
  });

  for (const [id, place] of [['sheet-link', 'link-said'], ['record-link', 'record-said']]) at.press(id, async () => {
    const { address, holds } = linkOf(sheet);
    at.byId(place).textContent = (await copyText(address)) ? `Copied. The link holds ${holds}.` : `This browser does not let a page copy. The link: ${address}`;
  });

  at.radios('mark', (decimal) => {
    sheet.change({ decimal });
    store?.choose('decimal', decimal).catch(() => {});
  });
  at.radios('units', (units) => {
    sheet.change({ units: /** @type {'metric' | 'inch'} */ (units) });
    store?.choose('units', units).catch(() => {});
  });
  const ask = at.byId('clear-ask');
  at.press('clear-all', () => {
    ask.hidden = false;
    at.byId('clear-yes').focus();
  });
  at.press('clear-no', () => {
    ask.hidden = true;
    at.byId('clear-all').focus();
  });
  at.press('clear-yes', () => {
    ask.hidden = true;
    sheet.typed = '';
    sheet.ontyped('', false); // a text that is being typed goes too, and is not read later
    sheet.change({ ...blank, ...display(sheet.state) });
    at.byId('clear-all').focus();
  });
  sheet.renders(() => {
    at.showRadio('mark', sheet.state.decimal);
    at.showRadio('units', sheet.state.units);
  });
  if (!store) for (const id of ['sheet-new', 'settings-save', 'settings-import']) /** @type {HTMLButtonElement} */ (at.byId(id)).disabled = true;
}
