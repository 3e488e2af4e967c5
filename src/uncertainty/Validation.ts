import type { Propagated } from './propagate.js';
import type { Simulated } from './simulate.js';

export type Verdict = 'validated' | 'not validated' | 'undecided';

/** First order held against Monte Carlo. */
export interface Validation {
  readonly verdict: Verdict;
  readonly digits: number;
  /** δ, the numerical tolerance of the standard uncertainty; the trials are to settle a fifth of it. */
  readonly tolerance: number;
  /** Distances of the lower and the upper ends. */
  readonly dLow: number;
  readonly dHigh: number;
  /** Standard errors of Monte Carlo's ends. */
  readonly endErrors: readonly [number, number];
  /** Names of the sources that the verdict covers: all that this quantity rests on, and no others. */
  readonly inputs: readonly string[];
  /** Names of sources whose effect first order can't see at this estimate. */
  readonly blindTo: readonly string[];
  readonly firstOrder: Propagated;
  readonly monteCarlo: Simulated;
  /** The verdict in words. */
  readonly sentence: string;
}
