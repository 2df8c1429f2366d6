// Use without a network: registers the service worker, says when all files are there, and offers a new version without ever mixing two.
import { fetchParts } from './begin.js';
import { Client } from './client.js';
import { el, fill } from './dom.js';

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
    const said = el('span', { id: 'update-values' }, 'After the change the values are calculated again.');
    const list = el('ul', { hidden: true });
    const box = el('div', { class: 'ask', id: 'update', role: 'status' },
      el('p', {}, 'A new version of furrow is ready. This sheet was made with ', el('b', {}, pad.version.furrow), '. ', said), list,
      el('p', { class: 'acts' },
        el('button', { type: 'button', id: 'update-now', onclick: () => worker.postMessage('take over') }, 'Change to the new version'),
        el('button', { type: 'button', id: 'update-later', onclick: () => box.remove() }, `Stay with ${pad.version.furrow} for this sheet`)));
    (pad.at.root.querySelector('.page') ?? pad.at.byId('main')).prepend(box);
    changes(pad, worker).then((differ) => {
      if (!differ) return;
      const n = differ.length;
      said.textContent = n === 0 ? 'No value of this sheet changes.' : n === 1 ? 'One value changes:' : `${n} values change:`;
      fill(list, ...differ.map((d) => el('li', {}, `${d.text}.`)));
      list.hidden = !n;
    }, () => {}); // what was said before stays true
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

/** An address without the part of a checksum that a copy for another server puts into names. @type {(address: string) => string} */
const plain = (address) => address.replace(/-[0-9a-f]{8}(?=\.\w+$)/, '');

/**
 * What the new version makes of the sheet: it lies whole in its cache, so the sheet's record is calculated again with it. Null where there is no sheet.
 * @type {(pad: import('./shell.js').Pad, worker: ServiceWorker) => Promise<readonly {text: string}[] | null>}
 */
async function changes(pad, worker) {
  const record = await pad.record();
  if (!record) return null;
  const version = await new Promise((tell) => {
    const { port1, port2 } = new MessageChannel();
    port1.onmessage = ({ data }) => tell(data);
    worker.postMessage('version', [port2]);
  });
  const cache = await caches.open(`furrow-${version}`);
  const files = await cache.keys();
  const next = new Client(() => fetchParts(async (name) => {
    const wanted = plain(new URL(`../${name}`, import.meta.url).href);
    const key = files.find(({ url }) => plain(url) === wanted);
    const file = key && (await cache.match(key));
    if (!file) throw new Error(`the new version has no ${name}`);
    return file;
  }));
  try {
    return (await next.call('verify', record)).differences;
  } finally {
    next.close();
  }
}
