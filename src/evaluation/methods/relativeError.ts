import { constant, divide, type Quantity, subtract } from '../../uncertainty/index.js';

/** The errors of a quantity over its value, as a quantity of value zero. */
export function relativeError(quantity: Quantity): Quantity {
  return subtract(divide(quantity, constant(quantity.value)), constant(1));
}
