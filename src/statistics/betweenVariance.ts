import { findRoot } from './findRoot.js';
import { weightedAt } from './weightedAt.js';

/**
 * The between-run variance t at which Q(t) equals `target`, 0 where Q(0) is no larger. With target n − 1 it is the
 * estimate of R. C. Paule and J. Mandel, J. Res. NBS 87 (1982) 377.
 *
 * Newton steps on 1/Q, which is close to a straight line in t (exactly one where all uᵢ are zero).
 */
export function betweenVariance(
  values: readonly number[],
  uncertainties: readonly number[],
  target: number,
  start = 0,
): number {
  if (weightedAt(values, uncertainties, 0).chiSquared <= target) return 0;
  // Q(t) <= Σ(x − x̄)²/t, because the weighted mean minimises Q.
  const mean = values.reduce((sum, x) => sum + x, 0) / values.length;
  const most = (1 + 1e-12) * (values.reduce((sum, x) => sum + (x - mean) ** 2, 0) / target);
  const at = (t: number) => {
    const { chiSquared, slope } = weightedAt(values, uncertainties, t);
    return { value: 1 / chiSquared - 1 / target, slope: -slope / chiSquared ** 2 };
  };
  return findRoot(at, [0, most], start, most * 1e-6);
}
