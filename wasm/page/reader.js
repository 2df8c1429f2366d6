// Reading a trace: from a file, a drop or pasted text; what to do when a file leaves a question open or cannot be read.
import { byId, el, fill, input } from './dom.js';
import { accept, refuse } from './fields.js';
import { parse } from './numbers.js';

/** @typedef {import('./sheet.js').Sheet} Sheet */
/** @typedef {import('./furrow.js').Hints} Hints */
/** @typedef {import('./furrow.js').FurrowError} FurrowError */
/** @typedef {{bytes: Uint8Array, label: string, origin: string, hints: Hints, pasted: boolean}} Source */

/** What each hint is called, and what can be answered where the file lists nothing. @type {Record<string, {words: string, unit?: string, options?: [string, string][]}>} */
const hintWords = {
  x_unit: { words: 'Unit of length along the trace', options: [['mm', 'millimetres'], ['µm', 'micrometres'], ['nm', 'nanometres'], ['m', 'metres'], ['in', 'inches']] },
  z_unit: { words: 'Unit of the heights', options: [['µm', 'micrometres'], ['nm', 'nanometres'], ['mm', 'millimetres'], ['m', 'metres'], ['µin', 'microinches']] },
  spacing: { words: 'Distance between points', unit: 'µm' },
  decimal: { words: 'Decimal mark', options: [['.', 'point'], [',', 'comma']] },
  delimiter: { words: 'Between columns', options: [['\t', 'tab'], [';', 'semicolon'], [',', 'comma'], [' ', 'blanks']] },
  x_column: { words: 'Column of the length along the trace' },
  z_column: { words: 'Column of the heights' },
  heights: { words: 'How the heights stand', options: [['column', 'in a column'], ['rows', 'row by row, every number a height']] },
};

const numeric = new Set(['spacing', 'x_column', 'z_column', 'skip_lines']);

