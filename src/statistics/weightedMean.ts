import { checkResults } from './checkResults.js';
import { weightedAt } from './weightedAt.js';

/** A weighted mean and how well the results agree with it. */
export interface WeightedMean {
  readonly mean: number;
  /** Internal standard uncertainty 1/√Σw: from the stated uncertainties alone. */
  readonly standardUncertainty: number;
  /** Internal uncertainty times the Birge ratio: from the scatter seen. null where there is no Birge ratio. */
  readonly externalUncertainty: number | null;
  /** Σ((x − mean)/u)². */
  readonly chiSquared: number;
  /** √(chiSquared/(n − 1)); null for one result or where an uncertainty of zero makes it meaningless. */
  readonly birgeRatio: number | null;
  readonly weights: readonly number[];
}

/**
 * Mean of independent results weighted by 1/u², in the unit of the values. A result with u = 0 takes all weight.
 *
 * Formula: m = Σ(x/u²)/Σ(1/u²), u(m) = 1/√Σ(1/u²). Source: R. T. Birge, Phys. Rev. 40 (1932) 207, for the ratio.
 *
 * @throws `too-few-values`, `lengths-differ`, `value-not-finite`, `uncertainty-unknown`
 * @example
 * weightedMean({ values: [10, 13], uncertainties: [1, 2] }).mean // => 10.6
 */
export function weightedMean(input: {
  readonly values: readonly number[];
  readonly uncertainties: readonly number[];
}): WeightedMean {
  checkResults(input.values, input.uncertainties);
  const { weights, mean, sumOfWeights, chiSquared } = weightedAt(input.values, input.uncertainties, 0);
  const standardUncertainty = 1 / Math.sqrt(sumOfWeights);
  const birge = birgeRatio(chiSquared, input.uncertainties);
  const externalUncertainty = birge === null ? null : standardUncertainty * birge;
  return { mean, standardUncertainty, externalUncertainty, chiSquared, birgeRatio: birge, weights };
}

/** The Birge ratio of Q(0), or null where there is none. */
export function birgeRatio(chiSquared: number, uncertainties: readonly number[]): number | null {
  if (uncertainties.length < 2 || uncertainties.includes(0)) return null;
  return Math.sqrt(chiSquared / (uncertainties.length - 1));
}
