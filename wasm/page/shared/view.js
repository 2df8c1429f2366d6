// What of the page is in view: only that is drawn anew while something moves.

/** What is watched, with what is done when it comes into view. @type {WeakMap<Element, () => void>} */
const watched = new WeakMap();
/** @type {WeakSet<Element>} */
const inside = new WeakSet();
const observer = new IntersectionObserver((entries) => {
  for (const { target, isIntersecting } of entries) {
    if (isIntersecting) inside.add(target);
    else inside.delete(target);
    if (isIntersecting) watched.get(target)?.();
  }
}, { rootMargin: '50px' });

/** Watches an element; enter is called whenever it comes into view. @type {(e: Element, enter: () => void) => void} */
export function watch(e, enter) {
  watched.set(e, enter);
  observer.observe(e);
}

/** Whether a watched element is in view, or nearly. @type {(e: Element) => boolean} */
export const inView = (e) => inside.has(e);
