import type { Source } from './Source.js';

export type Operation =
  | 'constant'
  | 'source'
  | 'add'
  | 'subtract'
  | 'multiply'
  | 'divide'
  | 'power'
  | 'function';

/** Functions that are known by name, so that any thread can compute them. */
export type Elementary = 'cosine' | 'sine' | 'exponential' | 'logarithm';

/** Range of the first input, degree of the polynomial, and by how much it may miss the function. */
export interface Smooth {
  readonly low: number;
  readonly high: number;
  readonly degree: number;
  readonly tolerance: number;
}

/**
 * A node of an expression graph whose leaves are constants and error sources. The graph is built once; first-order
 * propagation walks it backwards, Monte Carlo evaluates it again for each trial.
 */
export interface Quantity {
  readonly operation: Operation;
  /** Value at the estimate: every source at zero. */
  readonly value: number;
  readonly inputs: readonly Quantity[];
  /** Partial derivative of the value by each input, at the estimate. */
  readonly partials: readonly number[];
  /** The leaf's source; only for `source`. */
  readonly source?: Source;
  /** Exponent; only for `power`. */
  readonly exponent?: number;
  /** Only for `function`: its name and how to evaluate it at other inputs than the estimate. */
  readonly name?: string;
  readonly evaluate?: (inputs: readonly number[]) => number;
  /** A function that Monte Carlo computes by its own means, so that the bits are the same on every machine. */
  readonly elementary?: Elementary;
  /** A function that Monte Carlo may replace by a polynomial in its first input; see `approximate`. */
  readonly smooth?: Smooth;
}
