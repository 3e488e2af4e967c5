import { problem } from '../errors/index.js';
import type { Quantity, Smooth } from './Quantity.js';

/**
 * Allows Monte Carlo to compute a function made by `lift` by a polynomial in its first input from `low` to `high`, and by
 * the tangent at the estimate in the others: for a smooth function that takes long, such as the enthalpy of water, which
 * depends on temperature and hardly on pressure. Beyond the ends it goes on along the tangent there. First order, and the
 * value, still use the function itself. Where the polynomial misses the function by more than `tolerance` anywhere between
 * low and high (tried at four points for each of its own), Monte Carlo calls the function for every trial.
 *
 * A program of polynomials can be run by several threads; one that calls a function runs in the calling thread alone, with the
 * same results for any number of threads.
 *
 * Throws `approximation-bad` unless low < high, 1 <= degree <= 40 and tolerance > 0, and for a quantity that is no function.
 *
 * @example
 * const error = errorOf(source({ id: 't', name: 'reading', halfWidth: 0.1 }));
 * const x = add(constant(0.5), error);
 * const slow = lift('the sine', ([v]) => Math.sin(v), [Math.cos(0.5)], x);
 * approximate(slow, { low: 0, high: 1, degree: 12, tolerance: 1e-12 }).value // => 0.4794
 */
export function approximate(quantity: Quantity, smooth: Smooth): Quantity {
  const { low, high, degree, tolerance } = smooth;
  const wellFormed =
    Number.isFinite(high - low) && low < high && Number.isInteger(degree) && degree >= 1 && degree <= 40;
  if (!quantity.evaluate || !wellFormed || !(tolerance > 0)) {
    const got = `low ${low}, high ${high}, degree ${degree}, tolerance ${tolerance}`;
    throw problem('approximation-bad', { what: quantity.name ?? `a ${quantity.operation}`, got });
  }
  return { ...quantity, smooth: { low, high, degree, tolerance } };
}
