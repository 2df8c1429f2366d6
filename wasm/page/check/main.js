// The sheet Instrument check: specimen, groove, flat, and what they make of the uncertainty of a value. Nothing is corrected here; a check is
// kept with its date, and the record of a trace measured after it takes it.
import { el, fill, fillSelect } from '../shared/dom.js';
import { counted, exactly, figure, number as counting, parse, plain, style, unitName, withUnit } from '../shared/numbers.js';
import { Picture } from '../shared/picture.js';
import { openPad } from '../shared/shell.js';
import { newId } from '../shared/store.js';
import { latest } from '../worksheet/keeper.js';
import { drawnOf } from '../worksheet/state.js';
import { prose } from '../worksheet/work.js';
import { readFiles } from './files.js';
import { register } from './register.js';

/** @typedef {import('../furrow.js').Check} Check */
/** @typedef {import('../furrow.js').Profile} Profile */
/** @typedef {'specimen' | 'groove' | 'flat'} Kind */
/** What is kept of a check. @typedef {{id: string, instrument: string, date: string, fields: Record<string, string>, documents: Partial<Record<Kind, Check>>, made: number}} KeptCheck */

const words = /** @type {Record<string, string>} */ ({ within: 'Within the allowance', outside: 'Outside the allowance', small: 'Small enough', large: 'Too much noise' });
const fields = ['check-instrument', 'check-tip', 'check-date', 'check-gain', 'check-angle', 'check-skid', 'check-operator', 'check-remarks',
  'specimen-number', 'specimen-type', 'specimen-symbol', 'specimen-value', 'specimen-u', 'specimen-tolerance', 'specimen-due', 'groove-value', 'groove-u', 'budget-tip', 'budget-drift'];
/** What the next check of the same instrument begins with. */
const lasting = ['check-tip', 'check-gain', 'check-angle', 'check-skid'];
/** The lengths, in µm. Who counts in inches has the unit written behind each, so that no kept number ever changes its unit. */
const lengths = ['check-tip', 'specimen-value', 'specimen-u', 'groove-value', 'groove-u', 'budget-tip'];
/** What the number of a specimen stands for. */
const ofSpecimen = ['specimen-type', 'specimen-symbol', 'specimen-value', 'specimen-u', 'specimen-tolerance', 'specimen-due'];

/** The fields that a check counts with. @type {Record<Kind, string[]>} */
const needed = { specimen: ['specimen-value', 'specimen-u', 'specimen-tolerance', 'check-gain'], groove: ['groove-value', 'groove-u', 'check-gain'], flat: ['check-gain'] };

/** A value with its unit as the reader has them. @type {(v: number, unit: string, digits: number) => string} */
const shown = (v, unit, digits) => withUnit(counting(v, unit, digits), unitName(unit));

const isDate = (/** @type {string} */ text) => /^\d{4}-\d{2}-\d{2}$/.test(text) && !Number.isNaN(Date.parse(text));

/** Two strokes with the dot between them, or beyond them on its true side. @type {(word: string | null, below: boolean) => Element | null} */
function sign(word, below) {
  if (!word || word === 'open') return null;
  const at = word === 'within' || word === 'small' ? 20 : below ? 5 : 35;
  const svg = document.createElementNS('http://www.w3.org/2000/svg', 'svg');
  svg.setAttribute('viewBox', '0 0 40 40');
  svg.setAttribute('class', 'sign');
  svg.setAttribute('aria-hidden', 'true');
  svg.innerHTML = `<path d="M13 8V32M27 8V32" stroke="currentColor" stroke-width="2.5"/><circle cx="${at}" cy="20" r="4.5" fill="currentColor"/>`;
  return svg;
}

/** A bar as long as a share. @type {(share: number) => HTMLElement} */
function bar(share) {
  const e = el('span', { class: 'bar' });
  e.style.width = `${Math.max(2, 100 * share).toFixed(1)}%`;
  return e;
}