/** @type {(sheet: Sheet) => {readText: (text: string) => void}} */
export function reader(sheet) {
  const wrong = byId('trace-wrong');
  const question = /** @type {HTMLFormElement} */ (byId('trace-question'));
  const paste = byId('paste');
  const text = /** @type {HTMLTextAreaElement} */ (byId('paste-text'));
  const picker = input('trace-file-input');

  const calm = () => {
    wrong.hidden = true;
    question.hidden = true;
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

  // What the file leaves open: nothing is chosen beforehand.
  /** @type {(source: Source, fault: FurrowError) => void} */
  function ask(source, fault) {
    const questions = fault.questions ?? [];
    fill(question,
      el('p', {}, el('b', {}, questions.length > 1 ? `${source.label} leaves ${questions.length} questions open. ` : 'One question is open. '), 'The trace before this one stays until they are answered.'),
      ...questions.map((q) => {
        const { words = q.hint, unit, options } = hintWords[q.hint] ?? {};
        const answers = q.answers.length ? q.answers.map((a) => [a.value, a.text || a.value]) : options ?? [];
        return answers.length
          ? el('fieldset', { class: 'choices', 'data-hint': q.hint, id: `ask-${q.hint}` }, el('legend', {}, sentence(q.text)),
            ...answers.map(([value, said]) => el('label', {}, el('input', { type: 'radio', name: `ask-${q.hint}`, value }), ` ${said}`)))
          : el('div', { class: 'field' }, el('label', { for: `ask-${q.hint}` }, sentence(q.text)),
            el('div', { class: 'row' }, el('input', { type: 'text', class: 'n', id: `ask-${q.hint}`, 'data-hint': q.hint, inputmode: 'decimal', 'aria-label': words }), unit && el('span', { class: 'unit' }, unit)));
      }),
      el('p', { class: 'acts' }, el('button', { id: 'ask-answer' }, 'Read it so'), el('button', { type: 'button', id: 'ask-drop', onclick: calm }, 'Keep the earlier trace')));
    question.hidden = false;
    question.onsubmit = (event) => {
      event.preventDefault();
      const hints = /** @type {Record<string, any>} */ ({ ...source.hints });
      for (const q of questions) {
        const id = `ask-${q.hint}`;
        const checked = /** @type {HTMLInputElement | null} */ (question.querySelector(`[name="${id}"]:checked`));
        const field = byId(id);
        accept(id);
        let value = field instanceof HTMLInputElement ? field.value : checked?.value;
        if (value === undefined || value === '') return refuse(id, 'An answer is needed here.');
        if (numeric.has(q.hint)) {
          const number = parse(value, q.hint === 'spacing' ? 'µm' : '');
          if ('fault' in number) return refuse(id, number.fault);
          hints[q.hint] = number.value;
        } else hints[q.hint] = value;
      }
      read({ ...source, hints });
    };
    /** @type {HTMLElement | null} */ (question.querySelector('input'))?.focus();
  }

  // What cannot be read: where, the lines around it, and the ways on.
  /** @type {(source: Source, fault: FurrowError) => void} */
  function complain(source, fault) {
    const lines = fault.line ? linesAround(source.bytes, fault.line) : [];
    const spot = fault.line && fault.column ? cell(lines.find((l) => l.number === fault.line)?.text ?? '', fault.column) : null;
    const where = fault.line ? `Line ${fault.line}${fault.column ? `, character ${fault.column}` : ''}: ` : `${source.label} cannot be read: `;
    fill(wrong,
      el('p', {}, el('b', {}, where, `${fault.message}.`)),
      lines.length > 0 && el('table', { class: 'listing' }, el('caption', { class: 'vh' }, 'The lines around it'), el('tbody', {}, ...lines.map(({ number, text: line }) =>
        el('tr', number === fault.line ? { class: 'hit' } : {}, el('td', { class: 'num' }, String(number)),
          el('td', { class: 'typed' }, ...(number === fault.line && spot ? [line.slice(0, spot.from), el('mark', {}, line.slice(spot.from, spot.to) || ' '), line.slice(spot.to)] : [line])))))),
      el('p', {}, spot && /o|O|l|I/.test(spot.text) && /\d/.test(spot.text) ? 'A letter stands where a digit may be meant. ' : '', sheet.state.trace ? 'The sheet still shows the trace before this one; nothing is lost.' : 'Nothing is lost.'),
      el('p', { class: 'acts' },
        source.bytes.length < 2e6 && el('button', { type: 'button', id: 'error-edit', onclick: () => correct(source, fault) }, 'Correct the text'),
        spot && spot.text.trim() !== '' && el('button', { type: 'button', id: 'error-gap', onclick: () => read({ ...source, hints: { ...source.hints, missing: [...(source.hints.missing ?? []), spot.text.trim()] } }) }, 'Read it as a missing point'),
        el('button', { type: 'button', id: 'error-drop', onclick: calm }, sheet.state.trace ? 'Keep the earlier trace' : 'Leave it')));
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
    byId('trace-paste').setAttribute('aria-expanded', String(open));
  }

  const readPaste = () => read({ bytes: new TextEncoder().encode(text.value), label: 'pasted table', origin: 'A pasted text', hints: {}, pasted: true });
  /** @type {(file: File) => Promise<void>} */
  const readFile = async (file) => read({ bytes: new Uint8Array(await file.arrayBuffer()), label: file.name, origin: `The file ${file.name}`, hints: {}, pasted: false });

  for (const id of ['trace-file', 'empty-file']) byId(id).addEventListener('click', () => picker.click());
  picker.addEventListener('change', () => {
    if (picker.files?.[0]) readFile(picker.files[0]);
    picker.value = '';
  });
  for (const id of ['trace-paste', 'empty-paste']) {
    byId(id).addEventListener('click', () => {
      showPaste(id === 'empty-paste' || !!paste.hidden);
      if (!paste.hidden) text.focus();
    });
  }
  byId('paste-read').addEventListener('click', readPaste);
  byId('paste-close').addEventListener('click', () => {
    showPaste(false);
    byId('trace-paste').focus();
  });
  text.addEventListener('keydown', (event) => {
    if (event.key === 'Escape') byId('paste-close').click();
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
    const file = event.dataTransfer?.files[0];
    const dropped = event.dataTransfer?.getData('text/plain');
    if (file) readFile(file);
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
