// Measures calls of the npm package in node, in milliseconds of processor time:
//
//   go run ./wasm/build -npm && node testdata/bench/module.mjs [FOLDER...]
//
// With several folders of built packages or pages it measures them in turns, so that two versions are compared in one run.
import { readFileSync } from 'node:fs';
import { resolve } from 'node:path';

const folders = process.argv.length > 2 ? process.argv.slice(2) : [new URL('../../wasm/npm/package', import.meta.url).pathname];
const versions = [];
for (const folder of folders.map((f) => resolve(f))) {
  const { load } = await import(`${folder}/furrow.js`);
  versions.push({ folder, furrow: await load(readFileSync(`${folder}/furrow.wasm`)) });
}
const [{ furrow }] = versions;
const { profile } = furrow.demo(furrow.demos()[0].key);

const now = () => {
  const { user, system } = process.cpuUsage();
  return (user + system) / 1000;
};

const moved = (i) => ({ cutoff: 800 + i / 10 });
const calls = {
  'Ra and Rz, the same again': () => ({ parameters: ['Ra', 'Rz'] }),
  'Ra and Rz, cut-off moved': (i) => ({ parameters: ['Ra', 'Rz'], long: moved(i) }),
  'whole catalogue, cut-off moved': (i) => ({ long: moved(i) }),
};
for (const v of versions) for (let i = 0; i < 30; i++) v.furrow.evaluate(profile, { long: moved(-i) }).close?.();
for (const [name, settings] of Object.entries(calls)) {
  const times = versions.map(() => []);
  for (let i = 0; i < 100; i++) {
    versions.forEach((v, k) => {
      const start = now();
      v.furrow.evaluate(profile, settings(i)).close?.();
      times[k].push(now() - start);
    });
  }
  versions.forEach((v, k) => {
    const t = times[k].sort((a, b) => a - b);
    console.log(`${name}: least ${t[0].toFixed(2)} ms, median ${t[50].toFixed(2)} ms  ${v.folder}`);
  });
}
