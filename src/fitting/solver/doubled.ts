/** 2²⁷ + 1 cuts a double into two halves whose products are exact. */
const splitter = 134217729;

/**
 * start + Σ a[k]·b[k] as if computed with twice the digits and rounded at the end. Source: T. J. Dekker, Numer. Math. 18
 * (1971) 224, for the product; D. E. Knuth for the sum; T. Ogita, S. M. Rump, S. Oishi, SIAM J. Sci. Comput. 26 (2005) 1955.
 */
export function doubledDot(start: number, a: ArrayLike<number>, b: ArrayLike<number>): number {
  let high = start;
  let low = 0;
  for (let k = 0; k < a.length; k += 1) {
    const product = a[k]! * b[k]!;
    const sum = high + product;
    const part = sum - high;
    low += high - (sum - part) + (product - part) + productError(a[k]!, b[k]!, product);
    high = sum;
  }
  return high + low;
}

/** a·b less its rounded product, exactly. */
function productError(a: number, b: number, product: number): number {
  const [aHigh, bHigh] = [upperHalf(a), upperHalf(b)];
  const [aLow, bLow] = [a - aHigh, b - bHigh];
  return aLow * bLow - (product - aHigh * bHigh - aLow * bHigh - aHigh * bLow);
}

function upperHalf(value: number): number {
  const spread = splitter * value;
  return spread - (spread - value);
}
