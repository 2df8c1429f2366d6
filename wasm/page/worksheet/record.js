// Step 8, record: the page as it prints, made by the module from the whole sheet, the fields that people fill in on it, and the ways to keep
// it or to pass it on.
import { el, fill, Step } from '../shared/dom.js';
import { style } from '../shared/numbers.js';
import { copyText, give } from './files.js';
import { shown } from './state.js';

/** @typedef {import('./sheet.js').Sheet} Sheet */
/** @typedef {import('../furrow.js').RecordAnswer} RecordAnswer */
/** @typedef {import('../furrow.js').RecordForm} RecordForm */

/** The fields of the record, and those of a row of their own. @type {readonly (readonly [string, string, boolean?])[]} */
const fields = [
  ['part', 'Part'], ['place', 'Place of the trace'], ['direction', 'Direction'], ['instrument', 'Instrument'], ['tip', 'Tip'], ['check', 'Specimen check'], ['operator', 'Operator'],
  ['date', 'Date of the trace'], ['signature', 'Signature'], ['remarks', 'Remarks', true],
];

/** All that a record is made of. @type {(sheet: Sheet) => {sheet: import('../furrow.js').Sheet, profiles: import('../furrow.js').Profile[]}} */
export function whole(sheet) {
  const { state, series } = sheet;
  const { exclude, input: _, invert: __, ...bare } = sheet.compose();
  const made = (/** @type {string} */ id) => {
    const { input, invert } = sheet.way(id);
    return { ...bare, ...(input && { input }), ...(invert && { invert }) };
  };
  const settings = made(series.judged[0] ?? sheet.trace?.id ?? '');
  const { text, options } = sheet.asking;
  return {
    profiles: state.traces.map((t) => t.profile),
    sheet: {
      name: sheet.name, invented: state.traces.some((t) => t.demo || t.made),
      asked: { text, edition: options.edition, rule: state.rule, agreed: state.agreed, ...(state.u ? { u: state.u, k: options.k, prove: options.prove, guard: options.guard } : {}) },
      typed: state.values.filter((v) => !(v.id in state.out)).map((v) => ({ text: `${v.symbol} ${v.text}`, from: v.from })),
      file_open: [...sheet.fileOpen], settings, blanks: state.blanks, check: sheet.check,
      traces: state.traces.map((t) => ({
        name: t.label, spacing: t.profile.spacing, file: t.file ?? null, hints: t.hints ?? null, left_out: state.out[t.id] ?? series.refused(t),
        settings: state.parts[t.id] || JSON.stringify(made(t.id)) !== JSON.stringify(settings) ? { ...made(t.id), ...(state.parts[t.id] && { exclude: state.parts[t.id] }) } : null, notes: t.reading?.notes ?? [],
      })),
    },
  };
}

