// Keys of the whole sheet; those of a control stand with the control. The table at the foot of the page lists them all.

/** Whether keys belong to the element itself. @type {(e: EventTarget | null) => boolean} */
const typing = (e) => e instanceof HTMLElement && (e.matches('input[type=text], textarea') || e.isContentEditable);

/** @type {(sheet: import('./sheet.js').Sheet, acts: {readText: (text: string) => void, stop: () => void}) => void} */
export function keys(sheet, { readText, stop }) {
  document.addEventListener('keydown', (event) => {
    if (event.key === 'Escape') stop();
    if (!(event.ctrlKey || event.metaKey) || event.altKey || typing(event.target)) return;
    const key = event.key.toLowerCase();
    if (key === 'z' && !event.shiftKey) {
      event.preventDefault();
      sheet.undo();
    } else if (key === 'y' || (key === 'z' && event.shiftKey)) {
      event.preventDefault();
      sheet.redo();
    }
  });
  document.addEventListener('paste', (event) => {
    if (typing(event.target)) return;
    const text = event.clipboardData?.getData('text/plain');
    if (text) readText(text);
  });

  // From one step's title to the next.
  const titles = /** @type {HTMLElement[]} */ ([...sheet.at.root.querySelectorAll('.step > summary')]);
  for (const [i, title] of titles.entries()) {
    title.addEventListener('keydown', (event) => {
      const to = { ArrowDown: i + 1, ArrowUp: i - 1, Home: 0, End: titles.length - 1 }[event.key];
      if (to === undefined || event.ctrlKey || event.metaKey || event.altKey) return;
      event.preventDefault();
      titles[to]?.focus();
    });
  }
}
