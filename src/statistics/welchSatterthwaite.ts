import { problem } from '../errors/index.js';
import { checkDegreesOfFreedom } from './distributionArguments.js';

/** One independent contribution to a combined uncertainty. */
export interface UncertaintyComponent {
  /** Standard uncertainty in the unit of the result, sensitivity included. */
  readonly u: number;
  /** Degrees of freedom, above zero; Infinity where the uncertainty is taken as known. */
  readonly degreesOfFreedom: number;
}

/**
 * Effective degrees of freedom of a combined uncertainty, fractional, not truncated. Infinity where no component
 * with finite degrees of freedom contributes.
 *
 * Formula: ν = (Σu²)²/Σ(u⁴/νᵢ), the Welch–Satterthwaite formula. Source: JCGM 100:2008, G.4.1, equation (G.2b).
 *
 * @throws `too-few-values` for an empty list; `uncertainty-unknown` unless every u is finite and >= 0;
 *   `degrees-of-freedom-bad` unless every ν > 0
 * @example
 * const parts = [{ u: 0.25, degreesOfFreedom: 9 }, { u: 0.57, degreesOfFreedom: 4 }, { u: 0.82, degreesOfFreedom: 14 }];
 * welchSatterthwaite(parts) // => 18.9987
 */
export function welchSatterthwaite(components: readonly UncertaintyComponent[]): number {
  if (components.length === 0)
    throw problem('too-few-values', { what: 'Welch–Satterthwaite', got: 0, needed: 1 });
  components.forEach(({ u, degreesOfFreedom }, index) => {
    const source = `component ${index + 1}`;
    if (!(u >= 0 && u < Number.POSITIVE_INFINITY))
      throw problem('uncertainty-unknown', { source, got: String(u) });
    checkDegreesOfFreedom(degreesOfFreedom, source);
  });
  // Dividing by the largest keeps u⁴ from running out of range.
  const largest = Math.max(...components.map((c) => c.u));
  if (largest === 0) return Number.POSITIVE_INFINITY;
  let squares = 0;
  let fourths = 0;
  for (const { u, degreesOfFreedom } of components) {
    const square = (u / largest) ** 2;
    squares += square;
    fourths += (square * square) / degreesOfFreedom;
  }
  return fourths === 0 ? Number.POSITIVE_INFINITY : (squares * squares) / fourths;
}
