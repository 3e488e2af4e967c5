import { logGamma } from './gammaParts.js';
import { incompleteBeta } from './incompleteBeta.js';
import { normalMiddle, normalTail } from './normalTail.js';

/**
 * The fraction for the beta function loses as many digits as ν/t² has; Hill's expansion is good to 1e-15 where ν is
 * large, and from a smaller ν on where t is not in the far tail.
 */
const useHill = (t: number, nu: number) => nu >= 2e4 || (nu >= 1000 && t < 5);

/** For t >= 0: the probability above t, and that between 0 and t, each to its own full precision. */
export interface StudentTails {
  readonly beyond: number;
  readonly inside: number;
}

/** Tails of Student's t distribution with `degreesOfFreedom` > 0 (Infinity allowed), t >= 0; NIST DLMF 8.17.22. */
export function studentTails(t: number, degreesOfFreedom: number): StudentTails {
  const nu = degreesOfFreedom;
  if (useHill(t, nu)) {
    const z = nu === Number.POSITIVE_INFINITY ? t : hill(t, nu);
    return { beyond: normalTail(z), inside: normalMiddle(z) };
  }
  const root = Math.sqrt(nu);
  // Beyond this t² would overflow; the first term of the tail is exact there.
  if (t > 1e140 * Math.max(1, root)) {
    const logTail = nu * (Math.log(root) - Math.log(t)) - logBeta(nu / 2) - Math.log(nu);
    const beyond = Math.exp(logTail);
    return { beyond, inside: 0.5 - beyond };
  }
  const sum = nu + t * t;
  const { lower, upper } = incompleteBeta(nu / 2, 0.5, nu / sum, (t / sum) * t);
  return { beyond: lower / 2, inside: upper / 2 };
}

/** log B(a, 1/2). */
function logBeta(a: number): number {
  return logGamma(a) + logGamma(0.5) - logGamma(a + 0.5);
}

/** The normal z with the same tail as t. G. W. Hill, Commun. ACM 13 (1970) 617, algorithm 395. */
function hill(t: number, nu: number): number {
  const a = nu - 0.5;
  const b = 48 * a * a;
  const y = a * Math.log1p((t / nu) * t);
  const second = (((-0.4 * y - 3.3) * y - 24) * y - 85.5) / (0.8 * y * y + 100 + b);
  return ((second + y + 3) / b + 1) * Math.sqrt(y);
}
