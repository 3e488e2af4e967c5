/**
 * Exponential and logarithm from the four operations only. The library functions of two machines may differ in the last
 * bit; sums, products, quotients and square roots may not, so the samples come out the same everywhere.
 */

/** ln 2 in two parts, the first short enough that its product with a small whole number is exact. */
const LN2_HIGH = 0.6931471803691238;
const LN2_LOW = 1.9082149292705877e-10;

/**
 * e to the power x for |x| < 700, good to about 2e-16 of the value: x = k·ln 2 + r, Taylor series in r.
 * @param {number} x
 * @returns {number}
 */
export function exp(x) {
  if (!(Math.abs(x) < 700)) throw new RangeError(`exp: ${x} is outside -700 to 700`);
  const k = Math.round(x / Math.LN2);
  const r = x - k * LN2_HIGH - k * LN2_LOW;
  let sum = 1;
  for (let n = 13; n >= 1; n--) sum = 1 + (sum * r) / n;
  const factor = k < 0 ? 0.5 : 2;
  for (let i = Math.abs(k); i > 0; i--) sum *= factor;
  return sum;
}

/**
 * Natural logarithm of x > 0: x = 2^k·m with m near 1, ln m = 2·artanh((m − 1)/(m + 1)).
 * @param {number} x
 * @returns {number}
 */
export function ln(x) {
  if (!(x > 0 && x < Infinity)) throw new RangeError(`ln: ${x} is not a positive number`);
  let m = x;
  let k = 0;
  while (m > Math.SQRT2) {
    m *= 0.5;
    k++;
  }
  while (m < Math.SQRT1_2) {
    m *= 2;
    k--;
  }
  const s = (m - 1) / (m + 1);
  const square = s * s;
  let sum = 0;
  for (let n = 23; n >= 1; n -= 2) sum = sum * square + 1 / n;
  return k * LN2_HIGH + (2 * s * sum + k * LN2_LOW);
}
