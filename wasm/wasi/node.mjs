// A host in JavaScript: node --no-warnings node.mjs furrow.wasm SPACING < heights.bin, with settings as a third argument. It prints the answer.
import { readFileSync } from "node:fs";
import { WASI } from "node:wasi";

const [path, spacing, settings = ""] = process.argv.slice(2);
const wasi = new WASI({ version: "preview1", args: [], env: {}, preopens: {} });
const { instance } = await WebAssembly.instantiate(readFileSync(path), wasi.getImportObject());
wasi.initialize(instance);
const furrow = instance.exports;
if (furrow.furrow_version() !== 1) throw new Error("another version of the module");

// lend copies bytes into the module.
function lend(bytes) {
  const at = bytes.length && furrow.furrow_alloc(bytes.length);
  if (bytes.length && !at) throw new Error("no memory");
  new Uint8Array(furrow.memory.buffer).set(bytes, at);
  return at;
}

const blocks = [];
for await (const block of process.stdin) blocks.push(block);
const heights = Buffer.concat(blocks);
const text = Buffer.from(settings);
const z = lend(heights);
const s = lend(text);
const status = furrow.furrow_evaluate(z, heights.length / 8, Number(spacing), s, text.length);
const from = furrow.furrow_answer();
const answer = Buffer.from(furrow.memory.buffer, from, furrow.furrow_answer_length()).toString();
furrow.furrow_free(z);
furrow.furrow_free(s);
process.stdout.write(answer);
process.exitCode = status;
