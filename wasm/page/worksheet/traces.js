// The traces of the surface as a list, values typed in, and what is to say of all of them together.
import { html, nothing, render } from '../vendor/lit-html/lit-html.js';
import { live } from '../vendor/lit-html/directives/live.js';
import { count, counted, figure, mm, number, parse, unitName } from '../shared/numbers.js';
import { newId } from '../shared/store.js';
import { drawnOf, shown, spoken } from './state.js';

/** @typedef {import('./sheet.js').Sheet} Sheet */
/** @typedef {import('./state.js').Trace} Trace */

/** @type {(sheet: Sheet) => void} */
export function traces(sheet) {
  const { at, series } = sheet;
  const table = at.byId('trace-list');
  const stats = at.byId('trace-stats');
  const form = /** @type {HTMLFormElement} */ (at.byId('value-form'));
  /** The row whose reason is asked for. */
  let leaving = '';

  const draw = () => {
    const { traces: list, values, out } = sheet.state;
    const { symbols } = series;
    const drawn = drawnOf(sheet.state)?.id;
    table.hidden = list.length + values.length === 0;
    const first = symbols[0];
    /** @type {{id: string, n: number, trace?: Trace, typed?: import('./state.js').TypedValue}[]} */
    const rows = [...list.map((trace, i) => ({ id: trace.id, n: i + 1, trace })), ...values.map((typed, i) => ({ id: typed.id, n: list.length + i + 1, typed }))];
    render(html`<caption>Traces of this surface</caption>
      <thead><tr><th scope="col" class="pick"><span class="vh">Drawn</span></th><th scope="col">Trace</th><th scope="col" class="spark">Roughness profile</th>
        ${symbols.map((s, i) => html`<th scope="col" class=${i ? 'num ra' : 'num'}>${s}${unitOf(s)}</th>`)}<td></td></tr></thead>
      ${rows.map((r) => html`<tbody>${row(r, symbols, drawn ?? '')}</tbody>`)}`, table);
    render(statistics(first, out), stats);
    at.byId('value-label').textContent = `A value without a trace: ${first ?? 'Rz'}`;
    at.byId('value-unit').textContent = first ? unitName(unit(first)) : '';
  };

  /** @type {(symbol: string) => string} */
  const unit = (symbol) => series.unit(symbol);
  /** @type {(symbol: string) => string} */
  const unitOf = (symbol) => (unit(symbol) ? `, ${unitName(unit(symbol))}` : '');

  /** @type {(r: {id: string, n: number, trace?: Trace, typed?: import('./state.js').TypedValue}, symbols: string[], drawn: string) => unknown} */
  function row({ id, n, trace, typed }, symbols, drawn) {
    const { out } = sheet.state;
    const refused = trace ? series.refused(trace) : '';
    const far = id in out || refused ? undefined : series.far(id);
    const first = symbols[0];
    const value = trace ? series.value(id, first)?.value : typed?.value;
    const label = trace?.label ?? `Typed in: ${typed?.from}`;
    const said = [`Draw trace ${n}, ${label}`, value === null || value === undefined ? '' : `${first} ${spoken({ value, unit: unit(first) })}`, far ? 'far from the others' : ''].filter(Boolean).join(', ');
    const cells = symbols.map((s, i) => {
      const v = trace ? series.value(id, s) : typed?.symbol === s ? { value: typed.value, unit: unit(s), reason: '' } : undefined;
      const text = v === undefined ? '' : v.value === null ? 'not defined' : number(v.value, v.unit);
      return html`<td class=${i ? 'num ra' : 'num'} data-value=${v?.value ?? nothing}>${i ? text : html`<b>${text}</b>`}</td>`;
    });
    return html`<tr class=${`${far ? 'far' : ''}${id in out || refused ? ' out' : ''}`} data-trace=${id}>
      <td class="pick">${trace ? html`<input type="radio" name="drawn" id=${`trace-show-${n}`} aria-label=${said} .checked=${live(id === drawn)} @change=${() => sheet.change({ drawn: id, view: null })} @keydown=${(/** @type {KeyboardEvent} */ e) => e.key === 'Delete' && remove(id, n)}>` : nothing}</td>
      <th scope="row" class="file"><b>${n}</b>${label}<small>${trace ? `${trace.demo ? 'demonstration, ' : trace.reading?.report.zColumn ? `column ${trace.reading.report.zColumn}, ` : ''}${lengthOf(trace)}` : 'printed or read elsewhere, no trace'}</small></th>
      <td class="spark">${trace ? (series.spark(trace, 192, draw) ?? nothing) : 'no trace'}</td>${cells}
      <td class="do"><button type="button" class="inline" id=${`trace-remove-${n}`} @click=${() => remove(id, n)}>Remove<span class="vh"> ${label}</span></button></td></tr>
      ${refused ? note(`${label} is not counted: ${refused}.`) : nothing}
      ${id in out ? note(html`Left out: ${out[id]}. <button type="button" class="inline" id=${`trace-take-${n}`} @click=${() => take(id)}>Count it again</button>`) : nothing}
      ${far && value !== null && value !== undefined ? note(html`<b id=${`trace-far-${n}`}>${shown({ value, unit: unit(first) })} is far from the other values</b> (G = ${figure(far.g)}, more than ${figure(far.critical)} is unlikely by chance; test of Grubbs, 5 %, common practice). Look at the trace. It still counts.
        ${leaving === id ? nothing : html`<button type="button" class="inline" id=${`trace-leave-${n}`} @click=${() => ask(id, n)}>Leave it out, with a reason</button>`}`) : nothing}
      ${leaving === id && !(id in out) ? note(html`<form class="typedin" @submit=${(/** @type {Event} */ e) => leave(e, id, n)}><div class="field"><label for=${`trace-reason-${n}`}>Reason (it is kept with the value)</label><input type="text" id=${`trace-reason-${n}`} maxlength="200"></div><button id=${`trace-leave-do-${n}`}>Leave it out</button></form>`) : nothing}`;
  }

  /** @type {(words: unknown) => unknown} */
  const note = (words) => html`<tr class="farnote"><td></td><td colspan=${3 + series.symbols.length}><div class="say">${words}</div></td></tr>`;

  /** @type {(id: string, n: number) => void} */
  function ask(id, n) {
    leaving = id;
    draw();
    at.byId(`trace-reason-${n}`).focus();
  }

  /** @type {(event: Event, id: string, n: number) => void} */
  function leave(event, id, n) {
    event.preventDefault();
    const reason = at.input(`trace-reason-${n}`).value.trim();
    if (!reason) return at.refuse(`trace-reason-${n}`, 'A reason is needed. It is kept with the value.');
    leaving = '';
    sheet.change({ out: { ...sheet.state.out, [id]: reason } });
    at.find(`trace-take-${n}`)?.focus();
  }

  /** @param {string} id */
  function take(id) {
    const { [id]: _, ...out } = sheet.state.out;
    sheet.change({ out });
  }

  /** @type {(id: string, n: number) => void} */
  function remove(id, n) {
    sheet.remove(id);
    at.announce(`Trace ${n} removed, ${sheet.state.traces.length} left.`);
    (at.find(`trace-remove-${n}`) ?? at.find(`trace-remove-${n - 1}`) ?? at.byId('trace-add')).focus();
  }

  /** @type {(symbol: string, out: Readonly<Record<string, string>>) => unknown} */
  function statistics(symbol, out) {
    const { summary, counted } = series;
    const { traces: list, values } = sheet.state;
    const without = [...list, ...values].flatMap((t, i) => (t.id in out ? `${i < list.length ? 'trace' : 'value'} ${i + 1}` : []));
    const besides = without.length ? html`<p class="hint">without ${without.join(', ')}</p>` : nothing;
    if (!summary) return html`${counted.length === 1 ? html`<p class="hint">One value.</p>` : nothing}${besides}`;
    /** @type {(name: unknown, v: number | null) => unknown} */
    const one = (name, v) => html`<div><dt>${name}</dt><dd>${shown({ value: v, unit: unit(symbol) })}</dd></div>`;
    return html`<dl class="stats"><div><dt>${symbol} of ${summary.n} values: mean</dt><dd>${shown({ value: summary.mean, unit: unit(symbol) })}</dd></div>${one(html`<i>s</i>`, summary.s)}${one('smallest', summary.min)}${one('largest', summary.max)}${one('median', summary.median)}</dl>${besides}`;
  }

  // Values without a trace.
  at.press('value-open', () => {
    form.hidden = !form.hidden;
    at.byId('value-open').setAttribute('aria-expanded', String(!form.hidden));
    if (!form.hidden) at.byId('value-typed').focus();
  });
  form.addEventListener('submit', (event) => {
    event.preventDefault();
    at.accept('value-typed');
    at.accept('value-from');
    const field = at.input('value-typed');
    const from = at.input('value-from');
    const symbol = series.symbols[0] ?? 'Rz';
    const { value: one, unit: theirs } = counted(1, unit(symbol));
    const read = parse(field.value, theirs);
    // A limit that is written in another unit wants the unit with each number.
    const elsewhere = sheet.verdict?.limits.some((l) => l.symbol === symbol && l.unit && l.unit !== theirs);
    if ('fault' in read) return at.refuse('value-typed', read.fault);
    if (!from.value.trim()) return at.refuse('value-from', 'Say where the value comes from. It is kept with the value.');
    sheet.change({ values: [...sheet.state.values, { id: newId(), symbol, text: `${read.value}${one === 1 && !elsewhere ? '' : ` ${theirs}`}`, value: read.value / one, from: from.value.trim() }] }, { field: 'value-typed' });
    field.value = '';
    from.value = '';
    field.focus();
  });
  sheet.renders(draw, sheet.at.byId('trace'));
}

/** The length from the first to the last point, as people write it. @type {(trace: Trace) => string} */
const lengthOf = ({ profile: { z, spacing } }) => mm((z.length - 1) * spacing);

/** The traces in one sentence, for the first screen. @type {(sheet: Sheet) => unknown} */
export function inShort(sheet) {
  const { traces: list, values } = sheet.state;
  const [first] = list;
  const typed = values.length ? `, ${values.length} value${values.length > 1 ? 's' : ''} typed in` : '';
  if (!first) return html`<b>No trace yet</b>${typed}.`;
  const points = new Set(list.map((t) => t.profile.z.length));
  const lengths = new Set(list.map((t) => lengthOf(t)));
  const files = new Set(list.map((t) => t.label)).size;
  const what = first.demo ? html`<b>Demonstration trace</b><span class="onlywide">, ${first.label}</span>` : list.length === 1 ? html`<b>${first.label}</b>` : html`<b>${files} file${files > 1 ? 's' : ''}, ${list.length} traces</b>`;
  return html`${what}: ${points.size === 1 ? `${count([...points][0])} points${list.length > 1 ? ' each' : ''}, ` : ''}${[...lengths].slice(0, 2).join(' and ')}${typed}.`;
}
