// The head of the worksheet: name, undo, redo, clear, decimal mark.
import { blank } from './sheet.js';

/** @type {(sheet: import('./sheet.js').Sheet) => void} */
export function head(sheet) {
  const { at } = sheet;
  const undo = /** @type {HTMLButtonElement} */ (at.byId('undo'));
  const redo = /** @type {HTMLButtonElement} */ (at.byId('redo'));
  const clear = at.byId('clear-all');
  const form = /** @type {HTMLFormElement} */ (at.byId('sheet-rename'));
  const title = /** @type {HTMLElement} */ (form.previousElementSibling);
  at.press('undo', () => sheet.undo());
  at.press('redo', () => sheet.redo());
  at.radios('mark', (decimal) => sheet.change({ decimal }));
  let sure = 0;
  clear.addEventListener('click', () => {
    if (!sure) {
      clear.textContent = 'Clear trace and settings? You can undo it.';
      sure = setTimeout(() => {
        sure = 0;
        clear.textContent = 'Clear this sheet';
      }, 6000);
      return;
    }
    clearTimeout(sure);
    sure = 0;
    clear.textContent = 'Clear this sheet';
    sheet.change({ ...blank, decimal: sheet.state.decimal });
  });
  at.press('sheet-name', () => {
    form.hidden = false;
    title.hidden = true;
    at.input('sheet-name-text').value = sheet.name;
    at.input('sheet-name-text').select();
  });
  const close = () => {
    form.hidden = true;
    title.hidden = false;
    at.byId('sheet-name').focus();
  };
  at.press('sheet-name-leave', close);
  form.addEventListener('keydown', (event) => event.key === 'Escape' && close());
  form.addEventListener('submit', (event) => {
    event.preventDefault();
    const typed = at.input('sheet-name-text').value.trim();
    if (typed !== sheet.name) sheet.change({ name: typed });
    close();
  });
  // The sheet in one line, while its first part is out of sight.
  new IntersectionObserver(([first]) => {
    at.byId('running-line').hidden = first.isIntersecting || first.boundingClientRect.top > 0;
  }).observe(/** @type {Element} */ (at.root.querySelector('.pair')));
  sheet.renderers.push(() => {
    undo.disabled = !sheet.canUndo;
    redo.disabled = !sheet.canRedo;
    at.showRadio('mark', sheet.state.decimal);
    at.byId('sheet-title').textContent = sheet.name;
    document.title = `${sheet.name} · furrow`;
    for (const bad of at.root.querySelectorAll('[aria-invalid=true]')) if (bad !== document.activeElement && bad.id && !bad.id.startsWith('ask-') && !bad.id.startsWith('leave-out')) bad.addEventListener('input', () => at.accept(bad.id), { once: true });
  });
}