/** @type {(sheet: Sheet, pad: import('../shared/shell.js').Pad) => void} */
export function record(sheet, pad) {
  const { at, client } = sheet;
  const { store } = pad;
  const step = new Step(at, 'record');
  const paper = at.byId('record-page');
  const said = at.byId('record-said');
  let made = '';
  /** The word of the verdict on it. @type {string | undefined} */
  let word;
  let asked = '';
  let pause = 0;

  // What people fill in, kept apart from what the module makes.
  const blanks = el('dl', { class: 'blank' }, ...fields.map(([key, words, wide]) => {
    const id = `record-${key}`;
    const field = key === 'signature' ? el('span', { id }) : el('input', { type: 'text', id, maxlength: 200, autocomplete: 'off', onchange: () => sheet.change({ blanks: { ...sheet.state.blanks, [key]: at.input(id).value.trim() } }, { field: id }) });
    return el('div', wide ? { class: 'wide' } : {}, el('dt', {}, key === 'signature' ? words : el('label', { for: id }, words)), el('dd', {}, field));
  }));
  fill(paper, blanks);

  /** Asks for the record in some forms. @type {(want: RecordForm[]) => Promise<RecordAnswer>} */
  const ask = async (want) => {
    await client.memo?.confirmed(); // nothing leaves that is known only from before
    const { sheet: all, profiles } = whole(sheet);
    return client.call('record', all, profiles, { want, comma: style.mark === ',', inch: style.inch });
  };

  pad.record = async () => (sheet.evaluation || sheet.state.values.length ? new TextEncoder().encode((await ask(['json'])).forms.json) : null);

  /** By what the page on paper is known, but for what people fill in on it. */
  const key = () => {
    const { blanks: _, view: __, show: ___, drawn: ____, ...rest } = sheet.state;
    return JSON.stringify([{ ...rest, traces: rest.traces.map((t) => t.id), required: rest.required?.text }, sheet.typed, sheet.fileOpen, sheet.name, sheet.check]);
  };

  // The record takes the latest kept check of the instrument it names, not later than the day of the trace.
  let sought = '';
  async function seek(anew = false) {
    const { instrument = '', date = '' } = sheet.state.blanks;
    const now = JSON.stringify([instrument, date]);
    if (now === sought && !anew) return;
    sought = now;
    const list = store && instrument ? await store.checks(instrument) : [];
    if (sought !== now) return;
    const last = list.filter((c) => c.documents.specimen && (!/^\d{4}-\d{2}-\d{2}$/.test(date) || c.date <= date)).at(-1);
    const check = last ? { name: last.fields['specimen-number'] || 'specimen', date: last.date, word: last.documents.specimen.word } : null;
    if (sheet.kept?.id === last?.id && JSON.stringify(check) === JSON.stringify(sheet.check)) return;
    sheet.kept = last ?? null;
    sheet.check = check;
    sheet.redraw();
  }
  store?.listen(({ table }) => table === 'checks' && seek(true));
  sheet.renders(() => void seek().catch(() => {})); // without it the record says that no check is kept

  // Makes the page on paper when the sheet has settled. Until then it is told to be old, and while there is no verdict it says nothing.
  async function make() {
    const now = key();
    if (now === made) return;
    asked = now;
    try {
      await client.memo?.confirmed();
      // In the worker beside: a record evaluates every trace again, and nothing waits for it.
      const { sheet: all, profiles } = whole(sheet);
      const answer = /** @type {RecordAnswer | null} */ (await client.beside(() => asked === now, 'record', all, profiles, { want: ['article'], comma: style.mark === ',', inch: style.inch }));
      if (asked !== now || key() !== now || sheet.settled !== sheet.state) return;
      const page = new DOMParser().parseFromString(answer?.forms.article ?? '', 'text/html').querySelector('article');
      if (!page) return;
      const place = page.querySelector('dl.blank') ?? page.lastElementChild;
      const [before, after] = [[], []].map(() => /** @type {Node[]} */ ([]));
      let past = false;
      for (const child of [...page.children]) {
        if (child === place) past = true;
        else (past ? after : before).push(document.importNode(child, true));
      }
      for (const e of before) {
        const name = e instanceof Element && e.querySelector('h1');
        if (name) name.replaceWith(el('h2', {}, name.textContent)); // the page has one h1
      }
      for (const old of [...paper.childNodes]) if (old !== blanks) old.remove();
      blanks.before(...before);
      blanks.after(...after);
      for (const t of paper.querySelectorAll('table')) wideTable(t);
      made = now;
      word = sheet.verdict?.word;
      paper.removeAttribute('data-old');
    } catch (error) {
      if (asked === now) empty(`The record cannot be made: ${/** @type {Error} */ (error).message}.`);
    }
  }

  /** @param {string} why */
  function empty(why) {
    for (const old of [...paper.childNodes]) if (old !== blanks) old.remove();
    blanks.before(el('p', { class: 'why-none' }, why));
    made = '';
    word = sheet.verdict?.word;
  }

  sheet.renders(() => {
    for (const [k] of fields) {
      const field = at.find(`record-${k}`);
      if (field instanceof HTMLInputElement && field !== document.activeElement) {
        field.value = sheet.state.blanks[k] ?? '';
        if (k === 'check') field.placeholder = sheet.check ? `${sheet.check.name}, ${sheet.check.date}: ${sheet.check.word}` : '';
      }
    }
    const { verdict } = sheet;
    const none = !sheet.evaluation && !sheet.state.values.length;
    step.gist.textContent = none ? 'There are no values yet' : `${verdict?.word ?? 'No verdict yet'}, ${sheet.name}`;
    if (none) {
      empty('There are no values yet.');
      return;
    }
    if (key() === made) return;
    paper.setAttribute('data-old', '');
    // No word on paper that is not the word of the verdict.
    if (verdict?.word !== word) empty(verdict ? 'The record is being made.' : 'The record follows when the requirement is read.');
    clearTimeout(pause);
    pause = setTimeout(make, 250);
  }, step.root);

  // The ways to keep it.
  at.press('record-print', () => {
    /** @type {HTMLDetailsElement} */ (at.byId('record')).open = true;
    make().then(() => print());
  });
  addEventListener('beforeprint', () => {
    /** @type {HTMLDetailsElement} */ (at.byId('record')).open = true;
  });
  /** @type {(id: string, act: () => Promise<string>) => void} */
  const way = (id, act) => at.press(id, () => {
    said.textContent = '';
    act().then((words) => void (said.textContent = words), (error) => void (said.textContent = `That did not work: ${error.message}.`));
  });
  way('record-save', async () => {
    const { forms } = await ask(['html']);
    give(`${fileName(sheet)}.html`, 'text/html', forms.html ?? '');
    return 'The record is saved: one file that opens without a network.';
  });
  for (const [id, form, type] of /** @type {const} */ ([['record-csv', 'csv', 'text/csv'], ['record-json', 'json', 'application/json']])) {
    way(id, async () => {
      const { forms } = await ask([form]);
      give(`${fileName(sheet)}.${form}`, type, forms[form] ?? '');
      return `Saved as ${form.toUpperCase()}.`;
    });
  }
  way('record-points', async () => {
    const { points } = await ask(['points']);
    (points ?? []).forEach((text, i) => give(`${fileName(sheet)}-points-${i + 1}.txt`, 'text/plain', text));
    return `Saved: the points of ${points?.length === 1 ? 'one trace' : `${points?.length} traces`}.`;
  });
  way('record-copy', async () => {
    const { forms } = await ask(['tsv', 'table']);
    const [text, html] = [forms.tsv ?? '', forms.table ?? ''];
    const rows = text.trimEnd().split('\n').length;
    const words = `Copied: ${rows} rows, decimal ${style.mark === '.' ? 'point' : 'comma'}.`;
    return (await copyText(text, html)) ? words : 'This browser does not let a page copy. Select the table below and copy it.';
  });
  way('record-svg', async () => {
    give(`${fileName(sheet)}.svg`, 'image/svg+xml', (await standalone(sheet)).svg);
    return 'The picture is saved as SVG.';
  });
  way('record-png', async () => {
    const { svg, width, height } = await standalone(sheet);
    const image = new Image();
    image.src = URL.createObjectURL(new Blob([svg], { type: 'image/svg+xml' }));
    await image.decode();
    const canvas = el('canvas', { width: 2 * width, height: 2 * height });
    canvas.getContext('2d')?.drawImage(image, 0, 0, 2 * width, 2 * height);
    URL.revokeObjectURL(image.src);
    const blob = await new Promise((done) => canvas.toBlob(done, 'image/png'));
    give(`${fileName(sheet)}.png`, 'image/png', blob);
    return 'The picture is saved as PNG.';
  });
}

