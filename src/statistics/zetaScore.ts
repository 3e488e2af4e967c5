import { type Score, scaledDifference } from './enNumber.js';

/** A result with its standard uncertainty. */
export interface StandardResult {
  readonly value: number;
  readonly standardUncertainty: number;
}

/**
 * Zeta score of two laboratories' independent results for the same thing; positive where the first is higher.
 *
 * Formula: ζ = (a − b)/√(u_a² + u_b²); satisfactory where |ζ| <= 2, unsatisfactory from 3 on, questionable between.
 * Source: ISO 13528:2015, 9.6.
 *
 * @throws `value-not-finite`, `uncertainty-unknown`; `uncertainty-zero` where both are zero
 * @example
 * const ours = { value: 0.62, standardUncertainty: 0.015 };
 * zetaScore(ours, { value: 0.57, standardUncertainty: 0.012 }) // => { score: 2.60, verdict: 'questionable' }
 */
export function zetaScore(
  a: StandardResult,
  b: StandardResult,
): Score<'satisfactory' | 'questionable' | 'unsatisfactory'> {
  const score = scaledDifference(a, b, a.standardUncertainty, b.standardUncertainty, 'A zeta score');
  const size = Math.abs(score);
  if (size <= 2) return { score, verdict: 'satisfactory' };
  return { score, verdict: size < 3 ? 'questionable' : 'unsatisfactory' };
}
