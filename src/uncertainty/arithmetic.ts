import { problem } from '../errors/index.js';
import type { Quantity } from './Quantity.js';
import type { Source } from './Source.js';

function finite(value: number, what: string): number {
  if (!Number.isFinite(value)) throw problem('value-not-finite', { what, got: String(value) });
  return value;
}

/**
 * A number that is known exactly.
 *
 * @example
 * constant(3600).value // => 3600
 */
export function constant(value: number): Quantity {
  return { operation: 'constant', value: finite(value, 'A constant'), inputs: [], partials: [] };
}

/**
 * The error of a source as a quantity of value zero; add it to what it acts on.
 *
 * @example
 * const step = source({ id: 's', name: 'step', halfWidth: 0.5 });
 * add(constant(20), errorOf(step)).value // => 20
 */
export function errorOf(source: Source): Quantity {
  return { operation: 'source', value: 0, inputs: [], partials: [], source };
}

/**
 * Sum of any number of quantities.
 *
 * @example
 * add(constant(1), constant(2), constant(3)).value // => 6
 */
export function add(...terms: readonly Quantity[]): Quantity {
  let total = 0;
  for (const term of terms) total += term.value;
  return { operation: 'add', value: finite(total, 'A sum'), inputs: terms, partials: terms.map(() => 1) };
}

/**
 * Difference of two quantities; a source shared by both cancels.
 *
 * @example
 * subtract(constant(5), constant(2)).value // => 3
 */
export function subtract(a: Quantity, b: Quantity): Quantity {
  return {
    operation: 'subtract',
    value: finite(a.value - b.value, 'A difference'),
    inputs: [a, b],
    partials: [1, -1],
  };
}

/**
 * Product of two quantities.
 *
 * @example
 * multiply(constant(5), constant(2)).value // => 10
 */
export function multiply(a: Quantity, b: Quantity): Quantity {
  const value = finite(a.value * b.value, 'A product');
  return { operation: 'multiply', value, inputs: [a, b], partials: [b.value, a.value] };
}

/**
 * Quotient of two quantities. Throws `value-not-finite` when the divisor is zero.
 *
 * @example
 * divide(constant(5), constant(2)).value // => 2.5
 */
export function divide(a: Quantity, b: Quantity): Quantity {
  const value = finite(a.value / b.value, 'A quotient');
  return { operation: 'divide', value, inputs: [a, b], partials: [1 / b.value, -value / b.value] };
}

/**
 * A quantity times an exact factor.
 *
 * @example
 * scale(constant(5), 3).value // => 15
 */
export function scale(a: Quantity, factor: number): Quantity {
  return multiply(constant(factor), a);
}

/**
 * A quantity to an exact power.
 *
 * @example
 * power(constant(3), 2).value // => 9
 */
export function power(a: Quantity, exponent: number): Quantity {
  const value = finite(a.value ** exponent, 'A power');
  // The derivative of x^0 is 0 everywhere, also at x = 0 where the general form would be 0 times infinity.
  const partial = exponent === 0 ? 0 : finite(exponent * a.value ** (exponent - 1), 'The slope of a power');
  return { operation: 'power', value, inputs: [a], partials: [partial], exponent };
}

/**
 * Any other function of quantities, with its exact partial derivatives at the estimate.
 *
 * `evaluate` gives the value at any inputs, `partials` the derivative by each input at the estimate.
 *
 * @example
 * const angle = constant(0.5);
 * lift('sine', ([x]) => Math.sin(x as number), [Math.cos(angle.value)], angle).value // => 0.4794
 */
export function lift(
  name: string,
  evaluate: (inputs: readonly number[]) => number,
  partials: readonly number[],
  ...inputs: readonly Quantity[]
): Quantity {
  const value = finite(evaluate(inputs.map((input) => input.value)), name);
  for (const partial of partials) finite(partial, `The slope of ${name}`);
  return { operation: 'function', value, inputs, partials, name, evaluate };
}
