// Every call with its types, strict and without the types of a browser or of node; what is wrong must not pass.
import { type Construction, type Evaluation, FurrowError, type Furrow, load, type Settings, type Value } from 'furrow';
import * as worker from 'furrow/worker';

export async function right(): Promise<readonly number[]> {
  const furrow: Furrow = await load();
  const settings: Settings = { parameters: ['Ra'], long: { cutoff: 800 }, short: null };
  const e: Evaluation = furrow.evaluate({ z: new Float32Array(3), spacing: 0.5 }, settings, { text: 'Rz 3.2' });
  const { R }: { readonly R?: Float64Array } = e.profiles('R');
  const c: Construction = e.construct('Ra');
  const word: 'Conforms' | 'Does not conform' | 'Not decided' | 'No verdict yet' = e.judge('Rz 3.2', { u: '0.12' }).word;
  const svg: string = e.figure('construction', { symbol: 'Rz', width: 700 }).svg;
  const share: number | undefined = e.compare({ question: 'shares', symbol: 'Rz' }).changes[0]?.share;
  const check: string = furrow.instrument({ check: 'course', earlier: [] }).sentence;
  e.close();
  try {
    furrow.read(new ArrayBuffer(3), { x_unit: 'mm' });
  } catch (error) {
    if (error instanceof FurrowError && error.kind === 'question') return (error.questions ?? []).map((q) => q.answers.length);
  }
  return [e.values[0]?.value ?? 0, R?.length ?? 0, c.steps.length, word.length, svg.length, share ?? 0, check.length];
}

export async function promised(): Promise<Value | undefined> {
  const furrow: worker.Furrow = await worker.load(new Uint8Array(8));
  const e: worker.Evaluation = await furrow.evaluate({ z: [1, 2], spacing: 0.5 });
  const { W } = await e.profiles('W');
  const share = (await e.compare({ question: 'shares', symbol: 'Rz' })).changes[0]?.share;
  furrow.stop();
  await e.close();
  return W && share ? e.values[0] : undefined;
}

export async function wrong(furrow: Furrow, e: Evaluation): Promise<void> {
  // @ts-expect-error heights are numbers
  furrow.evaluate({ z: ['1'], spacing: 1 });
  // @ts-expect-error a profile has a spacing
  furrow.evaluate({ z: [1] });
  // @ts-expect-error no setting is called so
  furrow.evaluate({ z: [1], spacing: 1 }, { cutoff: 1 });
  // @ts-expect-error no profile is called so
  e.profiles('roughness');
  // @ts-expect-error only what was asked for is there
  e.profiles('R').W;
  // @ts-expect-error no picture is called so
  e.figure('portrait');
  // @ts-expect-error no option is called so
  e.figure('profile', { size: 3 });
  // @ts-expect-error an evaluation does not change
  e.values = [];
  // @ts-expect-error no question is called so
  e.compare({ question: 'why' });
  // @ts-expect-error a value may be undefined
  const value: number = e.values[0]!.value;
  // @ts-expect-error there is no latest evaluation
  furrow.construct('Ra');
  // @ts-expect-error a promise is no evaluation
  (await worker.load()).evaluate({ z: [1], spacing: 1 }).values;
  void value;
}
