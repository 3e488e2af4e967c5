/**
 * uncertainty: error sources, quantities as expression graphs over them, first-order propagation with its budget,
 * and the rounding of results. Correlation follows from sharing a source; it is never typed in.
 */
export { add, constant, divide, errorOf, lift, multiply, power, scale, subtract } from './arithmetic.js';
export { type BudgetRow, type Propagated, propagate } from './propagate.js';
export type { Operation, Quantity } from './Quantity.js';
export { type Rounded, roundToUncertainty } from './roundToUncertainty.js';
export { type Distribution, type Scope, type Source, type SourceSpec, source } from './Source.js';
export { SourceBook } from './SourceBook.js';
export { type Sensitivity, sensitivities } from './sensitivities.js';
