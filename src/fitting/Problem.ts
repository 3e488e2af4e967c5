/**
 * A model for least squares, evaluated over all its points at once. Thermal models of many thousand points
 * implement this; `fit` makes one from a plain function of a single x.
 */
export interface Problem {
  /** How many points the model predicts. */
  readonly points: number;
  /** How many parameters it has. */
  readonly parameters: number;
  /** Names of the parameters, for results and errors; b1, b2, ... where left out. */
  readonly names?: readonly string[];
  /**
   * `exact` (also where left out): `evaluate` fills the Jacobian. `numerical`: it is only ever given null for it,
   * and extrapolated differences stand in.
   */
  readonly derivatives?: 'exact' | 'numerical';
  /**
   * Writes the predictions, and the derivatives where `jacobian` is not null. The Jacobian lies column by column:
   * ∂predicted[i]/∂parameters[j] is `jacobian[j * points + i]`. Both arrays hold old numbers when they come, and
   * every entry must be written. Where the model has no value it writes NaN; the step is then shortened.
   * `parameters` is lent: neither change nor keep it.
   */
  evaluate(parameters: Float64Array, predicted: Float64Array, jacobian: Float64Array | null): void;
}

/** The data and the rules of a fit. */
export interface FitOptions {
  /** Observed values, one a point. */
  readonly y: ArrayLike<number>;
  /** Relative weights in proportion to 1/u²(y), none below zero; all 1 where left out. A point of weight 0 is not counted. */
  readonly weights?: ArrayLike<number>;
  /** Where to begin, one value a parameter. */
  readonly start: ArrayLike<number>;
  /** Lower bounds, −Infinity for none; the fit never evaluates the model below them. */
  readonly lower?: ArrayLike<number>;
  /** Upper bounds, Infinity for none. */
  readonly upper?: ArrayLike<number>;
  /**
   * Names or indices of parameters in which the model is linear when the others are held: prediction = a + Σ c·φ,
   * with a and φ free of these c. They are then eliminated (variable projection), their start values don't matter,
   * and they can have no bounds.
   */
  readonly linear?: readonly (string | number)[];
  /** Most iterations of one descent; 500 where left out. */
  readonly iterations?: number;
  /** Whether to begin again elsewhere when a descent does not converge; true where left out. */
  readonly restart?: boolean;
}
