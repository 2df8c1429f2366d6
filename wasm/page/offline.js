// Keeps the page for use without a network. The build puts the version and the list of files with their checksums before this text and
// calls the whole sw.js. A version is fetched whole, each file is compared with its checksum, and only then it can be used: a page gets all
// its files from one version. Nothing but files of the page's own folder is fetched or kept.

/** @type {string} */
const prefix = 'furrow-';
const scope = /** @type {any} */ (self);
const folder = new URL('./', scope.location.href).href;

/** The name of a file in the folder: index.html for the folder itself; '' for what lies elsewhere. @type {(address: string) => string} */
function nameOf(address) {
  const { origin, pathname } = new URL(address);
  const whole = origin + pathname;
  return whole.startsWith(folder) ? decodeURIComponent(whole.slice(folder.length)) || 'index.html' : '';
}

/** A file of this version; another one than the list says is refused. @type {(cache: Cache, name: string, sum: string) => Promise<void>} */
async function keep(cache, name, sum) {
  const response = await fetch(folder + name, { cache: 'no-store' });
  const bytes = await response.arrayBuffer();
  const digest = new Uint8Array(await crypto.subtle.digest('SHA-256', bytes));
  const found = [...digest].map((b) => b.toString(16).padStart(2, '0')).join('');
  if (!response.ok || found !== sum) throw new Error(`${name} is not the one of version ${version}`);
  const headers = new Headers();
  for (const kept of ['Content-Type', 'Content-Security-Policy', 'X-Content-Type-Options', 'Referrer-Policy']) {
    const value = response.headers.get(kept);
    if (value) headers.set(kept, value);
  }
  await cache.put(folder + name, new Response(bytes, { headers }));
}

scope.addEventListener('install', (/** @type {any} */ event) => event.waitUntil((async () => {
  const cache = await caches.open(prefix + version);
  for (const [name, sum] of Object.entries(files)) await keep(cache, name, sum);
})().catch(async (error) => {
  await caches.delete(prefix + version);
  throw error;
})));

// Older versions go when no page uses them any more.
scope.addEventListener('activate', (/** @type {any} */ event) => event.waitUntil((async () => {
  for (const name of await caches.keys()) if (name.startsWith(prefix) && name !== prefix + version) await caches.delete(name);
  await scope.clients.claim();
})()));

scope.addEventListener('fetch', (/** @type {any} */ event) => {
  const name = nameOf(event.request.url);
  if (event.request.method !== 'GET' || !(name in files)) return;
  event.respondWith(caches.open(prefix + version).then(async (cache) => (await cache.match(folder + name)) ?? fetch(event.request)));
});

// The reader has chosen the new version.
scope.addEventListener('message', (/** @type {any} */ { data, ports }) => {
  if (data === 'take over') scope.skipWaiting();
  if (data === 'version') ports[0].postMessage(version);
});
