import { problem } from '../errors/index.js';
import { mean } from './descriptive.js';

/**
 * Autocorrelation of a series with itself `lag` places on, between −1 and 1; the values in order of time.
 *
 * Formula: r = Σ(xᵢ − x̄)(xᵢ₊ₗ − x̄)/Σ(xᵢ − x̄)². Source: NIST/SEMATECH e-Handbook of Statistical Methods, 1.3.5.12.
 *
 * @throws `too-few-values` for no more than `lag`; `count-bad` for a lag; `value-not-finite`; `values-all-same`
 * @example
 * autocorrelation([1, 3, 2]) // => -0.5
 */
export function autocorrelation(values: readonly number[], lag = 1): number {
  if (!(Number.isInteger(lag) && lag >= 1))
    throw problem('count-bad', { what: 'The lag', needed: 1, got: String(lag) });
  if (values.length < lag + 1)
    throw problem('too-few-values', { what: 'An autocorrelation', got: values.length, needed: lag + 1 });
  // The first value comes off first, exactly, so that a large common offset costs no digits of the mean.
  const shifted = values.map((x) => x - values[0]!);
  const centre = mean(shifted);
  const deviations = shifted.map((x) => x - centre);
  let products = 0;
  let squares = 0;
  deviations.forEach((d, index) => {
    squares += d * d;
    products += d * (deviations[index + lag] ?? 0);
  });
  if (squares === 0) throw problem('values-all-same', { what: 'An autocorrelation', got: String(values[0]) });
  return products / squares;
}
