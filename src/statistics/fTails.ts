import { incompleteBeta } from './incompleteBeta.js';
import { type BothTails, incompleteGamma } from './incompleteGamma.js';
import { studentTails } from './studentTails.js';

/**
 * Both tails of the F distribution at x with `above` degrees of freedom in the numerator and `below` in the
 * denominator, each above zero, Infinity allowed. NIST DLMF 8.17.
 */
export function fTails(x: number, above: number, below: number): BothTails {
  if (x <= 0) return { lower: 0, upper: 1 };
  if (x === Number.POSITIVE_INFINITY) return { lower: 1, upper: 0 };
  if (above === 1 || below === 1) return ofStudent(x, above, below);
  if (below === Number.POSITIVE_INFINITY) {
    if (above === Number.POSITIVE_INFINITY) return x < 1 ? { lower: 0, upper: 1 } : { lower: 1, upper: 0 };
    return incompleteGamma(above / 2, (above * x) / 2);
  }
  if (above === Number.POSITIVE_INFINITY) return swapped(incompleteGamma(below / 2, below / x / 2));
  const ratio = (above / below) * x;
  // Two forms of the same, so that neither overflows.
  const share = ratio < 1 ? ratio / (1 + ratio) : 1 / (1 + 1 / ratio);
  return incompleteBeta(above / 2, below / 2, share, 1 / (1 + ratio));
}

/** With one degree of freedom F is t² or 1/t², and the t distribution keeps its digits at many degrees of freedom. */
function ofStudent(x: number, above: number, below: number): BothTails {
  if (above !== 1) return swapped(ofStudent(1 / x, 1, above));
  const { inside, beyond } = studentTails(Math.sqrt(x), below);
  return { lower: 2 * inside, upper: 2 * beyond };
}

function swapped({ lower, upper }: BothTails): BothTails {
  return { lower: upper, upper: lower };
}
