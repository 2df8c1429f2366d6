// The sheet Study: where a number comes from, and what moves it. Nothing here changes the worksheet.
import { style } from '../shared/numbers.js';
import { openPad } from '../shared/shell.js';
import { latest } from '../worksheet/keeper.js';
import { Sheet } from '../worksheet/sheet.js';
import { code } from './code.js';
import { Exercise } from './exercise.js';
import { fade } from './fade.js';
import { formula } from './formula.js';
import { give } from './give.js';
import { guess } from './guess.js';
import { hand } from './hand.js';
import { link } from './link.js';
import { made } from './made.js';
import { move } from './move.js';
import { picks } from './picks.js';
import { predict } from './predict.js';
import { Study } from './study.js';
import { view } from './view.js';

openPad(document, async (pad) => {
  const { at, client } = pad;
  const study = new Study(pad);
  const tables = await client.call('study', { do: 'tables' });
  study.onrefuse = (message, field) => {
    const said = `${message.replace(/\.$/, '')}. The earlier value stays in use.`;
    if (field && at.find(field)) at.refuse(field, said);
    else pad.trouble(said);
  };
  const { onrestart } = client;
  client.onrestart = () => {
    study.lost();
    onrestart();
  };
  // The decimal mark is the reader's, on all sheets.
  style.mark = (await pad.store?.choice('decimal').catch(() => undefined)) ?? '.';
  at.showRadio('mark', style.mark);
  at.radios('mark', (mark) => {
    style.mark = mark;
    pad.store?.choose('decimal', mark).catch(() => {});
    study.run();
  });
  view(study);
  picks(study, tables);
  move(study, tables);
  made(study, tables);
  hand(study);
  formula(study);
  fade(study);
  const exercise = new Exercise();
  guess(study, exercise);
  predict(study, tables, exercise);
  code(study, exercise);
  give(study);
  const { open } = link(study, exercise);
  study.ofSheet = await worksheet(pad).catch(() => null);
  at.input('study-surface-sheet').disabled = !study.ofSheet;
  /** @type {HTMLElement} */ (at.input('study-surface-sheet').closest('label')).hidden = !study.ofSheet;
  addEventListener('keydown', (event) => {
    if (!(event.ctrlKey || event.metaKey) || /** @type {HTMLElement} */ (event.target).matches('input[type=text], textarea')) return;
    const act = { z: () => study.undo(), y: () => study.redo() }[event.key.toLowerCase()];
    if (!act) return;
    event.preventDefault();
    act();
  });
  if (!(await open().catch((error) => void pad.trouble(`The link cannot be used: ${error.message}.`)))) {
    pad.kept.nothing('Demonstration, nothing to keep');
    study.run();
  }
});

/** The trace of the worksheet, and the exercise on it; null without a trace of its own. @type {(pad: import('../shared/shell.js').Pad) => Promise<import('./study.js').OfSheet | null>} */
async function worksheet(pad) {
  const kept = pad.store && (await latest(pad));
  if (!kept) return null;
  const sheet = new Sheet(pad);
  sheet.state = kept.state;
  const { trace } = sheet;
  if (!trace || trace.demo) return null;
  const settings = await pad.client.beside(() => true, 'complete', sheet.compose(), trace.profile.spacing);
  const { long, short, sections, section, start } = settings;
  return {
    name: trace.label, profile: trace.profile, settings,
    state: {
      edition: settings.edition, letter: sheet.letter, surface: 'sheet', filter: { kind: 'own', ...(long?.cutoff && { long: long.cutoff / 1000 }), ...(short?.cutoff && { short: short.cutoff }) },
      sections: { number: sections, length: (section ?? long?.cutoff ?? 0) / 1000, ...(start !== null && { start: start / 1000 }) },
    },
  };
}
