// Reads the files of a check. What a file leaves open is asked on the sheet, one question at a time; nothing is guessed.
import { el, fill } from '../shared/dom.js';
import { parse } from '../shared/numbers.js';

/** @typedef {import('../furrow.js').Profile} Profile */
/** @typedef {import('../furrow.js').Question} Question */

/**
 * The profiles of the files that could be read.
 * @type {(pad: import('../shared/shell.js').Pad, files: Iterable<File>) => Promise<Profile[]>}
 */
export async function readFiles(pad, files) {
  /** @type {Profile[]} */
  const list = [];
  /** @type {import('../furrow.js').Hints} */
  let hints = {}; // an answer holds for the files after it too
  pad.trouble('');
  for (const file of files) {
    if (file.size > pad.version.maxBytes) {
      pad.trouble(`${file.name} is too large to be read here.`);
      continue;
    }
    const bytes = new Uint8Array(await file.arrayBuffer());
    for (let turns = 0; turns < 12; turns++) {
      try {
        const { profile } = await pad.client.call('read', bytes, hints);
        list.push({ ...profile, name: file.name });
        break;
      } catch (error) {
        const { kind, questions, line, message } = /** @type {import('../furrow.js').FurrowError} */ (error);
        const question = kind === 'question' ? questions?.[0] : undefined;
        const answer = question && (await ask(pad.at, file.name, question));
        if (answer) {
          hints = { ...hints, ...answer };
          continue;
        }
        if (!question) pad.trouble(`${file.name}${line ? `, line ${line}` : ''}: ${message}. The other traces stay.`);
        break;
      }
    }
  }
  return list;
}

/** Asks on the sheet; null when the file is to be left out. @type {(at: import('../shared/parts.js').Parts, name: string, question: Question) => Promise<import('../furrow.js').Hints | null>} */
function ask(at, name, question) {
  const box = at.byId('check-question');
  return new Promise((resolve) => {
    const close = (/** @type {import('../furrow.js').Hints | null} */ answer) => {
      box.hidden = true;
      fill(box);
      resolve(answer);
    };
    const number = question.answers.find((a) => a.value === null);
    const field = el('input', { type: 'text', class: 'n', id: `ask-${question.hint}`, inputmode: 'decimal', autocomplete: 'off' });
    const form = el('form', { onsubmit: (/** @type {Event} */ event) => {
      event.preventDefault();
      if (number) {
        const read = parse(field.value, number.unit);
        if ('fault' in read) return at.refuse(field.id, read.fault);
        return close(/** @type {any} */ ({ [question.hint]: read.value }));
      }
      const chosen = /** @type {HTMLInputElement | null} */ (form.querySelector('input:checked'));
      const answer = chosen && question.answers[Number(chosen.value)];
      if (answer) close(/** @type {any} */ ({ [answer.hint]: answer.value }));
    } },
    el('p', { class: 'q' }, `${name}: ${question.text}`),
    number ? el('div', { class: 'field' }, el('label', { for: field.id }, number.text), field)
      : el('div', { class: 'choices' }, ...question.answers.map((a, i) => el('label', {}, el('input', { type: 'radio', name: 'ask', id: `ask-${a.hint}-${a.value}`, value: i }), ` ${a.text}`))),
    el('p', { class: 'acts' }, el('button', { id: 'ask-answer' }, 'Read it like this'), el('button', { type: 'button', id: 'ask-skip', onclick: () => close(null) }, 'Leave this file out')));
    fill(box, form);
    box.hidden = false;
    box.scrollIntoView({ block: 'nearest' });
    form.querySelector('input')?.focus();
  });
}
