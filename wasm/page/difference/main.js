// The sheet Difference: why a value of the worksheet's trace is not the value that somebody else has. It never changes the worksheet.
import { openPad } from '../shared/shell.js';
import { el, fill } from '../shared/dom.js';
import { latest } from '../worksheet/keeper.js';
import { Sheet } from '../worksheet/sheet.js';
import { demoTrace } from '../worksheet/state.js';
import { editions } from './editions.js';
import { printed } from './printed.js';
import { side } from './side.js';
import { steady } from './steady.js';
import { leading, said } from './words.js';

openPad(document, async (pad) => {
  const { at } = pad;
  const sheet = new Sheet(pad);
  for (const id of ['printed', 'side', 'edition', 'steady']) at.byId(`${id}-caution`).textContent = pad.catalogue.caution;
  sheet.onrefuse = (error) => pad.trouble(error.message);
  const { onrestart } = pad.client;
  pad.client.onrestart = () => {
    sheet.lost();
    onrestart();
  };
  const right = side(sheet, pad);
  const parts = [printed(sheet, (settings, name) => right.take(settings, name)), right, editions(sheet), steady(sheet)];
  sheet.renders(() => {
    const { trace, evaluation } = sheet;
    at.byId('differ').hidden = !trace;
    at.byId('differ-empty').hidden = Boolean(trace);
    const value = trace && evaluation?.result.values.find((v) => leading(sheet).includes(v.symbol));
    fill(at.byId('differ-intro'), 'One trace, two evaluations. The trace and the requirement come from the worksheet: ',
      el('a', { href: 'index.html' }, trace ? sheet.name : 'no trace yet'), value ? `, ${value.symbol} ${said(value.value, value.unit, 3)}.` : '.');
  });
  let shown = -1;
  sheet.renders(() => {
    if (!sheet.evaluation || shown === sheet.revision) return;
    shown = sheet.revision;
    for (const part of parts) part.update();
  });
  const demo = async () => sheet.replace([demoTrace(await pad.demo())]);
  at.press('differ-demo', demo);
  const kept = pad.store && (await latest(pad));
  if (kept) {
    pad.kept.since(kept.changed);
    sheet.remember({ state: kept.state, past: [], future: [], typed: kept.state.required?.text ?? '' });
  } else {
    pad.kept.nothing('Demonstration, nothing to keep');
    await demo();
  }
});
