/**
 * Predictions, and derivatives where there is room for them, column by column; of the named columns only, where
 * the others would cost more.
 */
export type Evaluate = (
  parameters: Float64Array,
  predicted: Float64Array,
  jacobian: Float64Array | null,
  columns?: readonly number[],
) => void;

/** A checked fit: every array has its full length, nothing is optional. */
export interface Task {
  /** With derivatives, exact or not. */
  readonly evaluate: Evaluate;
  /** How often the model has been evaluated over all points so far. */
  readonly evaluations: () => number;
  readonly names: readonly string[];
  readonly y: Float64Array;
  /** Square roots of the weights; null where all are 1. */
  readonly rootWeights: Float64Array | null;
  readonly start: Float64Array;
  /** −Infinity and Infinity where there is no bound. */
  readonly lower: Float64Array;
  readonly upper: Float64Array;
  /** Indices of the parameters to eliminate, and of the others. */
  readonly linear: readonly number[];
  readonly nonlinear: readonly number[];
  /** Points of weight above zero, less parameters. */
  readonly degreesOfFreedom: number;
  readonly iterations: number;
  /** Relative error of the derivatives: a direction seen more weakly than this is not seen. */
  readonly blindness: number;
  /** Length of the residuals that rounding alone makes. */
  readonly rounding: number;
}

/** Parameters with the weighted residuals (y − fit)·√w that belong to them. */
export interface Point {
  readonly p: Float64Array;
  readonly residuals: Float64Array;
  /** Sum of their squares; Infinity where the model has no value. */
  readonly squares: number;
}
