// The head of the worksheet: name, undo, redo, the line that stays in sight, and the way into hidden steps.
import { without } from './state.js';

/** @type {(sheet: import('./sheet.js').Sheet) => void} */
export function head(sheet) {
  const { at } = sheet;
  const undo = /** @type {HTMLButtonElement} */ (at.byId('undo'));
  const redo = /** @type {HTMLButtonElement} */ (at.byId('redo'));
  const form = /** @type {HTMLFormElement} */ (at.byId('sheet-rename'));
  const title = /** @type {HTMLElement} */ (form.previousElementSibling);
  at.press('undo', () => sheet.undo());
  at.press('redo', () => sheet.redo());
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
  // The sheet in one line, while the answer is out of sight.
  new IntersectionObserver(([first]) => {
    at.byId('running-line').hidden = first.isIntersecting || first.boundingClientRect.top > 0;
  }).observe(at.byId('answer'));
  // A link into a hidden step shows it; a link to a field goes into it.
  at.root.addEventListener('click', ({ target }) => {
    const link = target instanceof Element && target.closest('a[href^="#"]');
    const to = link && at.find(link.getAttribute('href')?.slice(1) ?? '');
    const step = to && to.closest('details');
    if (step) step.open = true;
    if (to instanceof HTMLInputElement || to instanceof HTMLButtonElement) setTimeout(() => to.focus());
  });
  // A hidden step that differs from the requirement shows itself once.
  /** @type {Set<string>} */
  const differing = new Set();
  let first = true;
  const apart = ', differs from the requirement';
  sheet.renders(() => {
    for (const id of ['primary', 'filters', 'profile']) {
      const differs = !at.byId(`${id}-changed`).hidden;
      const step = /** @type {HTMLDetailsElement} */ (at.byId(id));
      if (differs && !differing.has(id) && !first) step.open = true;
      if (differs) differing.add(id);
      else differing.delete(id);
      const gist = at.byId(id).querySelector('.gist');
      if (differs && !gist?.textContent?.endsWith(apart)) gist?.append(apart);
    }
    first = !sheet.evaluation && first;
  });
  sheet.renders(() => {
    undo.disabled = !sheet.canUndo;
    redo.disabled = !sheet.canRedo;
    // One button is filled: the next thing to do.
    const own = !without(sheet.state);
    at.byId('trace-file').classList.toggle('main', !own);
    at.byId('record-save').classList.toggle('main', own);
    at.byId('sheet-title').textContent = sheet.name;
    document.title = `${sheet.name} · furrow`;
    for (const bad of at.root.querySelectorAll('[aria-invalid=true]')) if (bad !== document.activeElement && bad.id && !bad.id.startsWith('ask-') && !bad.id.startsWith('leave-out')) bad.addEventListener('input', () => at.accept(bad.id), { once: true });
  });
}
