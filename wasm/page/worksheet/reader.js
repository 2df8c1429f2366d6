// Reading a trace: from a file, a drop or pasted text; what to do when a file leaves a question open or cannot be read.
import { el, fill } from '../shared/dom.js';
import { FurrowError } from '../furrow.js';
import { parse } from '../shared/numbers.js';

/** @typedef {import('./sheet.js').Sheet} Sheet */
/** @typedef {import('../furrow.js').Hints} Hints */
/** @typedef {{bytes: Uint8Array, label: string, origin: string, hints: Hints}} Source */

/** @type {(sheet: Sheet) => {readText: (text: string) => void}} */
export function reader(sheet) {
  const wrong = sheet.at.byId('trace-wrong');
  const question = /** @type {HTMLFormElement} */ (sheet.at.byId('trace-question'));
  const paste = sheet.at.byId('paste');
  const text = /** @type {HTMLTextAreaElement} */ (sheet.at.byId('paste-text'));
  const picker = sheet.at.input('trace-file-input');

  const leftOut = sheet.at.byId('trace-left');

  const calm = () => {
    wrong.hidden = true;
    question.hidden = true;
    sheet.leaveOpen([]);
  };

  /** @type {(source: Source) => Promise<void>} */
  async function read(source) {
    const late = setTimeout(() => sheet.onbusy(`Reading ${source.label}, ${size(source.bytes.length)}`), 300);
    try {
      const reading = await sheet.client.call('read', source.bytes, source.hints);
      calm();
      const n = reading.report.lastLine;
      sheet.change({
        trace: { profile: { ...reading.profile, name: source.label }, label: source.label, origin: `${source.origin}${n ? ` of ${n} lines` : ''}`, note: '', demo: '', reading },
        view: null, settings: { ...sheet.state.settings, exclude: undefined, crop: undefined, start: undefined },
      });
    } catch (error) {
      const fault = /** @type {FurrowError} */ (error);
      calm();
      if (fault.kind === 'stopped') return;
      if (fault.kind === 'question' && fault.questions?.length) ask(source, fault);
      else complain(source, fault);
    } finally {
      clearTimeout(late);
      sheet.onbusy('');
    }
  }

  // What the file leaves open: nothing is chosen beforehand. An answer says which hint it gives and as what, or takes a number.
  /** @type {(source: Source, fault: FurrowError) => void} */
  function ask(source, fault) {
    const questions = fault.questions ?? [];
    fill(question,
      el('p', {}, el('b', {}, questions.length > 1 ? `${source.label} asks ${questions.length} questions. ` : `${source.label} asks one question. `), sheet.state.trace ? 'The earlier trace stays until you answer.' : ''),
      ...questions.map((q) => {
        const id = `ask-${q.hint}`;
        const alone = q.answers.length === 1 && q.answers[0].value === null;
        return el('fieldset', { class: 'choices', role: 'radiogroup', id, 'data-hint': q.hint }, el('legend', {}, sentence(q.text)),
          ...q.answers.map((a, k) => {
            const said = a.value === null ? sentence(a.text) : a.text[0].toUpperCase() + a.text.slice(1);
            const radio = el('input', { type: 'radio', name: id, id: `${id}-${k + 1}`, value: k, checked: alone, hidden: alone });
            if (a.value !== null) return el('label', {}, radio, ` ${said}`);
            const number = el('input', { type: 'text', class: 'n', id: `${id}-${k + 1}-number`, inputmode: 'decimal', autocomplete: 'off', 'aria-label': `${said}${a.unit && `, in ${a.unit}`}`, oninput: () => void (radio.checked = true) });
            return el('div', { class: 'row' }, el('label', {}, radio, ` ${said}`), number, a.unit && el('span', { class: 'unit' }, a.unit));
          }));
      }),
      el('p', { class: 'acts' }, el('button', { id: 'ask-answer' }, 'Read it like this'), el('button', { type: 'button', id: 'ask-skip', onclick: calm }, 'Leave this file out')));
    question.hidden = false;
    sheet.leaveOpen(questions.map((q) => `${source.label}, ${q.text}`));
    question.onsubmit = (event) => {
      event.preventDefault();
      const hints = /** @type {Record<string, any>} */ ({ ...source.hints });
      for (const q of questions) {
        const id = `ask-${q.hint}`;
        sheet.at.accept(id);
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
      read({ ...source, hints });
    };
    /** @type {HTMLElement | null} */ (question.querySelector('input:not([hidden])'))?.focus();
  }

  // What cannot be read: where, the lines around it, and the ways on.
  /** @type {(source: Source, fault: FurrowError) => void} */
  function complain(source, fault) {
    const lines = fault.line ? linesAround(source.bytes, fault.line) : [];
    const spot = fault.line && fault.column ? cell(lines.find((l) => l.number === fault.line)?.text ?? '', fault.column) : null;
    const foreign = fault.kind === 'file';
    const where = foreign ? `${source.label}: ` : fault.line ? `Line ${fault.line}${fault.column ? `, character ${fault.column}` : ''}: ` : `${source.label} cannot be read: `;
    fill(wrong,
      el('p', {}, el('b', {}, where, `${fault.message}.`)),
      lines.length > 0 && el('table', { class: 'listing' }, el('caption', { class: 'vh' }, 'The lines around it'), el('tbody', {}, ...lines.map(({ number, text: line }) =>
        el('tr', number === fault.line ? { class: 'hit' } : {}, el('td', { class: 'num' }, String(number)),
          el('td', { class: 'typed' }, ...(number === fault.line && spot ? [line.slice(0, spot.from), el('mark', {}, line.slice(spot.from, spot.to) || ' '), line.slice(spot.to)] : [line])))))),
      el('p', {}, spot && /o|O|l|I/.test(spot.text) && /\d/.test(spot.text) ? 'A letter stands where a digit may be meant. ' : '', sheet.state.trace ? 'The earlier trace stays.' : ''),
      el('p', { class: 'acts' },
        source.bytes.length < 2e6 && !foreign && el('button', { type: 'button', id: 'error-edit', onclick: () => correct(source, fault) }, 'Show and correct the text'),
        spot && spot.text.trim() !== '' && el('button', { type: 'button', id: 'error-gap', onclick: () => read({ ...source, hints: { ...source.hints, missing: [...(source.hints.missing ?? []), spot.text.trim()] } }) }, 'Treat it as a missing point'),
        el('button', { type: 'button', id: 'error-drop', onclick: calm }, 'Leave this file out')));
    wrong.hidden = false;
    /** @type {HTMLElement | null} */ (wrong.querySelector('button'))?.focus();
  }

  /** @type {(source: Source, fault: FurrowError) => void} */
  function correct(source, fault) {
    calm();
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
    leftOut.hidden = true;
    read({ bytes: new TextEncoder().encode(text.value), label: 'pasted table', origin: 'A pasted table', hints: {} });
  };
  /** @type {(file: File) => Promise<void>} */
  async function readFile(file) {
    const source = { bytes: new Uint8Array(), label: file.name, origin: `The file ${file.name}`, hints: {} };
    /** @type {(message: string) => void} */
    const refused = (message) => {
      calm();
      complain(source, new FurrowError({ kind: 'file', message }));
    };
    if (file.size > sheet.maxBytes) return refused(`a file of ${size(file.size)} is larger than the ${size(sheet.maxBytes)} that can be read here`);
    try {
      source.bytes = new Uint8Array(await file.arrayBuffer());
    } catch { // a folder, or a file that has changed
      return refused('the browser cannot open it');
    }
    read(source);
  }

  // This sheet takes one trace: the first file is read, and the others are named.
  /** @type {(files: FileList | null | undefined) => void} */
  function readFirst(files) {
    const [first, ...rest] = files ?? [];
    if (!first) return;
    leftOut.hidden = !rest.length;
    leftOut.textContent = rest.length ? `This sheet takes one trace: ${first.name}. Left out: ${rest.map((f) => f.name).join(', ')}.` : '';
    readFile(first);
  }

  for (const id of ['trace-file', 'empty-file']) sheet.at.byId(id).addEventListener('click', () => picker.click());
  picker.addEventListener('change', () => {
    readFirst(picker.files);
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
    if (event.dataTransfer?.files.length) readFirst(event.dataTransfer.files);
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
