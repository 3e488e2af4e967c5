import { problem } from '../errors/index.js';
import { checkUncertainty } from './checkResults.js';
import { checkFinite } from './distributionArguments.js';

/** A result with its expanded uncertainty, k = 2 by the standard. */
export interface ExpandedResult {
  readonly value: number;
  readonly expanded: number;
}

/** A score with what the standard says of it. */
export interface Score<Verdict extends string> {
  readonly score: number;
  readonly verdict: Verdict;
}

/**
 * E_n number of two laboratories' results for the same thing; positive where the first is higher. Both expanded
 * uncertainties with the same coverage, the results independent: nothing shared is cancelled here.
 *
 * Formula: E_n = (a − b)/√(U_a² + U_b²); satisfactory where |E_n| <= 1. Source: ISO 13528:2015, 9.7.
 *
 * @throws `value-not-finite`, `uncertainty-unknown`; `uncertainty-zero` where both are zero
 * @example
 * enNumber({ value: 0.62, expanded: 0.03 }, { value: 0.57, expanded: 0.04 }) // => { score: 1.00, verdict: 'satisfactory' }
 */
export function enNumber(a: ExpandedResult, b: ExpandedResult): Score<'satisfactory' | 'unsatisfactory'> {
  const score = scaledDifference(a, b, a.expanded, b.expanded, 'An E_n number');
  // A ratio of exactly one that rounding put a hair above it is still satisfactory.
  return { score, verdict: Math.abs(score) <= 1 + 1e-12 ? 'satisfactory' : 'unsatisfactory' };
}

/** (a − b)/√(u_a² + u_b²), checked. */
export function scaledDifference(
  a: { readonly value: number },
  b: { readonly value: number },
  ofA: number,
  ofB: number,
  what: string,
): number {
  checkFinite(a.value, 'The first result');
  checkFinite(b.value, 'The second result');
  checkUncertainty(ofA, 'first result');
  checkUncertainty(ofB, 'second result');
  const combined = Math.hypot(ofA, ofB);
  if (combined === 0) throw problem('uncertainty-zero', { source: 'both results', what });
  return (a.value - b.value) / combined;
}
