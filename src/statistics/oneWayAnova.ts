import { problem } from '../errors/index.js';
import { checkFinite } from './distributionArguments.js';
import { fTails } from './fTails.js';

/** One row of the table of an analysis of variance. */
export interface MeanSquare {
  readonly sumOfSquares: number;
  readonly degreesOfFreedom: number;
  readonly meanSquare: number;
}

/** A one-way analysis of variance: does the group matter, and how much does each level scatter? */
export interface OneWayAnova {
  readonly mean: number;
  readonly between: MeanSquare;
  readonly within: MeanSquare;
  /** Ratio of the mean squares; Infinity where nothing scatters within the groups. */
  readonly F: number;
  /** Probability of an F at least as large if the groups don't differ. */
  readonly pValue: number;
  /** Share of the total sum of squares that lies between the groups. */
  readonly rSquared: number;
  /** √ of the mean square within. */
  readonly residualStandardDeviation: number;
  /**
   * Variances of the random-effects model. `between` is (MS_b − MS_w)/n₀; a negative estimate is returned as it is:
   * it says that no spread between groups can be seen, not that there is none.
   */
  readonly components: { readonly within: number; readonly between: number; readonly groupSize: number };
}

/**
 * One-way analysis of variance of two or more groups, of equal sizes or not.
 *
 * Formula: MS_b = Σn(x̄ⱼ − x̄)²/(k − 1), MS_w = ΣΣ(x − x̄ⱼ)²/(N − k), F = MS_b/MS_w;
 * n₀ = (N − Σn²/N)/(k − 1). Source: JCGM 100:2008, H.5; NIST/SEMATECH e-Handbook 7.4.3. A common offset is taken
 * off first, so that it costs no digits beyond those it costs the data themselves.
 *
 * @throws `too-few-groups` for fewer than two; `too-few-values` for an empty group or where no group has two;
 *   `value-not-finite`; `values-all-same`
 * @example
 * const table = oneWayAnova([[1, 2, 3], [2, 3, 4], [6, 7, 8]]);
 * table.F // => 21
 * table.pValue // => 0.00195
 * table.components // => { within: 1, between: 6.66667, groupSize: 3 }
 */
export function oneWayAnova(groups: readonly (readonly number[])[]): OneWayAnova {
  const total = checkGroups(groups);
  const origin = groups[0]![0]!;
  const shifted = groups.map((group) => group.map((x) => x - origin));
  const groupMeans = shifted.map(meanOf);
  const centre = meanOf(shifted.flat());
  const sumBetween = sumOf(groups.map((group, j) => group.length * (groupMeans[j]! - centre) ** 2));
  const sumWithin = sumOf(shifted.flatMap((group, j) => group.map((x) => (x - groupMeans[j]!) ** 2)));
  const between = meanSquare(sumBetween, groups.length - 1);
  const within = meanSquare(sumWithin, total - groups.length);
  const F = between.meanSquare / within.meanSquare;
  const squaredSizes = sumOf(groups.map((group) => group.length ** 2));
  const groupSize = (total - squaredSizes / total) / between.degreesOfFreedom;
  return {
    mean: origin + centre,
    between,
    within,
    F,
    pValue: fTails(F, between.degreesOfFreedom, within.degreesOfFreedom).upper,
    rSquared: sumBetween / (sumBetween + sumWithin),
    residualStandardDeviation: Math.sqrt(within.meanSquare),
    components: {
      within: within.meanSquare,
      between: (between.meanSquare - within.meanSquare) / groupSize,
      groupSize,
    },
  };
}

/** The number of values, if they can be analysed. */
function checkGroups(groups: readonly (readonly number[])[]): number {
  const what = 'An analysis of variance';
  if (groups.length < 2) throw problem('too-few-groups', { what, got: groups.length, needed: 2 });
  groups.forEach((group, j) => {
    if (group.length === 0) throw problem('too-few-values', { what: `Group ${j + 1}`, got: 0, needed: 1 });
    group.forEach((x, i) => {
      checkFinite(x, `Value ${i + 1} of group ${j + 1}`);
    });
  });
  const values = groups.flat();
  if (values.length === groups.length)
    throw problem('too-few-values', { what: 'At least one group', got: 1, needed: 2 });
  if (values.every((x) => x === values[0]))
    throw problem('values-all-same', { what, got: String(values[0]) });
  return values.length;
}

function meanSquare(sumOfSquares: number, degreesOfFreedom: number): MeanSquare {
  return { sumOfSquares, degreesOfFreedom, meanSquare: sumOfSquares / degreesOfFreedom };
}

/** Mean with one step of correction: the mean of the deviations from the first result, which rounding left. */
function meanOf(values: readonly number[]): number {
  const first = sumOf(values) / values.length;
  return first + sumOf(values.map((x) => x - first)) / values.length;
}

/** Sum with Neumaier's compensation. */
function sumOf(values: readonly number[]): number {
  let sum = 0;
  let lost = 0;
  for (const x of values) {
    const next = sum + x;
    lost += Math.abs(sum) >= Math.abs(x) ? sum - next + x : x - next + sum;
    sum = next;
  }
  return sum + lost;
}
