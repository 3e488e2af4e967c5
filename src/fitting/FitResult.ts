/** What every fit returns: one plain object. */
export interface FitResult {
  readonly parameters: readonly number[];
  /** null where there is no covariance. */
  readonly standardErrors: readonly number[] | null;
  /** Covariance of the parameters, by rows; null where there is none. */
  readonly covariance: readonly (readonly number[])[] | null;
  /** Why there is no covariance, in words; null where there is one. */
  readonly covarianceReason: string | null;
  /** Σw·(y − fit)². */
  readonly residualSumOfSquares: number;
  /** √(residualSumOfSquares/degreesOfFreedom); null without degrees of freedom. */
  readonly residualStandardDeviation: number | null;
  /** Points less parameters. */
  readonly degreesOfFreedom: number;
  readonly converged: boolean;
  readonly stopReason: string;
  /** How often the model was evaluated over all points. */
  readonly evaluations: number;
}
