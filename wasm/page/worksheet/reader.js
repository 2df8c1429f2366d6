// Reading a trace: from a file, a drop or pasted text; what to do when a file leaves a question open or cannot be read.
import { el, fill } from '../shared/dom.js';
import { FurrowError } from '../furrow.js';
import { died } from '../shared/client.js';
import { height, mm, parse } from '../shared/numbers.js';
import { newId } from '../shared/store.js';
import { mayBeRecord, reopening } from './reopen.js';

/** @typedef {import('./sheet.js').Sheet} Sheet */
/** @typedef {import('../furrow.js').Hints} Hints */
/** @typedef {{bytes: Uint8Array, label: string, origin: string, hints: Hints, file?: boolean, columns?: number[]}} Source */

/** Files up to this size are kept with their bytes. */
const mostKept = 20e6;

/** @type {(sheet: Sheet) => {readText: (text: string) => void}} */
export function reader(sheet) {
  const wrong = sheet.at.byId('trace-wrong');
  const question = /** @type {HTMLFormElement} */ (sheet.at.byId('trace-question'));
  const paste = sheet.at.byId('paste');
  const text = /** @type {HTMLTextAreaElement} */ (sheet.at.byId('paste-text'));
  const picker = sheet.at.input('trace-file-input');
  const reopen = reopening(sheet);

  /** What waits for an answer or cannot be read; the first is shown. @type {{source: Source, fault: FurrowError}[]} */
  let waiting = [];
  /** The question that is shown. @type {FurrowError | null} */
  let asked = null;

  // Shows the first of what waits.
  const show = () => {
    const asking = waiting.find(({ fault }) => fault.kind === 'question' && fault.questions?.length);
    const [bad, ...more] = waiting.filter((w) => w.fault.kind !== 'question');
    wrong.hidden = !bad;
    question.hidden = !asking;
    if (bad) complain(bad, more.map((w) => w.source.label));
    if (!asking) asked = null;
    if (asking) ask(asking);
    sheet.leaveOpen(waiting.flatMap(({ source, fault }) => (fault.questions ?? []).map((q) => `${source.label}, ${q.text}`)), asking?.source.label ?? '');
  };

  /** @type {(source: Source) => void} */
  const drop = (source) => {
    waiting = waiting.filter((w) => w.source !== source);
    show();
  };

  /** Questions alike are answered alike. @type {(fault: FurrowError) => string} */
  const layout = (fault) => JSON.stringify(fault.questions?.map((q) => [q.hint, q.answers.map((a) => a.text)]));

  /** One trace, or several where several columns are taken. @type {(source: Source) => Promise<import('./state.js').Trace[]>} */
  async function readOne(source) {
    const columns = source.columns ?? [undefined];
    /** @type {import('../furrow.js').FileSource | undefined} */
    let file;
    /** @type {import('./state.js').Trace[]} */
    const list = [];
    for (const column of columns) {
      const hints = column === undefined ? source.hints : { ...source.hints, z_column: column };
      const reading = await sheet.client.call('read', source.bytes, hints);
      if (source.file) file ??= { name: source.label, ...(await sheet.client.call('digest', source.bytes)) };
      const n = reading.report.lastLine;
      list.push({
        id: newId(), profile: { ...reading.profile, name: source.label }, label: source.label, origin: `${source.origin}${n ? ` of ${n} lines` : ''}${columns.length > 1 ? `, column ${column}` : ''}`,
        note: '', demo: '', reading, hints, ...(file && { file }), ...(source.bytes.length <= mostKept ? { bytes: source.bytes } : {}),
      });
    }
    return list;
  }

  /** Reads files; those that can be read come to the sheet together. @type {(sources: Source[]) => Promise<void>} */
  async function read(sources) {
    /** @type {import('./state.js').Trace[]} */
    const found = [];
    waiting = waiting.filter((w) => w.fault.kind === 'question' && !sources.some((x) => x.label === w.source.label));
    let late = 0;
    for (const [i, source] of sources.entries()) {
      clearTimeout(late);
      late = setTimeout(() => sheet.onbusy(`Reading ${source.label}, ${size(source.bytes.length)}${sources.length > 1 ? `, file ${i + 1} of ${sources.length}` : ''}`), 300);
      try {
        found.push(...(await readOne(source).catch((error) => (died(error) ? readOne(source) : Promise.reject(error)))));
      } catch (error) {
        const fault = /** @type {FurrowError} */ (error);
        if (fault.kind === 'stopped' && !died(fault)) break;
        waiting.push({ source, fault: died(fault) ? new FurrowError({ kind: 'file', message: 'the calculation stopped again with it, so it is not read. The other traces stay' }) : fault });
      }
    }
    clearTimeout(late);
    sheet.onbusy('');
    show();
    sheet.add(found);
    if (found.length > 1) sheet.at.announce(`${found.length} traces read.`);
  }

  // What the file leaves open: nothing is chosen beforehand. An answer says which hint it gives and as what, or takes a number.
  /** @type {(waits: {source: Source, fault: FurrowError}) => void} */
  function ask({ source, fault }) {
    if (asked === fault) return; // someone may be answering
    asked = fault;
    const questions = fault.questions ?? [];
    const alike = waiting.filter((w) => layout(w.fault) === layout(fault)).length - 1;
    fill(question,
      el('p', {}, el('b', {}, questions.length > 1 ? `${source.label} asks ${questions.length} questions. ` : `${source.label} asks one question. `), sheet.trace ? 'The earlier trace stays until you answer. ' : '', alike ? `The answer holds for ${alike} more file${alike > 1 ? 's' : ''} of the same layout.` : ''),
      ...questions.map((q) => {
        if (several(q)) return columnsOf(source, q);
        const id = idOf(q);
        const alone = q.answers.length === 1 && q.answers[0].value === null;
        return el('fieldset', { class: 'choices', role: 'radiogroup', id, 'data-hint': q.hint }, el('legend', {}, sentence(q.text)),
          ...q.answers.map((a, k) => {
            const said = a.value === null ? sentence(a.text) : a.text[0].toUpperCase() + a.text.slice(1);
            const radio = el('input', { type: 'radio', name: id, id: `${id}-${k + 1}`, value: k, checked: alone, hidden: alone });
            if (a.value !== null) return el('label', {}, radio, ` ${said}`, consequence(source, { [a.hint]: a.value }));
            const number = el('input', { type: 'text', class: 'n', id: `${id}-${k + 1}-number`, inputmode: 'decimal', autocomplete: 'off', 'aria-label': `${said}${a.unit && `, in ${a.unit}`}`, oninput: () => void (radio.checked = true) });
            return el('div', { class: 'row' }, el('label', {}, radio, ` ${said}`), number, a.unit && el('span', { class: 'unit' }, a.unit));
          }));
      }),
      el('p', { class: 'acts' }, el('button', { id: 'ask-answer' }, 'Read it like this'), el('button', { type: 'button', id: 'ask-skip', onclick: () => drop(source) }, 'Leave this file out')));
    question.onsubmit = (event) => {
      event.preventDefault();
      const hints = /** @type {Record<string, any>} */ ({});
      /** @type {number[] | undefined} */
      let columns;
      for (const q of questions) {
        const id = idOf(q);
        sheet.at.accept(id);
        if (several(q)) {
          columns = [.../** @type {NodeListOf<HTMLInputElement>} */ (question.querySelectorAll('[name=ask-columns]:checked'))].map((c) => Number(c.value));
          if (!columns.length) return sheet.at.refuse(id, 'Choose at least one column.');
          continue;
        }
        const checked = /** @type {HTMLInputElement | null} */ (question.querySelector(`[name="${id}"]:checked`));
        if (!checked) return sheet.at.refuse(id, 'Choose an answer.');
        const { hint, value, unit } = q.answers[Number(checked.value)];
        if (value !== null) {
          hints[hint] = value;
          continue;
        }
        const number = parse(sheet.at.input(`${checked.id}-number`).value, unit);
        if ('fault' in number) return sheet.at.refuse(id, number.fault);
        if (!(number.value > 0) || (!unit && !Number.isInteger(number.value))) return sheet.at.refuse(id, unit ? 'A number above 0 is needed.' : 'A whole number from 1 on is needed.');
        hints[hint] = number.value;
      }
      const same = waiting.filter((w) => w.source !== source && layout(w.fault) === layout(fault)).map((w) => w.source);
      waiting = waiting.filter((w) => w.source !== source && !same.includes(w.source));
      read([source, ...same].map((x) => ({ ...x, columns: columns ?? x.columns, hints: { ...x.hints, ...hints } })));
    };
    /** @type {HTMLElement | null} */ (question.querySelector('input:not([hidden])'))?.focus();
  }

  // What an answer makes of the file, where nothing else is open.
  /** @type {(source: Source, hints: Record<string, unknown>) => HTMLElement | false} */
  function consequence(source, hints) {
    if (source.bytes.length > 5e6) return false;
    const then = el('span', { class: 'then' });
    sheet.client.call('read', source.bytes, { ...source.hints, ...hints }).then(({ profile: { z, spacing } }) => {
      then.textContent = `The profile is ${height(highOf(z))} high and ${mm((z.length - 1) * spacing)} long.`;
    }, () => {});
    return then;
  }

  // Which columns are traces: one tick a column, those of heights ticked beforehand.
  /** @type {(source: Source, q: Question) => HTMLElement} */
  function columnsOf(source, q) {
    const box = el('fieldset', { class: 'choices', id: 'ask-columns', 'data-hint': q.hint }, el('legend', {}, 'Which columns are traces?'), el('p', { class: 'hint' }, 'Columns of heights are ticked. A column that rises evenly, as a length or a row number does, is not.'),
      ...q.answers.map((a) => {
        const then = el('span', { class: 'then' });
        const tick = el('input', { type: 'checkbox', name: 'ask-columns', id: `ask-columns-${a.value}`, value: Number(a.value) });
        sheet.client.call('read', source.bytes, { ...source.hints, z_column: a.value }).then(({ profile: { z } }) => {
          tick.checked = !counts(z);
          then.textContent = counts(z) ? 'It rises evenly.' : `${height(highOf(z))} high.`;
        }, () => void (then.textContent = 'Its height is known when the other questions are answered.'));
        return el('label', {}, tick, ` ${a.text[0].toUpperCase()}${a.text.slice(1)}`, then);
      }));
    return box;
  }

  // What cannot be read: where, the lines around it, and the ways on.
  /** @type {(waits: {source: Source, fault: FurrowError}, more: string[]) => void} */
  function complain({ source, fault }, more) {
    const lines = fault.line ? linesAround(source.bytes, fault.line) : [];
    const spot = fault.line && fault.column ? cell(lines.find((l) => l.number === fault.line)?.text ?? '', fault.column) : null;
    const foreign = fault.kind === 'file';
    const where = foreign ? `${source.label}: ` : fault.line ? `${source.label}, line ${fault.line}${fault.column ? `, character ${fault.column}` : ''}: ` : `${source.label} cannot be read: `;
    fill(wrong,
      el('p', {}, el('b', {}, where, `${fault.message}.`)),
      lines.length > 0 && el('table', { class: 'listing' }, el('caption', { class: 'vh' }, 'The lines around it'), el('tbody', {}, ...lines.map(({ number, text: line }) =>
        el('tr', number === fault.line ? { class: 'hit' } : {}, el('td', { class: 'num' }, String(number)),
          el('td', { class: 'typed' }, ...(number === fault.line && spot ? [line.slice(0, spot.from), el('mark', {}, line.slice(spot.from, spot.to) || ' '), line.slice(spot.to)] : [line])))))),
      el('p', {}, spot && /o|O|l|I/.test(spot.text) && /\d/.test(spot.text) ? 'A letter stands where a digit may be meant. ' : '', sheet.trace ? 'The earlier trace stays.' : '', more.length ? ` Not read either: ${more.join(', ')}.` : ''),
      el('p', { class: 'acts' },
        source.bytes.length < 2e6 && !foreign && el('button', { type: 'button', id: 'error-edit', onclick: () => correct(source, fault) }, 'Show and correct the text'),
        spot && spot.text.trim() !== '' && el('button', { type: 'button', id: 'error-gap', onclick: () => again(source, { missing: [...(source.hints.missing ?? []), spot.text.trim()] }) }, 'Treat it as a missing point'),
        el('button', { type: 'button', id: 'error-drop', onclick: () => drop(source) }, 'Leave this file out')));
    /** @type {HTMLElement | null} */ (wrong.querySelector('button'))?.focus();
  }

  /** @type {(source: Source, hints: Hints) => void} */
  const again = (source, hints) => {
    waiting = waiting.filter((w) => w.source !== source);
    read([{ ...source, hints: { ...source.hints, ...hints } }]);
  };

  /** @type {(source: Source, fault: FurrowError) => void} */
  function correct(source, fault) {
    drop(source);
    const all = new TextDecoder().decode(source.bytes);
    showPaste(true);
    text.value = all;
    const start = all.split(/\r\n|\r|\n/).slice(0, (fault.line ?? 1) - 1).join('\n').length + (fault.line && fault.line > 1 ? 1 : 0);
    text.focus();
    const at = start + Math.max(0, (fault.column ?? 1) - 1);
    text.setSelectionRange(at, at + (cell(all.slice(start).split('\n')[0], fault.column ?? 1)?.text.length ?? 0));
  }

  /** @type {(open: boolean) => void} */
  function showPaste(open) {
    paste.hidden = !open;
    sheet.at.byId('trace-paste').setAttribute('aria-expanded', String(open));
  }

  const readPaste = () => {
    const bytes = new TextEncoder().encode(text.value);
    if (mayBeRecord(bytes)) {
      showPaste(false);
      return void reopen(bytes, 'pasted record');
    }
    read([{ bytes, label: 'pasted table', origin: 'A pasted table', hints: {} }]);
  };
  /** Reads files with their names. @type {(files: Iterable<File> | null | undefined) => Promise<void>} */
  async function readFiles(files) {
    /** @type {Source[]} */
    const sources = [];
    /** @type {typeof waiting} */
    const bad = [];
    for (const file of files ?? []) {
      /** @type {Source} */
      const source = { bytes: new Uint8Array(), label: file.name, origin: `The file ${file.name}`, hints: {}, file: true };
      /** @type {(message: string) => void} */
      const refused = (message) => void bad.push({ source, fault: new FurrowError({ kind: 'file', message }) });
      if (file.size > sheet.maxBytes) refused(`a file of ${size(file.size)} is larger than the ${size(sheet.maxBytes)} that can be read here`);
      else {
        try {
          source.bytes = new Uint8Array(await file.arrayBuffer());
          sources.push(source);
        } catch { // a folder, or a file that has changed
          refused('the browser cannot open it');
        }
      }
    }
    // A record among the files is opened, the others are read as traces.
    const record = sources.find((x) => mayBeRecord(x.bytes));
    if (record) await reopen(record.bytes, record.label);
    const others = sources.filter((x) => x !== record);
    if (others.length) await read(others);
    // What was wrong with earlier files is no longer of interest, what is wrong with these is.
    else waiting = waiting.filter((w) => w.fault.kind === 'question');
    waiting.push(...bad);
    show();
  }

  const records = sheet.at.input('record-open-input');
  sheet.at.press('record-open', () => records.click());
  records.addEventListener('change', () => {
    readFiles([...(records.files ?? [])]).catch(() => {});
    records.value = '';
  });
  for (const id of ['trace-file', 'trace-add', 'empty-file']) sheet.at.byId(id).addEventListener('click', () => picker.click());
  picker.addEventListener('change', () => {
    readFiles([...(picker.files ?? [])]).catch(() => {});
    picker.value = '';
  });
  for (const id of ['trace-paste', 'empty-paste']) {
    sheet.at.byId(id).addEventListener('click', () => {
      showPaste(id === 'empty-paste' || !!paste.hidden);
      if (!paste.hidden) text.focus();
    });
  }
  sheet.at.byId('paste-read').addEventListener('click', readPaste);
  sheet.at.byId('paste-close').addEventListener('click', () => {
    showPaste(false);
    sheet.at.byId('trace-paste').focus();
  });
  text.addEventListener('keydown', (event) => {
    if (event.key === 'Escape') sheet.at.byId('paste-close').click();
    if (event.key === 'Enter' && (event.ctrlKey || event.metaKey)) readPaste();
  });

  // A drop anywhere does the same as the button.
  document.addEventListener('dragover', (event) => {
    event.preventDefault();
    document.body.classList.add('dropping');
  });
  document.addEventListener('dragleave', (event) => {
    if (!event.relatedTarget) document.body.classList.remove('dropping');
  });
  document.addEventListener('drop', (event) => {
    event.preventDefault();
    document.body.classList.remove('dropping');
    const dropped = event.dataTransfer?.getData('text/plain');
    if (event.dataTransfer?.files.length) readFiles([...event.dataTransfer.files]);
    else if (dropped) readText(dropped);
  });

  /** @type {(pasted: string) => void} */
  function readText(pasted) {
    showPaste(true);
    text.value = pasted;
    readPaste();
  }
  return { readText };
}

