// What a program does with the package, in every host alike; the test compares what comes out.
import { FurrowError, load } from 'furrow';
import { load as thread } from 'furrow/worker';

const settings = { parameters: ['Ra', 'Rz'] };

/** What a call refuses with. */
const refused = async (call) => {
  try {
    await call();
    return 'nothing';
  } catch (error) {
    return error instanceof FurrowError ? error.kind : String(error);
  }
};

/** crowd is how many evaluations come between an evaluation and a question about it: with some more than 220 it has to be made again. */
export async function run(crowd = 0) {
  const furrow = await load();
  const { profile } = furrow.demo(furrow.demos()[0].key);
  const e = furrow.evaluate(profile, settings);
  const other = furrow.evaluate({ z: [...profile.z], spacing: profile.spacing }, { ...settings, long: { cutoff: 2500 } });
  const found = {
    version: furrow.version.furrow,
    values: e.values.map(({ value }) => value),
    other: other.values.map(({ value }) => value),
    constructed: [e, other].map((one) => one.construct('Rz').result),
    heights: [...e.profiles('R').R].slice(0, 5),
    profiles: [Object.keys(e.profiles('R', 'W')).join(), Object.keys(e.profiles()).length],
    svg: e.figure('profile', { width: 400 }).svg.startsWith('<svg'),
    word: e.judge('Rz 3.2').word,
  };
  e.close();
  const kept = new Float64Array(profile.z);
  const copied = furrow.evaluate({ z: kept, spacing: profile.spacing }, settings);
  kept.fill(0);
  const others = Array.from({ length: crowd }, () => furrow.evaluate({ z: profile.z, spacing: profile.spacing }, { parameters: ['Ra'], short: null, long: null, form: { kind: 'none' } }));
  found.again = copied.construct('Rz').result;
  for (const one of others) one.close();
  found.refused = {
    closed: await refused(() => e.construct('Rz')),
    settings: await refused(() => furrow.evaluate(profile, { long: { cutoff: -1 } })),
    none: await refused(() => furrow.evaluate(profile, { start: NaN })),
    heights: await refused(() => furrow.evaluate({ z: ['1'], spacing: 1 })),
    symbol: await refused(() => other.construct('Rfoo')),
    profile: await refused(() => other.profiles('roughness')),
    file: await refused(() => furrow.read(new TextEncoder().encode('%PDF-1.7\n1 2\n'))),
    question: await refused(() => furrow.read(new TextEncoder().encode('1\n2\n3\n'))),
    text: await refused(() => furrow.read('1\n2\n')),
    module: await refused(() => load(new Uint8Array(8))),
  };

  const beside = await thread();
  const there = await beside.evaluate(profile, settings);
  found.there = there.values.map(({ value }) => value);
  const long = there.steady('Rz');
  beside.stop();
  found.refused.stopped = await refused(() => long);
  found.afterStop = (await there.construct('Rz')).result;
  found.refused.thereSettings = await refused(() => beside.evaluate(profile, { long: { cutoff: -1 } }));
  found.refused.thereHeights = await refused(() => beside.evaluate({ z: 'none', spacing: 1 }));
  await there.close();
  found.refused.thereClosed = await refused(() => there.profiles('R'));
  beside.close();
  found.refused.thereAll = await refused(() => beside.demos());
  return found;
}