/** The drawn picture as a file of its own: light, with its title and the settings. @type {(sheet: Sheet) => Promise<import('../furrow.js').Figure>} */
const standalone = async (sheet) => {
  await sheet.client.memo?.confirmed();
  const main = sheet.state.asked.flatMap((a) => sheet.value(a) ?? []).map((v) => `${v.symbol} ${shown(v)}`);
  const gist = (/** @type {string} */ id) => sheet.at.byId(id).querySelector('.gist')?.textContent ?? '';
  const notes = [`${sheet.name}, ${sheet.trace?.label}: ${main.join(', ')}.${sheet.trace?.demo ? ' Invented data. Not a measurement.' : ''}`, `${sheet.edition.title}. ${['primary', 'filters', 'profile'].map(gist).join('. ')}.`, sheet.catalogue.caution];
  return sheet.client.call('figure', 'strip', { width: 784, id: 'picture', comma: style.mark === ',', inch: style.inch, symbol: sheet.series.symbols[0], standalone: true, notes });
};

/** @type {(sheet: Sheet) => string} */
const fileName = (sheet) => sheet.name.replace(/[^\p{L}\p{N} ._-]+/gu, '-').slice(0, 80) || 'record';

/** A table that is wider than a phone scrolls by itself. @param {HTMLTableElement} table */
function wideTable(table) {
  const box = el('div', { class: 'wide', tabindex: 0, role: 'region', 'aria-label': table.caption?.textContent ?? 'Table' });
  table.replaceWith(box);
  box.append(table);
}
