/** furrow in a thread of its own: the calls of `furrow` as promises, and a way to stop. */
import type * as furrow from './furrow.js';

export * from './furrow.js';

type Promised<T> = { readonly [K in keyof T]: T[K] extends (...args: infer A) => infer R ? (...args: A) => Promise<R> : T[K] };

/** An evaluation in the thread. It holds a copy of the heights, so that it also answers after `stop`. */
export interface Evaluation extends Omit<Promised<furrow.Evaluation>, 'profiles' | 'compare'> {
  profiles<N extends furrow.ProfileName>(...names: readonly N[]): Promise<furrow.Profiles<N>>;
  compare<Q extends furrow.ComparisonRequest>(request: Q): Promise<furrow.ComparisonAnswers[Q['question']]>;
}

export interface Furrow extends Omit<Promised<furrow.Furrow>, 'evaluate' | 'instrument' | 'study'> {
  evaluate(...args: Parameters<furrow.Furrow['evaluate']>): Promise<Evaluation>;
  instrument<C extends furrow.CheckRequest>(request: C, profiles?: readonly furrow.GivenProfile[]): Promise<furrow.CheckAnswers[C['check']]>;
  study<Q extends furrow.StudyRequest>(request: Q & { readonly settings?: furrow.Settings }, sheet?: furrow.GivenProfile): Promise<furrow.StudyAnswers[Q['do']]>;
  /** Ends what is being calculated: calls that wait fail with the kind `stopped`, and the next call starts another thread. Held traces have to
   * be held again. */
  stop(): void;
  /** Ends the thread for good. */
  close(): void;
}

/** Starts the thread. Where a bundler does not follow the address of the script `furrow/thread`, `hire` makes the worker with it. */
export declare function load(source?: furrow.ModuleSource, hire?: () => unknown): Promise<Furrow>;
