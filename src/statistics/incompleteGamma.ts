import { problem } from '../errors/index.js';
import { deviance, stirlingError } from './gammaParts.js';
import { normalTail } from './normalTail.js';

/** A distribution function from both ends, each to its own full precision. */
export interface BothTails {
  readonly lower: number;
  readonly upper: number;
}

const maxTerms = 200_000;
const epsilon = 2 ** -53;
/** From here on Temme's expansion with its first term is good to 2e-15 and the series would be slow. */
const temmeFrom = 5e7;

/**
 * Regularised incomplete gamma functions P(a, x) and Q(a, x) = 1 − P, for a > 0 and x >= 0: power series below
 * a + 1, continued fraction above (NIST DLMF 8.7.1 and 8.9.2), Temme's uniform expansion for very large a (8.12.3).
 */
export function incompleteGamma(a: number, x: number): BothTails {
  if (x <= 0) return { lower: 0, upper: 1 };
  if (x === Number.POSITIVE_INFINITY) return { lower: 1, upper: 0 };
  if (a > temmeFrom) return temme(a, x);
  const factor = Math.exp(-stirlingError(a) - a * deviance(x / a, (x - a) / a)) / Math.sqrt(2 * Math.PI * a);
  if (x < a + 1) {
    const lower = factor * powerSeries(a, x);
    return { lower, upper: 1 - lower };
  }
  const upper = factor * a * continuedFraction(a, x);
  return { lower: 1 - upper, upper };
}

function powerSeries(a: number, x: number): number {
  let term = 1;
  let sum = 1;
  for (let n = 1; n < maxTerms; n += 1) {
    term *= x / (a + n);
    sum += term;
    if (term < sum * epsilon) return sum;
  }
  throw problem('internal', { what: `the incomplete gamma series did not end for a = ${a}, x = ${x}` });
}

/** Lentz's method for 1/(x + 1 − a − 1(1 − a)/(x + 3 − a − ...)). */
function continuedFraction(a: number, x: number): number {
  let b = x + 1 - a;
  let c = 1e300;
  let d = 1 / b;
  let h = d;
  for (let n = 1; n < maxTerms; n += 1) {
    const an = n * (a - n);
    b += 2;
    d = 1 / (an * d + b);
    c = b + an / c;
    const change = c * d;
    h *= change;
    if (Math.abs(change - 1) < 4 * epsilon) return h;
  }
  throw problem('internal', { what: `the incomplete gamma fraction did not end for a = ${a}, x = ${x}` });
}

/** First term of Temme's expansion; c0(η) by its series because |η| < 0.006 wherever the result is not 0 or 1. */
function temme(a: number, x: number): BothTails {
  const excess = (x - a) / a;
  const eta = Math.sign(excess) * Math.sqrt(2 * deviance(x / a, excess));
  const c0 = -1 / 3 + eta * (1 / 12 + eta * (-2 / 135 + eta * (1 / 864)));
  const z = eta * Math.sqrt(a);
  const correction = (Math.exp((-z * z) / 2) / Math.sqrt(2 * Math.PI * a)) * (Math.abs(z) < 40 ? c0 : 0);
  return { lower: normalTail(-z) - correction, upper: normalTail(z) + correction };
}
