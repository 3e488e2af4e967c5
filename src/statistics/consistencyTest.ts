import { problem } from '../errors/index.js';
import { incompleteGamma } from './incompleteGamma.js';
import { weightedMean } from './weightedMean.js';

/** Whether independent results agree within their stated uncertainties. */
export interface Consistency {
  /** Σ((x − m)/u)² about the weighted mean. */
  readonly chiSquared: number;
  readonly degreesOfFreedom: number;
  /** Probability of a chi-squared at least as large if the stated uncertainties are right and are all there is. */
  readonly pValue: number;
  /** √(chiSquared/degreesOfFreedom): scatter seen over scatter stated. */
  readonly birgeRatio: number;
  readonly weightedMean: number;
}

/**
 * Chi-squared test of the consistency of n independent results with their standard uncertainties. What the results
 * share must be left out of `uncertainties`: it cannot scatter them.
 *
 * Formula: χ² = Σ((x − m)/u)² with n − 1 degrees of freedom, m the mean weighted by 1/u²; Birge ratio √(χ²/(n − 1)).
 * Source: R. T. Birge, Phys. Rev. 40 (1932) 207; M. G. Cox, Metrologia 39 (2002) 589, procedure A.
 *
 * @throws `too-few-values` for fewer than two, `lengths-differ`, `value-not-finite`, `uncertainty-unknown`;
 *   `uncertainty-zero`
 * @example
 * const agreement = consistencyTest({ values: [10, 13], uncertainties: [1, 2] });
 * agreement.chiSquared // => 1.8
 * agreement.pValue // => 0.17971
 */
export function consistencyTest(input: {
  readonly values: readonly number[];
  readonly uncertainties: readonly number[];
}): Consistency {
  const { mean, chiSquared, birgeRatio } = weightedMean(input);
  const n = input.values.length;
  if (n < 2) throw problem('too-few-values', { what: 'A consistency test', got: n, needed: 2 });
  if (birgeRatio === null)
    throw problem('uncertainty-zero', {
      source: `run ${input.uncertainties.indexOf(0) + 1}`,
      what: 'A consistency test',
    });
  const degreesOfFreedom = n - 1;
  return {
    chiSquared,
    degreesOfFreedom,
    pValue: incompleteGamma(degreesOfFreedom / 2, chiSquared / 2).upper,
    birgeRatio,
    weightedMean: mean,
  };
}
