// Opening a record: its sheet takes the place of the one that is shown, and the page says whether the same values come out of it today.
import { html, render } from '../vendor/lit-html/lit-html.js';
import { parse } from '../shared/numbers.js';
import { newId } from '../shared/store.js';
import { blank, display, fixed } from './state.js';

/** @typedef {import('./sheet.js').Sheet} Sheet */

/** Whether bytes may be a record: the page or the document that furrow writes. @type {(bytes: Uint8Array) => boolean} */
export function mayBeRecord(bytes) {
  const head = new TextDecoder().decode(bytes.subarray(0, 2000));
  return head.includes('"furrow_record"') || head.includes('name="generator" content="furrow"');
}

/** @type {(sheet: Sheet) => (bytes: Uint8Array, label: string) => Promise<void>} */
export function reopening(sheet) {
  const { at, client } = sheet;
  const box = at.byId('record-differs');
  /** The sheet as it was opened: what is said of it holds no longer after a change. @type {import('./state.js').State | null} */
  let opened = null;
  sheet.renders(() => {
    if (opened && sheet.state !== opened) {
      opened = null;
      box.hidden = true;
    }
  });

  return async (bytes, label) => {
    box.hidden = false;
    try {
      const record = /** @type {import('../furrow.js').OpenedRecord} */ (await client.call('reopen', bytes));
      const again = /** @type {import('../furrow.js').Verification} */ (await client.call('verify', bytes));
      const state = await stateOf(sheet, record);
      sheet.change(state);
      opened = sheet.state;
      const n = again.differences.length;
      const differ = n === 1 ? 'one value differs' : `${n} values differ`;
      render(html`<p>${again.same ? html`<b>Opened record: the same values.</b> ${label}, made ${record.made.time.slice(0, 10)} with ${record.made.version}.` : html`<b>Opened record, made with ${record.made.version}: ${differ}.</b> Shown are the values as they are calculated today.`}</p>
        ${again.same ? '' : html`<ul>${again.differences.map((d) => html`<li>${d.text}.</li>`)}</ul>`}`, box);
      sheet.at.announce(again.same ? 'Opened record: the same values.' : `Opened record: ${differ}.`);
    } catch (error) {
      opened = null;
      const { kind, message, line, column } = /** @type {import('../furrow.js').FurrowError} */ (error);
      if (kind === 'stopped') return void (box.hidden = true);
      const place = line ? `, line ${line}${column ? `, character ${column}` : ''}` : '';
      render(html`<p><b>${label} is refused${place}:</b> ${message.replace(/^record: /, '')}. The sheet stays as it was.</p>`, box);
    }
    box.scrollIntoView({ block: 'nearest' });
  };
}

/** What a record holds as the state of a sheet; how it is shown stays. @type {(sheet: Sheet, record: import('../furrow.js').OpenedRecord) => Promise<import('./state.js').State>} */
async function stateOf({ client, state }, { sheet: s, profiles }) {
  const { asked } = s;
  const answer = asked.text ? /** @type {import('../furrow.js').Plan} */ (await client.call('requirement', asked.text, asked.edition ?? '')) : null;
  const traces = s.traces.map((t, i) => ({
    id: newId(), profile: profiles[i], label: t.name, origin: 'A record that was opened', note: '', demo: '', reading: null, ...(t.file ? { file: t.file } : {}), ...(t.hints ? { hints: t.hints } : {}),
  }));
  const { parameters, name: _, exclude, ...complete } = s.settings ?? {};
  // What the requirement or the standard gives is not set here.
  const usual = await client.beside(() => true, 'complete', { edition: complete.edition, profile: complete.profile, ...(answer?.settings ? fixed(answer.settings) : {}) }, profiles[0]?.spacing);
  const settings = Object.fromEntries(Object.entries(complete).filter(([key, v]) => key === 'edition' || JSON.stringify(v) !== JSON.stringify(usual[key])));
  /** @type {Record<string, string>} */
  const out = {};
  /** @type {Record<string, import('../furrow.js').Exclusion[]>} */
  const parts = {};
  /** @type {Record<string, import('./state.js').Way>} */
  const ways = {};
  s.traces.forEach((t, i) => {
    if (t.left_out) out[traces[i].id] = t.left_out;
    const { input, invert } = t.settings ?? complete;
    if (input !== complete.input || !invert !== !complete.invert) ways[traces[i].id] = { input: input === 'raw' ? undefined : input, invert, skid: blank.skid };
    const left = t.settings ? t.settings.exclude : exclude;
    if (left?.length) parts[traces[i].id] = left;
  });
  const values = s.typed.flatMap(({ text, from }) => {
    const [, symbol, number] = text.match(/^(\S+)\s+(\S.*)$/) ?? [];
    const read = symbol ? parse(number, 'µm') : { fault: text };
    return 'fault' in read ? [] : [{ id: newId(), symbol, text: number, value: read.value, from }];
  });
  return {
    ...blank, ...display(state), show: state.show, name: s.name, traces, drawn: traces[0]?.id ?? '', out, parts, ways, values, required: answer && { text: asked.text ?? '', answer, used: answer.settings ? answer : null },
    rule: asked.rule ?? '', agreed: asked.agreed ?? '', u: asked.u ?? '', k: String(asked.k || 2), prove: asked.prove ?? '', guard: asked.guard ?? '',
    blanks: Object.fromEntries(Object.entries(s.blanks).filter(([, v]) => v)), settings, asked: parameters?.length ? parameters : ['Rz', 'Ra'],
  };
}
