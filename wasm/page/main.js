// The page: starts the calculation, wires the steps together, and opens with the demonstration.
import { Client, fetchParts } from './client.js';
import { byId, el, fill, input } from './dom.js';
import { accept, radios, refuse, showRadio } from './fields.js';
import { keys } from './keys.js';
import { make } from './make.js';
import { reader } from './reader.js';
import { record } from './record.js';
import { blank, Sheet } from './sheet.js';
import { requirement } from './step1.js';
import { demoTrace, trace } from './step2.js';
import { primary } from './step3.js';
import { filters } from './step4.js';
import { profile } from './step5.js';
import { values } from './step6.js';
import { verdict } from './step7.js';

/** The control that shows what is wrong with a setting. @type {Record<string, string>} */
const controls = {
  edition: 'requirement-edition', form: 'form-kind', 'form.degree': 'form-degree', 'form.radius': 'form-radius', short: 'short-cutoff', 'short.cutoff': 'short-cutoff',
  long: 'long-cutoff', 'long.cutoff': 'long-cutoff', 'long.filter': 'long-kind', 'long.ends': 'long-ends', sections: 'sections-count', section: 'sections-length', start: 'sections-start',
  parameters: 'values-asked',
};

/** Says at the head of the sheet what went wrong. @type {(message: string) => void} */
function trouble(message) {
  const box = byId('trouble');
  fill(box, el('p', {}, message));
  box.hidden = !message;
}

async function start() {
  const client = new Client(await fetchParts());
  const sheetOnPage = /** @type {HTMLElement} */ (document.querySelector('main'));
  client.onwork = (busy) => sheetOnPage.setAttribute('aria-busy', String(busy));
  const { version, catalogue, demos, first } = await client.call('start');
  byId('block-version').textContent = `${version.furrow}, ${version.go.replace('go', 'Go ')}`;
  const sheet = new Sheet(client, catalogue, demos);
  sheet.maxBytes = version.maxBytes;

  for (const id of ['verdict-caution', 'foot-caution']) byId(id).textContent = catalogue.caution;
  requirement(sheet);
  trace(sheet, (from, to) => part.leaveOut(from, to));
  make(sheet);
  primary(sheet);
  filters(sheet);
  const part = profile(sheet);
  values(sheet);
  verdict(sheet);
  record(sheet);
  const { readText } = reader(sheet);
  head(sheet);

  const stop = () => {
    if (byId('busy').hidden) return;
    sheet.onbusy('');
    client.stop();
    sheet.lost();
  };
  byId('busy-stop').addEventListener('click', stop);
  keys(sheet, { readText, stop });
  sheet.onbusy = (what) => {
    byId('busy').hidden = !what;
    byId('busy-text').textContent = what;
  };
  client.onrestart = () => {
    sheet.lost();
    trouble('The calculation stopped and was started again. Nothing you typed is lost.');
  };
  sheet.onrefuse = (error, field) => {
    const { kind, key } = /** @type {import('./furrow.js').FurrowError} */ (error);
    if (kind === 'stopped') return;
    const at = (key && (controls[key] ?? controls[key.replace(/[[.].*/, '')])) || field;
    const said = error.message.replace(/\b(params|roughness|record|filter): /g, '').replace(/\.$/, '');
    const message = `${said[0].toUpperCase()}${said.slice(1)}. The earlier value stays in use.`;
    if (at && document.getElementById(at)) refuse(at, message);
    else trouble(message);
  };
  for (const step of document.querySelectorAll('details.step')) step.addEventListener('toggle', () => dispatchEvent(new Event('resize')));
  sheet.change({ trace: demoTrace(first) });
  sheet.begin();
}

/** Name, undo, redo, clear, decimal mark. @type {(sheet: Sheet) => void} */
function head(sheet) {
  const undo = /** @type {HTMLButtonElement} */ (byId('undo'));
  const redo = /** @type {HTMLButtonElement} */ (byId('redo'));
  const clear = byId('clear-all');
  const form = /** @type {HTMLFormElement} */ (byId('sheet-rename'));
  const title = /** @type {HTMLElement} */ (form.previousElementSibling);
  undo.addEventListener('click', () => sheet.undo());
  redo.addEventListener('click', () => sheet.redo());
  radios('mark', (decimal) => sheet.change({ decimal }));
  let sure = 0;
  clear.addEventListener('click', () => {
    if (!sure) {
      clear.textContent = 'Clear trace and settings? You can undo it.';
      sure = setTimeout(() => {
        sure = 0;
        clear.textContent = 'Clear this sheet';
      }, 6000);
      return;
    }
    clearTimeout(sure);
    sure = 0;
    clear.textContent = 'Clear this sheet';
    sheet.change({ ...blank, decimal: sheet.state.decimal });
  });
  byId('sheet-name').addEventListener('click', () => {
    form.hidden = false;
    title.hidden = true;
    input('sheet-name-text').value = sheet.name;
    input('sheet-name-text').select();
  });
  const close = () => {
    form.hidden = true;
    title.hidden = false;
    byId('sheet-name').focus();
  };
  byId('sheet-name-leave').addEventListener('click', close);
  form.addEventListener('keydown', (event) => event.key === 'Escape' && close());
  form.addEventListener('submit', (event) => {
    event.preventDefault();
    const typed = input('sheet-name-text').value.trim();
    if (typed !== sheet.name) sheet.change({ name: typed });
    close();
  });
  sheet.renderers.push(() => {
    undo.disabled = !sheet.canUndo;
    redo.disabled = !sheet.canRedo;
    showRadio('mark', sheet.state.decimal);
    byId('sheet-title').textContent = sheet.name;
    document.title = `${sheet.name} · furrow`;
    for (const bad of document.querySelectorAll('[aria-invalid=true]')) if (bad !== document.activeElement && bad.id && !bad.id.startsWith('ask-') && !bad.id.startsWith('leave-out')) bad.addEventListener('input', () => accept(bad.id), { once: true });
  });
}

start().catch((error) => {
  trouble(typeof WebAssembly === 'undefined' ? 'This page needs WebAssembly, because the whole calculation happens on this device. Nothing was sent.' : `The calculation could not be started: ${error.message}. Reload the page to try again; nothing was sent.`);
  byId('block-version').textContent = 'not started';
});
