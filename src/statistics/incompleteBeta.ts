import { problem } from '../errors/index.js';
import { deviance, stirlingError } from './gammaParts.js';
import type { BothTails } from './incompleteGamma.js';

const maxTerms = 200_000;
const epsilon = 2 ** -53;

/**
 * Regularised incomplete beta function I_x(a, b) and its complement, a, b > 0, by the continued fraction of NIST
 * DLMF 8.17.22. The caller gives y = 1 − x as well, so that neither end loses digits.
 */
export function incompleteBeta(a: number, b: number, x: number, y: number): BothTails {
  if (x <= 0) return { lower: 0, upper: 1 };
  if (y <= 0) return { lower: 1, upper: 0 };
  const factor = betaLeadingFactor(a, b, x, y);
  if (x <= (a + 1) / (a + b + 2)) {
    const lower = (factor / a) * continuedFraction(a, b, x);
    return { lower, upper: 1 - lower };
  }
  const upper = (factor / b) * continuedFraction(b, a, y);
  return { lower: 1 - upper, upper };
}

/** x^a·y^b/B(a, b), the density of the beta distribution times x·y. */
export function betaLeadingFactor(a: number, b: number, x: number, y: number): number {
  const n = a + b;
  const difference = b * x - a * y;
  const exponent =
    stirlingError(n) -
    stirlingError(a) -
    stirlingError(b) -
    a * deviance((n * x) / a, difference / a) -
    b * deviance((n * y) / b, -difference / b);
  return Math.exp(exponent) * Math.sqrt(((a / n) * b) / (2 * Math.PI));
}

/** Lentz's method, two steps of the fraction a turn. */
function continuedFraction(a: number, b: number, x: number): number {
  const kept = (v: number) => (Math.abs(v) < 1e-300 ? 1e-300 : v);
  let c = 1;
  let d = 1 / kept(1 - ((a + b) * x) / (a + 1));
  let h = d;
  for (let m = 1; m < maxTerms; m += 1) {
    const even = (m * (b - m) * x) / ((a + 2 * m - 1) * (a + 2 * m));
    d = 1 / kept(1 + even * d);
    c = kept(1 + even / c);
    h *= c * d;
    const odd = (-(a + m) * (a + b + m) * x) / ((a + 2 * m) * (a + 2 * m + 1));
    d = 1 / kept(1 + odd * d);
    c = kept(1 + odd / c);
    const change = c * d;
    h *= change;
    if (Math.abs(change - 1) < 4 * epsilon) return h;
  }
  throw problem('internal', {
    what: `the incomplete beta fraction did not end for a = ${a}, b = ${b}, x = ${x}`,
  });
}
