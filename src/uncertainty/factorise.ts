import { problem } from '../errors/index.js';

/** Part of a variance that rounding may leave or take; a pivot within it counts as zero. */
const ROUNDING = 1e-12;

/**
 * Lower triangle L with L·Lᵀ = Σ by Cholesky's method, for a symmetric matrix that may be of less than full rank. Throws
 * `covariance-indefinite` at the first pivot below zero, or where a member without a variance of its own left is still
 * correlated with a later one.
 */
export function factorise(
  group: string,
  names: readonly string[],
  covariance: readonly (readonly number[])[],
): number[][] {
  const n = names.length;
  const at = (i: number, j: number) => covariance[i]?.[j] as number;
  const factor = Array.from({ length: n }, () => new Array<number>(n).fill(0));
  const left = (i: number, j: number): number => {
    let sum = at(i, j);
    for (let k = 0; k < j; k++) sum -= (factor[i]?.[k] as number) * (factor[j]?.[k] as number);
    return sum;
  };
  const refuse = (j: number, got: string): never => {
    throw problem('covariance-indefinite', { group, name: names[j] as string, got });
  };
  for (let j = 0; j < n; j++) {
    const variance = at(j, j);
    const pivot = left(j, j);
    if (pivot < -ROUNDING * variance) refuse(j, `${Number((pivot / variance).toPrecision(3))} of it`);
    const vanishes = pivot <= ROUNDING * variance;
    const root = vanishes ? 0 : Math.sqrt(pivot);
    (factor[j] as number[])[j] = root;
    for (let i = j + 1; i < n; i++) {
      const rest = left(i, j);
      // With no variance of its own left, j can share none either: an entry there makes a 2 × 2 part indefinite.
      const most = Math.sqrt(ROUNDING * variance * at(i, i));
      if (vanishes && Math.abs(rest) > 10 * most) refuse(i, 'below zero');
      (factor[i] as number[])[j] = vanishes ? 0 : rest / root;
    }
  }
  return factor;
}
