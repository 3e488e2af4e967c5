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
}