openPad(document, async (pad) => {
  const { at, client, store } = pad;
  for (const id of ['specimen', 'groove', 'noise', 'budget', 'register']) at.byId(`${id}-caution`).textContent = pad.catalogue.caution;
  /** @type {Record<Kind, Profile[]>} */
  const traces = { specimen: [], groove: [], flat: [] };
  /** @type {Partial<Record<Kind, Check>>} */
  const documents = {};
  /** Mean and spread of the values of the specimen. @type {import('../furrow.js').SeriesSummary | null} */
  let spread = null;
  /** @type {KeptCheck[]} */
  let earlier = [];
  const sheet = { at, client, revision: 0 };
  const kept = store && (await latest(pad));
  const worksheet = kept ? kept.state : null;
  style.inch = worksheet?.units === 'inch';
  at.showUnits();
  const drawn = (worksheet && drawnOf(worksheet)?.profile) || null;
  const budgetOn = drawn ?? (await pad.demo()).profile;

  const text = (/** @type {string} */ id) => at.input(id).value.trim();
  /** A length as it stands in its field: a bare number gets its unit where that is not plain. @type {(typed: string, unit: string) => string} */
  const clear = (typed, unit) => (style.inch && typed && !('fault' in parse(typed)) ? withUnit(typed, unit) : typed);
  /** Whether a field was refused: nothing is calculated without it as if it were empty. @type {(ids: string[]) => boolean} */
  const refused = (ids) => ids.some((id) => at.byId(id).getAttribute('aria-invalid') === 'true');
  /** The number in a field, undefined where it is empty; a refused one says so at the field. @type {(id: string, unit?: string, low?: number) => number | undefined} */
  const number = (id, unit = '', low = 0) => {
    at.accept(id);
    const typed = text(id);
    if (!typed) return undefined;
    const read = parse(typed, unit);
    if ('fault' in read) {
      at.refuse(id, read.fault);
      return undefined;
    }
    if (read.value < low) {
      at.refuse(id, `At least ${plain(low)} is needed.`);
      return undefined;
    }
    return read.value;
  };
  const session = () => {
    const gain = number('check-gain');
    if (text('check-date') && !isDate(text('check-date'))) at.refuse('check-date', 'Write the date as year, month and day: 2026-03-12.');
    return { date: isDate(text('check-date')) ? text('check-date') : undefined, operator: text('check-operator') || undefined, instrument: text('check-instrument') || undefined, gain };
  };
  const specimen = () => ({
    number: text('specimen-number'), type: /** @type {any} */ (at.select('specimen-type').value), symbol: at.select('specimen-symbol').value,
    value: number('specimen-value', 'µm'), expanded: number('specimen-u', 'µm'), k: 2, due: isDate(text('specimen-due')) ? text('specimen-due') : undefined,
  });
  const tolerance = () => {
    const share = number('specimen-tolerance');
    return share === undefined ? undefined : { share: share / 100 };
  };
  /** The limit that the noise is held against, µm. @returns {number | undefined} */
  const limited = () => {
    const required = worksheet?.required;
    return (required?.answer.state === 'read' ? required.answer.limits.find((l) => l.symbol === 'Rz' && l.limit !== null && l.side === 'upper') : undefined)?.limit ?? undefined;
  };
  const limits = () => (limited() === undefined ? '' : `Rz <= ${limited()} µm`);

  /** Shows the outcome of a check. @type {(id: string, check: Check | undefined, open?: string) => void} */
  const outcome = (id, check, open = '') => {
    const box = at.byId(id);
    box.hidden = !check && !open;
    if (!check) return fill(box, el('div', {}, el('b', {}, 'Open'), el('p', {}, open)));
    const below = (check.held?.deviation ?? 0) < 0;
    fill(box, /** @type {any} */ (sign(check.word, below)), el('div', {}, el('b', {}, words[check.word ?? ''] ?? 'Open'), el('p', {}, prose(check.sentence.replace(`${words[check.word ?? '']}: `, ''))), beside(check)));
  };
  /** The numbers of a sentence in the reader's unit, below the sentence in its own. @type {(check: Check) => Element | false} */
  const beside = ({ kind, held, unit, symbol, values, lines }) => {
    if (!style.inch || counted(0, unit).unit === unit) return false;
    const own = (/** @type {number} */ v) => withUnit(exactly(v, unit), unitName(unit));
    const limit = limited();
    const expanded = lines.find((l) => l.name.startsWith('expanded uncertainty'))?.value;
    const words = held ? `The certificate is ${own(held.certificate)}, the deviation ${own(held.deviation)}, allowed ${own(held.allowed)}.`
      : kind === 'flat' && limit !== undefined ? `The limit is ${shown(limit, unit, 5)}.`
      : kind === 'budget' && typeof expanded === 'number' ? `${symbol} is ${shown(values[0] ?? 0, unit, 3)}, U ${shown(expanded, unit, 2)}.` : '';
    return words !== '' && el('p', { class: 'aside' }, words);
  };
  /** @type {(id: string, check: Check | undefined) => void} */
  const notes = (id, check) => fill(at.byId(id), ...(check?.notes ?? []).map((n) => el('li', {}, prose(n))));

  const asked = /** @type {Record<Kind, () => object>} */ ({
    specimen: () => ({ check: 'specimen', specimen: specimen(), tolerance: tolerance(), session: session() }),
    groove: () => {
      const value = number('groove-value', 'µm');
      return { check: 'groove', specimen: { symbol: 'd', type: 'A1', value, expanded: number('groove-u', 'µm'), k: 2 }, session: session() };
    },
    flat: () => ({ check: 'flat', limits: limits(), session: session() }),
  });
  // A picture belongs to the check that the worker made last, so each makes its own again before it is drawn.
  const pictures = (/** @type {[string, string, Kind][]} */ ([['specimen-picture', 'allowance', 'specimen'], ['groove-picture', 'groove', 'groove']])).map(([place, name, kind]) => {
    const picture = new Picture(place, `${kind}-numbers`, sheet);
    picture.what = () => (documents[kind] && (kind === 'groove' || documents[kind]?.held) ? { name, options: { of: { ...asked[kind](), profiles: traces[kind] } } } : null);
    return picture;
  });
  const budgetPicture = new Picture('budget-picture', 'budget-numbers', sheet);

  /** @type {(kind: Kind) => Promise<void>} */
  const check = async (kind) => {
    sheet.revision++;
    if (!traces[kind].length) {
      delete documents[kind];
      return show();
    }
    try {
      const request = asked[kind]();
      if (refused(needed[kind])) {
        delete documents[kind];
        return show();
      }
      const made = await client.call('instrument', request, traces[kind]);
      if (kind === 'specimen') spread = await client.call('summary', made.values);
      documents[kind] = made;
      pad.trouble('');
    } catch (error) {
      delete documents[kind];
      const { key, message } = /** @type {import('../furrow.js').FurrowError} */ (error);
      const said = `${message.replace(/^[a-z]+: /, '').replace(/^./, (c) => c.toUpperCase()).replace(/\.$/, '')}.`;
      if (key === 'specimen' && at.find(`${kind}-value`)) at.refuse(`${kind}-value`, said);
      else pad.trouble(said);
    }
    show();
  };

  /** Why a check with traces has no outcome. @type {(kind: Kind) => string} */
  const open = (kind) => (traces[kind].length && !documents[kind] && refused(needed[kind]) ? 'Nothing is checked until the field that cannot be read is corrected.' : '');
  const show = () => {
    const { specimen: s, groove: g, flat: f } = documents;
    at.byId('specimen-value-label').textContent = `Certificate, ${at.select('specimen-symbol').value} ${unitName('µm')}`;
    // specimen
    const values = s?.values ?? [];
    const table = at.byId('specimen-traces');
    table.hidden = !s;
    if (s) {
      const cells = /** @type {[string, number | null | undefined, number][]} */ ([...values.map((v, i) => [String(i + 1), v, 4]), ['mean', spread?.mean, 4], ['s', spread?.s, 2]]).flatMap(([name, v, digits]) => (v === null || v === undefined ? [] : /** @type {[string, number, string][]} */ ([[name, v, counting(v, s.unit, digits)]])));
      fill(table, el('caption', {}, `${values.length === 1 ? 'One trace' : `${values.length} traces`}${s.settings.length ? `: ${s.settings.join(', ')}` : ''}`),
        el('thead', {}, el('tr', {}, el('td'), ...cells.map(([name]) => el('th', { scope: 'col', class: 'num' }, name)))),
        el('tbody', {}, el('tr', {}, el('th', { scope: 'row' }, `${s.symbol}, ${unitName(s.unit)}`), ...cells.map(([name, v, words]) => el('td', { class: 'num', 'data-of': name, 'data-value': v }, words)))));
    }
    outcome('specimen-outcome', s, open('specimen'));
    notes('specimen-notes', s);
    const gain = at.byId('specimen-gain');
    gain.hidden = !s?.proposal;
    if (s?.proposal) fill(gain, el('p', {}, prose(s.proposal.text)));
    // groove and flat
    outcome('groove-outcome', g, open('groove'));
    notes('groove-notes', g);
    at.byId('noise-table').hidden = !f;
    if (f) {
      fill(at.byId('noise-table'), el('caption', { class: 'vh' }, 'Noise'), el('thead', {}, el('tr', {}, el('th', { scope: 'col' }, traces.flat.length === 1 ? 'One trace' : `${traces.flat.length} traces`), el('th', { scope: 'col', class: 'num' }, 'value'))),
        el('tbody', {}, ...f.lines.map((l) => el('tr', {}, el('th', { scope: 'row' }, l.name), el('td', { class: 'num', 'data-value': l.value }, l.value === null ? 'none' : shown(l.value, l.unit, 2))))));
    }
    outcome('noise-outcome', f, open('flat'));
    notes('noise-notes', f);
    // the whole
    const number14 = text('specimen-number');
    /** @type {[string, string][]} */
    const rows = [];
    if (s) rows.push([`specimen${number14 ? ` ${number14}` : ''}`, s.word ?? 'open']);
    if (g) rows.push(['groove', g.word ?? shown(g.values[0] ?? 0, g.unit, 4)]);
    const rz0 = f?.lines.find((l) => l.name.startsWith('Rz'));
    if (f) rows.push(['noise', rz0 && rz0.value !== null ? `Rz0 ${shown(rz0.value, rz0.unit, 2)}, ${f.word}` : (f.word ?? 'open')]);
    fill(at.byId('check-result'), ...(rows.length ? rows : [['checks', 'none yet']]).map(([name, word]) => el('div', {}, el('dt', {}, name), el('dd', {}, el('b', {}, word)))));
    /** @type {HTMLButtonElement} */ (at.byId('check-keep')).disabled = !rows.length;
    /** @type {HTMLButtonElement} */ (at.byId('check-export')).disabled = !rows.length;
    hints();
    history();
    for (const p of pictures) p.draw();
    budgetNow();
  };

  const hints = async () => {
    const { specimen: fine, groove: depth } = documents;
    const box = at.byId('check-tip-hint');
    box.hidden = true;
    if (!fine || !depth) return;
    const answer = await client.call('instrument', { check: 'tip', depth, fine });
    fill(box, ...answer.hints.map((/** @type {string} */ h) => prose(h)));
    box.hidden = !answer.hints.length;
  };

  // Earlier checks of this specimen, the latest ten, and whether they show a step or a drift.
  const history = async () => {
    /** @type {(c: Check) => Promise<number>} */
    const mean = async (c) => (await client.call('summary', c.values)).mean;
    const of = text('specimen-number');
    at.byId('earlier-h').textContent = of ? `Earlier checks of ${of}` : 'Earlier checks';
    const mine = earlier.filter((e) => of && e.fields['specimen-number'] === of && e.documents.specimen);
    const list = await Promise.all(mine.map(async (e) => ({ e, c: /** @type {Check} */ (e.documents.specimen), value: await mean(/** @type {Check} */ (e.documents.specimen)) })));
    if (of !== text('specimen-number')) return;
    fill(at.byId('check-earlier-list'), ...list.slice(-10).reverse().map(({ e, c, value }) => el('div', {}, el('dt', {}, e.date), el('dd', {}, `${shown(value, c.unit, 3)}, ${c.word}`))));
    const course = at.byId('check-course');
    course.hidden = true;
    if (mine.length < 2) return;
    const { sentence } = await client.call('instrument', { check: 'course', earlier: list.map(({ e, value }) => ({ date: e.date, value })) });
    course.textContent = prose(sentence);
    course.hidden = !sentence;
  };

  // The budget rests on the trace of the worksheet.
  const budgetNow = async () => {
    const out = at.byId('budget-out');
    const table = at.byId('budget-table');
    // A certificate counts for the parameter that it states, and for no other.
    const same = at.select('specimen-symbol').value === at.select('budget-symbol').value;
    const s = same ? documents.specimen : undefined;
    const stated = specimen(); // read in any case, so that what cannot be read is refused at its field
    const f = documents.flat;
    const noise = f?.lines.find((l) => l.name.startsWith('Rq'))?.value ?? undefined;
    const repeat = s && spread && spread.n > 1 && spread.s !== null ? spread.s : undefined;
    const drift = number('budget-drift');
    const request = { check: 'budget', symbol: at.select('budget-symbol').value, settings: worksheet?.required?.used?.settings ?? undefined, session: session(), budget: {
      ...(same && { certificate: stated.value, certificateU: stated.expanded, certificateK: stated.expanded ? stated.k : undefined }), repeat, repeats: repeat === undefined ? undefined : spread?.n,
      noise, tip: number('budget-tip', 'µm'), drift: drift === undefined ? undefined : drift / 100, spacing: true,
    } };
    /** @type {Check} */
    let b;
    sheet.revision++;
    try {
      if (refused([...(same ? ['specimen-value', 'specimen-u'] : []), 'budget-tip', 'budget-drift', 'check-gain'])) throw new Error('a field cannot be read');
      b = await client.call('instrument', request, [budgetOn]);
    } catch (error) {
      fill(table);
      fill(out);
      fill(at.byId('budget-said'), el('p', {}, `This cannot be worked out: ${/** @type {Error} */ (error).message}.`));
      budgetPicture.what = () => null;
      budgetPicture.draw();
      return;
    }
    budgetPicture.what = () => ({ name: 'budget', options: { of: { ...request, profiles: [budgetOn] } } });
    budgetPicture.draw();
    fill(table, el('caption', {}, `Budget of ${b.symbol}${drawn ? '' : ', on the demonstration trace'}`),
      el('thead', {}, el('tr', {}, el('th', { scope: 'col' }, 'Influence'), el('th', { scope: 'col', class: 'num' }, `Effect, ${unitName(b.unit)}`), el('th', { scope: 'col', class: 'num' }, 'Share'), el('th', { scope: 'col', class: 'src' }, 'Source'))),
      el('tbody', {}, ...b.lines.map((l) => el('tr', {}, el('th', { scope: 'row' }, prose(l.name)), el('td', { class: 'num', 'data-value': l.value }, l.value === null ? 'not known' : counting(l.value, l.unit, 2)),
        el('td', { class: 'num pct' }, l.share === null ? '' : `${figure(100 * l.share, 2)} %`, l.share !== null && bar(l.share)), el('td', { class: 'src' }, [l.source, l.basis].filter(Boolean).join(' · '))))));
    fill(at.byId('budget-said'), el('p', { class: 'say' }, prose(b.sentence)), beside(b), !same && text('specimen-value') && el('p', { class: 'aside' }, `The certificate states ${at.select('specimen-symbol').value}. It does not count for ${b.symbol}.`), ...b.notes.map((n) => el('p', { class: 'aside' }, prose(n))));
    const expanded = b.lines.find((l) => l.name.startsWith('expanded uncertainty'));
    fill(out, el('div', {}, el('dt', {}, b.symbol), el('dd', {}, shown(b.values[0] ?? 0, b.unit, 3))),
      el('div', {}, el('dt', {}, el('i', {}, 'U')), el('dd', {}, expanded && expanded.value !== null ? shown(expanded.value, b.unit, 2) : 'not known')));
  };

  // files, by button or drop
  for (const kind of /** @type {Kind[]} */ (['specimen', 'groove', 'flat'])) {
    const input = at.input(`${kind}-file-input`);
    const take = async (/** @type {Iterable<File>} */ files) => {
      const list = await readFiles(pad, [...files]);
      if (!list.length) return;
      traces[kind] = list;
      await check(kind);
      at.announce(`${documents[kind]?.sentence ?? ''}`);
    };
    at.press(`${kind}-file`, () => input.click());
    input.addEventListener('change', async () => {
      await take([...(input.files ?? [])]);
      input.value = '';
    });
    const place = kind === 'specimen' ? /** @type {HTMLElement} */ (input.closest('section')) : at.byId(kind);
    place.addEventListener('dragover', (event) => event.preventDefault());
    place.addEventListener('drop', (event) => {
      event.preventDefault();
      take([...(event.dataTransfer?.files ?? [])]);
    });
  }

  // fields
  const fieldsNow = () => Object.fromEntries(fields.map((id) => [id, text(id)]));
  const put = (/** @type {Record<string, string>} */ from, /** @type {string[]} */ ids) => {
    for (const id of ids) if (from[id] !== undefined) at.input(id).value = lengths.includes(id) ? clear(from[id], 'µm') : from[id];
  };
  for (const id of fields) {
    at.byId(id).addEventListener('change', async () => {
      at.accept(id);
      if (lengths.includes(id)) at.input(id).value = clear(text(id), unitName('µm'));
      if (id === 'check-instrument') {
        const last = earlier.filter((e) => e.instrument === text(id)).at(-1);
        if (last) put(last.fields, lasting.filter((f) => !text(f) || at.select(f).value === 'unknown'));
      }
      if (id === 'specimen-number') {
        const last = earlier.filter((e) => e.fields['specimen-number'] === text(id)).at(-1);
        if (last) put(last.fields, ofSpecimen);
      }
      store?.choose('check', { fields: fieldsNow() }).catch((error) => pad.kept.refused(error));
      if (id.startsWith('groove')) await check('groove');
      else if (id.startsWith('budget')) await budgetNow();
      else for (const kind of /** @type {Kind[]} */ (['specimen', 'groove', 'flat'])) await check(kind);
    });
  }

  // keeping
  const listEarlier = () => {
    at.byId('check-earlier').textContent = `Earlier checks (${earlier.length})`;
    fill(at.byId('specimen-known'), ...[...new Set(earlier.map((e) => e.fields['specimen-number']).filter(Boolean))].map((n) => el('option', { value: n })));
    fill(at.byId('check-earlier-box'), el('table', {}, el('caption', {}, 'Earlier checks'),
      el('thead', {}, el('tr', {}, ...['Date', 'Instrument', 'Specimen', 'Groove', 'Noise', ''].map((h) => (h ? el('th', { scope: 'col' }, h) : el('td'))))),
      el('tbody', {}, ...[...earlier].reverse().map((e, i) => el('tr', {}, el('th', { scope: 'row' }, e.date), el('td', {}, e.instrument),
        ...(/** @type {Kind[]} */ (['specimen', 'groove', 'flat'])).map((k) => el('td', {}, e.documents[k]?.word ?? 'none')),
        el('td', {}, el('button', { type: 'button', class: 'quiet', id: `check-remove-${i + 1}`, 'aria-label': `Remove the check of ${e.date}`, onclick: async () => {
          await store?.remove('checks', e.id);
          await reload();
        } }, 'Remove')))))));
  };
  const reload = async () => {
    earlier = store ? await store.checks() : [];
    listEarlier();
    history();
  };
  at.press('check-earlier', () => {
    const box = at.byId('check-earlier-box');
    box.hidden = !box.hidden;
    at.byId('check-earlier').setAttribute('aria-expanded', String(!box.hidden));
  });
  at.press('check-keep', async () => {
    if (!isDate(text('check-date'))) return at.refuse('check-date', 'A check is kept with its date: 2026-03-12.');
    if (!text('check-instrument')) return at.refuse('check-instrument', 'Name the instrument: its records take this check.');
    if (!store) return pad.kept.refused(pad.refusal);
    /** @type {KeptCheck} */
    const record = { id: newId(), instrument: text('check-instrument'), date: text('check-date'), fields: fieldsNow(), documents: { ...documents }, made: Date.now() };
    if (await pad.kept.during(() => store.put('checks', record))) at.announce('This check is kept.');
    await reload();
  });
  at.press('check-export', () => {
    const body = JSON.stringify({ fields: fieldsNow(), checks: Object.values(documents), caution: pad.catalogue.caution }, null, 1);
    const link = el('a', { href: URL.createObjectURL(new Blob([body], { type: 'application/json' })), download: `check-${text('check-date') || 'undated'}.json` });
    link.click();
    setTimeout(() => URL.revokeObjectURL(link.href), 1000);
  });
  at.press('check-print', () => print());
  register(pad);

  const symbols = [...new Set([...(worksheet?.required?.answer.limits ?? []).flatMap((l) => l.symbol ?? []), ...(worksheet?.asked ?? ['Rz', 'Ra'])])];
  fillSelect(at.select('budget-symbol'), symbols.map((s) => [s, s]), symbols[0]);
  at.select('budget-symbol').addEventListener('change', budgetNow);
  put({ 'check-date': new Date().toISOString().slice(0, 10), 'check-gain': '1' }, ['check-date', 'check-gain']);
  const before = store && (await store.choice('check'));
  if (before) put(before.fields, fields.filter((f) => f !== 'check-date'));
  await reload();
  pad.kept.nothing(earlier.length ? 'Earlier checks are kept on this device' : 'Nothing to keep yet');
  show();
});
