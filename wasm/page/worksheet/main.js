// The worksheet: wires the steps together, and opens with the demonstration.
import { el } from '../shared/dom.js';
import { Memo } from '../shared/memo.js';
import { openPad } from '../shared/shell.js';
import { answer } from './answer.js';
import { head } from './head.js';
import { Keeper } from './keeper.js';
import { keys } from './keys.js';
import { follow, heldIn } from './link.js';
import { make } from './make.js';
import { menu } from './menu.js';
import { reader } from './reader.js';
import { record } from './record.js';
import { Sheet } from './sheet.js';
import { demonstrate } from './state.js';
import { requirement } from './step1.js';
import { trace } from './step2.js';
import { primary } from './step3.js';
import { filters } from './step4.js';
import { profile } from './step5.js';
import { values } from './step6.js';
import { verdict } from './step7.js';

/** The control that shows what is wrong with a setting. @type {Record<string, string>} */
const controls = {
  edition: 'requirement-edition', form: 'form-kind', 'form.degree': 'form-degree', 'form.radius': 'form-radius', short: 'short-cutoff', 'short.cutoff': 'short-cutoff',
  long: 'long-cutoff', 'long.cutoff': 'long-cutoff', 'long.filter': 'long-kind', 'long.ends': 'long-ends', sections: 'sections-count', section: 'sections-length', start: 'sections-start',
  parameters: 'values-asked', u: 'verdict-u', prove: 'verdict-proof', typed: 'value-typed',
};

openPad(document, async (pad) => {
  const { at, client } = pad;
  const sheet = new Sheet(pad);
  for (const id of ['verdict-caution', 'answer-caution']) at.byId(id).textContent = pad.catalogue.caution;
  answer(sheet);
  requirement(sheet);
  trace(sheet, (from, to) => part.leaveOut(from, to));
  make(sheet);
  primary(sheet);
  filters(sheet);
  const part = profile(sheet);
  values(sheet);
  verdict(sheet);
  record(sheet, pad);
  const { readText } = reader(sheet);
  head(sheet);

  const stop = () => {
    if (at.byId('busy').hidden) return;
    sheet.onbusy('');
    client.stop();
    sheet.lost();
  };
  at.press('busy-stop', stop);
  keys(sheet, { readText, stop });
  sheet.onbusy = (what) => {
    at.byId('busy').hidden = !what;
    at.byId('busy-text').textContent = what;
  };
  const { onrestart } = client;
  client.onrestart = () => {
    sheet.lost();
    onrestart();
  };
  sheet.onstopped = (id) => {
    const label = sheet.state.traces.find((t) => t.id === id)?.label;
    if (label) pad.trouble(`It stopped again with ${label}. Leave this file out?`, el('button', { type: 'button', id: 'stopped-leave', onclick: () => {
      pad.trouble('');
      sheet.remove(id);
    } }, 'Leave this file out'));
  };
  sheet.onrefuse = (error, field) => {
    const { kind, key } = /** @type {import('../furrow.js').FurrowError} */ (error);
    if (kind === 'stopped') return;
    const place = (key && (controls[key] ?? controls[key.replace(/[[.].*/, '')])) || field;
    const said = error.message.replace(/\b(params|roughness|record|filter): /g, '').replace(/\.$/, '');
    const message = `${said[0].toUpperCase()}${said.slice(1)}. The earlier value stays in use.`;
    if (place && at.find(place)) at.refuse(place, message);
    else pad.trouble(message);
  };
  for (const part of at.root.querySelectorAll('details')) part.addEventListener('toggle', () => dispatchEvent(new Event('resize')));
  const keeper = new Keeper(sheet, pad);
  const [decimal = '.', units = 'metric'] = await Promise.all(['decimal', 'units'].map((name) => pad.store?.choice(name).catch(() => undefined)));
  const demo = () => demonstrate(sheet, { decimal, units }).catch((error) => sheet.onrefuse(error, ''));
  if (client.memo) confirm(client.memo, pad, sheet, keeper);
  menu(sheet, pad, keeper, { demo });
  try {
    const held = heldIn(location.hash);
    if (held) {
      await demo();
      await follow(sheet, held);
      history.replaceState(null, '', location.pathname);
      return;
    }
  } catch (error) {
    pad.trouble(`The link cannot be used: ${/** @type {Error} */ (error).message}.`);
  }
  if (await keeper.open().catch((error) => pad.kept.refused(error))) return;
  await demo();
}, Memo);

/** Says while what is shown is known only from before, and asks for it anew where the calculation answers otherwise. @type {(memo: Memo, pad: import('../shared/shell.js').Pad, sheet: Sheet, keeper: Keeper) => void} */
function confirm(memo, pad, sheet, keeper) {
  memo.onsure = (sure) => {
    pad.at.byId('answer').setAttribute('aria-busy', String(!sure));
    if (sure) keeper.changed();
  };
  memo.ondiffer = async (stopped) => {
    await pad.client.started.catch(() => new Promise(() => {})); // without a calculation nothing becomes sure, and the shell says so
    if (!stopped) pad.trouble('The calculation gave another answer than the one known from before. Everything shown here is calculated anew.');
    await sheet.whenSettled();
    await keeper.flush();
    if (!(await keeper.load(keeper.id).catch(() => false))) sheet.lost();
    await sheet.whenSettled();
  };
}
