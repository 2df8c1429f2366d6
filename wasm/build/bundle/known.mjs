// Writes what the page knows before its module has started: what every sheet starts with, and what the calculation answers to the worksheet with
// the demonstration. The scripts of the page ask, and the module that was built answers.
//
//	node known.mjs FOLDER VERSION OUTPUT
import { readFile, writeFile } from 'node:fs/promises';
import { pathToFileURL } from 'node:url';

const [folder, version, output] = process.argv.slice(2);
const page = (name) => new URL(name, pathToFileURL(`${folder}/`));
const waiting = new Map();
let hear;
// What the scripts look for in a browser.
globalThis.addEventListener = (_, listener) => (hear = listener);
globalThis.postMessage = ({ id, value, fault }) => (fault ? waiting.get(id).reject(new Error(fault.message)) : waiting.get(id).resolve(value));
globalThis.IntersectionObserver = class {};
globalThis.document = {};

await import(page('worker.js'));
hear({ data: { module: await WebAssembly.compile(await readFile(page('furrow.wasm'))) } });
const post = (name, args) => new Promise((resolve, reject) => {
  const id = waiting.size;
  waiting.set(id, { resolve, reject });
  hear({ data: { id, name, args } });
});
const [{ Memo }, { Sheet }, { demonstrate, display, blank }] = await Promise.all(['shared/memo.js', 'worksheet/sheet.js', 'worksheet/state.js'].map((name) => import(page(name))));
const start = await post('start', []);
const memo = new Memo({ version, answers: {} });
const sheet = new Sheet({ client: { call: (name, ...args) => memo.answer(name, args, post(name, args), () => {}) }, at: { showUnits() {}, announce() {} }, ...start });
let refused;
sheet.onrefuse = (error) => (refused = error);
await demonstrate(sheet, display(blank));
await sheet.whenSettled();
if (refused) throw refused;
await writeFile(output, JSON.stringify({ version, start, answers: memo.kept.answers }));
process.exit(); // the module waits for calls
