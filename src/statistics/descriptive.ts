/**
 * The door to simple-statistics: the only file that imports it. Four functions share the file for that reason.
 * What they add are checks, so that a list too short or a value that is no number is an error in words.
 */
import {
  mean as libraryMean,
  median as libraryMedian,
  quantile as libraryQuantile,
  sampleStandardDeviation,
} from 'simple-statistics';
import { problem } from '../errors/index.js';
import { checkProbability } from './distributionArguments.js';

/**
 * Arithmetic mean, in the unit of the values (compensated summation).
 *
 * @throws `too-few-values` for an empty list; `value-not-finite`
 * @example
 * mean([1, 2, 6]) // => 3
 */
export function mean(values: readonly number[]): number {
  return libraryMean(checked(values, 'A mean', 1));
}

/**
 * Sample standard deviation with n − 1 in the denominator, in the unit of the values.
 *
 * Formula: s = √(Σ(x − x̄)²/(n − 1)). Source: JCGM 100:2008, 4.2.2.
 *
 * @throws `too-few-values` for fewer than two; `value-not-finite`
 * @example
 * standardDeviation([1, 2, 3, 4]) // => 1.2909944487
 */
export function standardDeviation(values: readonly number[]): number {
  return sampleStandardDeviation(checked(values, 'A standard deviation', 2));
}

/**
 * Median: the middle value, or the mean of the two middle ones.
 *
 * @throws `too-few-values` for an empty list; `value-not-finite`
 * @example
 * median([9, 1, 4]) // => 4
 */
export function median(values: readonly number[]): number {
  return libraryMedian(checked(values, 'A median', 1));
}

/**
 * Sample quantile by linear interpolation between order statistics at 1 + (n − 1)·p (type 7 of Hyndman and Fan).
 *
 * @throws `probability-bad` unless 0 <= p <= 1; `too-few-values` for an empty list; `value-not-finite`
 * @example
 * quantile([1, 2, 3, 4, 5], 0.25) // => 2
 */
export function quantile(values: readonly number[], p: number): number {
  checkProbability(p);
  return libraryQuantile(checked(values, 'A quantile', 1), p);
}

function checked(values: readonly number[], what: string, needed: number): number[] {
  if (values.length < needed) throw problem('too-few-values', { what, got: values.length, needed });
  values.forEach((value, index) => {
    if (!Number.isFinite(value))
      throw problem('value-not-finite', { what: `Value ${index + 1}`, got: String(value) });
  });
  return [...values];
}
