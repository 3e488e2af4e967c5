/**
 * uncertainty: error sources, quantities as expression graphs over them, first-order propagation with its budget,
 * Monte Carlo over the same graphs, the comparison of the two, and the rounding of results. Correlation follows from
 * sharing a source; only a group of errors known together has a covariance matrix.
 */
export { approximate } from './approximate.js';
export { add, constant, divide, errorOf, lift, multiply, power, scale, subtract } from './arithmetic.js';
export { type CorrelatedSpec, correlatedErrors } from './correlatedErrors.js';
export { cosine, exponential, logarithm, sine } from './functions.js';
export { numericalTolerance } from './numericalTolerance.js';
export { type BudgetRow, type Propagated, propagate } from './propagate.js';
export { type PropagatedTogether, propagateTogether } from './propagateTogether.js';
export type { Elementary, Operation, Quantity, Smooth } from './Quantity.js';
export { type Rounded, roundToUncertainty } from './roundToUncertainty.js';
export {
  type Distribution,
  type Scope,
  type Source,
  type SourceGroup,
  type SourceSpec,
  source,
} from './Source.js';
export { SourceBook } from './SourceBook.js';
export { type Sensitivity, sensitivities } from './sensitivities.js';
export { type Simulated, type SimulatedTogether, type SimulateOptions, simulate } from './simulate.js';
export type { Validation, Verdict } from './Validation.js';
export { type ValidateOptions, validate } from './validate.js';
