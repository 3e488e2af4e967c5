/** What stopped a fit. The first four are those of a fit that converged. */
export type StopCode =
  | 'one-step'
  | 'converged'
  | 'rounding'
  | 'exact'
  | 'undetermined'
  | 'no-progress'
  | 'iterations'
  | 'model-undefined';

/** What every fit returns: one plain object. */
export interface FitResult {
  readonly parameters: readonly number[];
  /** Names of the parameters, in their order. */
  readonly names: readonly string[];
  /** null where there is no covariance. */
  readonly standardErrors: readonly number[] | null;
  /** Covariance of the parameters, by rows; null where there is none. */
  readonly covariance: readonly (readonly number[])[] | null;
  /** Why there is no covariance, in words; null where there is one. */
  readonly covarianceReason: string | null;
  /** Name of the parameter that the data say nothing about by itself; null where there is none. */
  readonly stuckParameter: string | null;
  /** Names of the parameters that lie on one of their bounds. */
  readonly atBounds: readonly string[];
  /** Σw·(y − fit)². */
  readonly residualSumOfSquares: number;
  /** √(residualSumOfSquares/degreesOfFreedom); null without degrees of freedom. */
  readonly residualStandardDeviation: number | null;
  /** Points of weight above zero, less parameters. */
  readonly degreesOfFreedom: number;
  /** y − fit, one a point, without weights. */
  readonly residuals: readonly number[];
  readonly converged: boolean;
  /** What stopped the fit, in words. */
  readonly stopReason: string;
  readonly stopCode: StopCode;
  /** How often the model was evaluated over all points, with those for numerical derivatives. */
  readonly evaluations: number;
  /** How often the fit began again elsewhere. */
  readonly restarts: number;
}
