// Use without a network: registers the service worker, says when all files are there, and offers a new version without ever mixing two.
import { el } from './dom.js';

/** @type {(pad: import('./shell.js').Pad) => Promise<void>} */
export async function offline(pad) {
  if (!('serviceWorker' in navigator)) return;
  const registration = await navigator.serviceWorker.register(new URL('../sw.js', import.meta.url));
  const ready = () => pad.kept.also('works offline');
  if (registration.active) ready();
  else navigator.serviceWorker.ready.then(ready);

  /** @param {ServiceWorker} worker a version that is fetched whole and waits */
  const offer = (worker) => {
    if (pad.at.find('update')) return;
    const box = el('div', { class: 'ask', id: 'update', role: 'status' },
      el('p', {}, 'A new version of furrow is ready. This sheet was made with ', el('b', {}, pad.version.furrow), '. After the change the values are calculated again.'),
      el('p', { class: 'acts' },
        el('button', { type: 'button', id: 'update-now', onclick: () => worker.postMessage('take over') }, 'Change to the new version'),
        el('button', { type: 'button', id: 'update-later', onclick: () => box.remove() }, `Stay with ${pad.version.furrow} for this sheet`)));
    (pad.at.root.querySelector('.page') ?? pad.at.byId('main')).prepend(box);
  };
  if (registration.waiting && navigator.serviceWorker.controller) offer(registration.waiting);
  registration.addEventListener('updatefound', () => {
    const worker = registration.installing;
    worker?.addEventListener('statechange', () => {
      if (worker.state === 'installed' && navigator.serviceWorker.controller) offer(worker);
    });
  });
  // Every window goes to the new version at once: two never work side by side.
  let controlled = !!navigator.serviceWorker.controller;
  navigator.serviceWorker.addEventListener('controllerchange', () => {
    if (controlled) location.reload();
    controlled = true;
  });
}
