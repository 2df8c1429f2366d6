// The uncertainty of the judged value, estimated from the trace that is drawn and from what people know of the instrument. It is never used by
// itself.
import { html, nothing, render } from '../vendor/lit-html/lit-html.js';
import { counted, exactly, fixed, number, parse, style, unitName, withUnit } from '../shared/numbers.js';

/** @typedef {import('./sheet.js').Sheet} Sheet */

/** Field, its name in the request, its unit, and what a number of it is in the request. @type {readonly (readonly [string, keyof import('../furrow.js').BudgetKnown, string, number])[]} */
const fields = [['budget-certificate', 'certificate', 'µm', 1], ['budget-certificate-u', 'certificateU', 'µm', 1], ['budget-repeat', 'repeat', 'µm', 1], ['budget-noise', 'noise', 'µm', 1], ['budget-tip', 'tip', 'µm', 1], ['budget-drift', 'drift', '', 0.01]];

/** Usual half widths of what no sheet states, as shares of cut-off and travel (common practice), and the number of repeats on a specimen. */
const usual = { cutoffs: 0.02, travel: 0.002, spacing: true, repeats: 5 };

/** The last line of a budget is the expanded uncertainty, the one before it the coverage factor. @type {(b: import('../furrow.js').Check) => number} */
const expanded = (b) => b.lines.at(-1)?.value ?? NaN;

/** @type {(sheet: Sheet) => void} */
export function budget(sheet) {
  const { at } = sheet;
  const form = /** @type {HTMLFormElement} */ (at.byId('budget'));
  const button = at.byId('verdict-budget');
  const table = at.byId('verdict-budget-table');
  /** What was estimated, and of which state. @type {{answer: import('../furrow.js').Check, of: string} | null} */
  let latest = null;

  let { repeats } = usual;
  /** @param {boolean} open */
  const show = (open) => {
    form.hidden = !open;
    button.setAttribute('aria-expanded', String(open));
  };
  at.press('verdict-budget', () => {
    show(!!form.hidden);
    if (!form.hidden) prefill();
    if (!form.hidden) at.byId('budget-certificate').focus();
  });
  // What the latest kept check of the instrument states, in fields that are empty.
  async function prefill() {
    const { kept } = sheet;
    const [symbol] = sheet.series.symbols;
    at.byId('budget-from').hidden = !kept;
    if (!kept) return;
    const { specimen, flat } = kept.documents;
    const same = specimen?.symbol === symbol; // a certificate counts for its own parameter alone
    const spread = same && specimen.values.length > 1 ? await sheet.client.call('summary', specimen.values) : null;
    const noise = flat?.lines.find((l) => l.name.startsWith('Rq'))?.value ?? null;
    const stated = (/** @type {string} */ field) => {
      const read = parse(kept.fields[field] ?? '', 'µm');
      return 'fault' in read ? null : read.value;
    };
    const known = { certificate: same ? stated('specimen-value') : null, certificateU: same ? stated('specimen-u') : null, repeat: spread?.s ?? null, noise, tip: stated('budget-tip'), drift: stated('budget-drift') };
    repeats = spread?.n ?? usual.repeats;
    at.byId('budget-repeats').textContent = String(repeats);
    for (const [id, name, unit] of fields) {
      const v = known[/** @type {keyof typeof known} */ (name)];
      if (v !== null && !at.input(id).value.trim()) at.input(id).value = exactly(Number(v.toPrecision(4)), unit, 4);
    }
    at.byId('budget-from').textContent = `Filled from the check of ${kept.instrument}, ${kept.date}${specimen && !same ? `; its certificate states ${specimen.symbol} and does not count for ${symbol}` : ''}.`;
  }
  const close = () => {
    show(false);
    button.focus();
  };
  at.press('budget-close', close);
  form.addEventListener('keydown', (event) => event.key === 'Escape' && close());

  /** What an estimate belongs to. */
  const key = () => JSON.stringify([sheet.trace?.id, sheet.compose(), sheet.series.symbols[0]]);

  form.addEventListener('submit', async (event) => {
    event.preventDefault();
    const { trace } = sheet;
    const [symbol] = sheet.series.symbols;
    if (!trace || !symbol) return;
    /** @type {Record<string, number>} */
    const known = {};
    for (const [id, name, unit, scale] of fields) {
      at.accept(id);
      const text = at.input(id).value.trim();
      if (!text) continue;
      const { value: one, unit: theirs } = counted(1, unit);
      const read = parse(text, theirs);
      if ('fault' in read) return at.refuse(id, read.fault);
      if (read.value < 0) return at.refuse(id, 'A number from 0 on is needed.');
      known[name] = (read.value / one) * scale;
    }
    const of = key();
    at.byId('budget-said').textContent = 'Calculating the estimate …';
    try {
      const { parameters, ...settings } = sheet.compose();
      const answer = await sheet.client.call('instrument', { check: 'budget', symbol, settings: { ...settings, parameters: [symbol] }, budget: { ...usual, repeats, ...known } }, [trace.profile]);
      latest = { answer, of };
      at.byId('budget-said').textContent = `${answer.sentence[0].toUpperCase()}${answer.sentence.slice(1)}`;
    } catch (error) {
      latest = null;
      at.byId('budget-said').textContent = `There is no estimate: ${/** @type {Error} */ (error).message.replace(/^(instrument|standards|roughness): /, '')}.`;
    }
    draw();
  });

  function draw() {
    if (latest && latest.of !== key()) {
      latest = null; // of another trace, or other settings
      at.byId('budget-said').textContent = '';
    }
    const b = latest?.answer;
    const influences = b?.lines.filter((l) => l.share !== null) ?? [];
    const n = influences.length;
    render(!b ? nothing : html`<table class="budget"><caption>Uncertainty of ${b.symbol}, estimated on ${sheet.trace?.label}</caption>
      <thead><tr><th scope="col">Influence</th><th scope="col" class="num">Effect on ${b.symbol}, ${unitName(b.unit)}</th><th scope="col" class="num">Share of the variance</th><th scope="col">Source</th></tr></thead>
      <tbody>${influences.map((l) => html`<tr><th scope="row">${l.name}</th><td class="num">${style.inch ? number(l.value ?? 0, b.unit, 2) : fixed(l.value ?? 0, 3)}</td><td class="num pct">${(l.share ?? 0) < 0.01 ? 'under 1 %' : withUnit(fixed(100 * (l.share ?? 0), 0), '%')}</td><td class="src">${l.source} · ${l.basis}</td></tr>`)}</tbody></table>
      ${b.notes.length ? html`<p class="hint">Not worked out: ${b.notes.join('; ')}.</p>` : nothing}
      <p class="acts"><button type="button" id="verdict-budget-use" @click=${use}>Use ${withUnit(number(expanded(b), b.unit, 2), unitName(b.unit))} as <i>U</i></button><span class="hint">An estimate from ${n} influence${n === 1 ? '' : 's'}. It does not replace a calibration.</span></p>`, table);
  }

  function use() {
    const b = latest?.answer;
    if (b) sheet.change({ u: String(Number(expanded(b).toPrecision(2))), k: String(Number((b.lines.at(-2)?.value ?? 2).toPrecision(4))) }, { field: 'verdict-u' });
  }
  sheet.renders(draw, sheet.at.byId('verdict'));
}
