import { problem } from '../errors/index.js';
import { mean, standardDeviation } from './descriptive.js';
import { mandelCritical } from './mandelCritical.js';

/** Mandel's statistics of every group, with the values beyond which they call for attention. */
export interface MandelResult {
  /** How far each group's mean lies from the mean of all, in standard deviations of the means. */
  readonly h: readonly number[];
  /** Each group's standard deviation over the pooled one. */
  readonly k: readonly number[];
  readonly critical: { readonly h: number; readonly k: number };
}

/**
 * Mandel's h and k of three or more groups of one size: is a group's mean, or its scatter, unlike the others?
 *
 * Formula: h = (x̄ⱼ − x̄)/s(x̄ⱼ), k = sⱼ/√(Σs²/p). Source: ISO 5725-2:1994, 7.3.1.
 *
 * @throws `too-few-groups`, `group-sizes-differ`, `count-bad`, `value-not-finite`, `significance-bad`,
 *   `values-all-same` where all means or all values within the groups are the same
 * @example
 * mandel({ groups: [[1, 2], [2, 3], [7, 9]], significance: 0.05 }).k // => [0.70711, 0.70711, 1.41421]
 */
export function mandel(input: {
  readonly groups: readonly (readonly number[])[];
  readonly significance: number;
}): MandelResult {
  const { groups, significance } = input;
  const what = "Mandel's h and k";
  if (groups.length < 3) throw problem('too-few-groups', { what, got: groups.length, needed: 3 });
  const size = groups[0]!.length;
  groups.forEach((group, j) => {
    if (group.length !== size)
      throw problem('group-sizes-differ', { what, first: size, group: j + 1, got: group.length });
  });
  const critical = mandelCritical(groups.length, size, significance);
  const means = groups.map((group) => mean(group));
  const spreads = groups.map((group) => standardDeviation(group));
  const pooled = Math.hypot(...spreads) / Math.sqrt(groups.length);
  const ofMeans = standardDeviation(means);
  if (pooled === 0 || ofMeans === 0)
    throw problem('values-all-same', {
      what,
      got: pooled === 0 ? 'the same in each group' : String(means[0]),
    });
  const centre = mean(means);
  return {
    h: means.map((m) => (m - centre) / ofMeans),
    k: spreads.map((s) => s / pooled),
    critical,
  };
}