/** @typedef {import('../furrow.js').Question} Question */

/** A table with more than one column of heights may hold more than one trace. @type {(q: Question) => boolean} */
const several = (q) => q.hint === 'z_column' && q.answers.length > 1 && q.answers.every((a) => a.hint === 'z_column' && typeof a.value === 'number');

/** @type {(q: Question) => string} */
const idOf = (q) => (several(q) ? 'ask-columns' : `ask-${q.hint}`);

/** From the lowest to the highest point. @type {(z: Float64Array) => number} */
function highOf(z) {
  let [low, high] = [Infinity, -Infinity];
  for (const v of z) {
    if (v < low) low = v;
    if (v > high) high = v;
  }
  return high - low;
}

/** Whether heights rise by the same step from point to point, as lengths and row numbers do. @type {(z: Float64Array) => boolean} */
function counts(z) {
  const step = z[1] - z[0];
  return z.length > 2 && step !== 0 && z.every((v, i) => i === 0 || Math.abs(v - z[i - 1] - step) <= 1e-6 * Math.abs(step));
}

/** @type {(s: string) => string} */
const sentence = (s) => s[0].toUpperCase() + s.slice(1) + (/[.?!:]$/.test(s) ? '' : ':');

/** @type {(n: number) => string} */
const size = (n) => (n < 1e6 ? `${Math.ceil(n / 1000)} kB` : `${Math.round(n / 1e6)} MB`);

/** @type {(bytes: Uint8Array, line: number) => {number: number, text: string}[]} */
function linesAround(bytes, line) {
  const found = [];
  let number = 1;
  let start = 0;
  for (let i = 0; i <= bytes.length && number <= line + 1; i++) {
    const end = i === bytes.length || bytes[i] === 10 || (bytes[i] === 13 && bytes[i + 1] !== 10);
    if (!end) continue;
    if (number >= line - 1) {
      const text = new TextDecoder().decode(bytes.subarray(start, Math.min(i, start + 400))).replace(/\r$/, '').replace(/^\ufeff/, '');
      found.push({ number, text });
    }
    number++;
    start = i + 1;
  }
  return found;
}

/** The cell of a line that a column stands in. @type {(line: string, column: number) => {from: number, to: number, text: string} | null} */
function cell(line, column) {
  const characters = [...line];
  if (column < 1 || column > characters.length + 1) return null;
  const from = characters.slice(0, column - 1).join('').length;
  const marks = /[;\t|]/.test(line) ? /[;\t|]/ : /[\s;]/;
  const rest = line.slice(from).search(marks);
  const to = rest < 0 ? line.length : from + rest;
  return { from, to, text: line.slice(from, to) };
}
