/**
 * Exponential, logarithm, cosine, sine and power from +, −, ×, ÷, the square root and the bits of the exponent alone:
 * what IEEE 754 leaves no freedom in. Math.exp and its kin may differ in the last bit between engines, and one
 * bit of difference in a rejection test is another stream of trials.
 *
 * Methods and coefficients: fdlibm (Sun Microsystems, 1993; e_exp.c, e_log.c, k_cos.c, k_sin.c, e_rem_pio2.c), from
 * memory, checked against Math in the tests; errors below one unit in the last place.
 */

const LN2_HIGH = 0.6931471803691238;
const LN2_LOW = 1.9082149292705877e-10;

/** 2^k for k from −1074 to 1023, by doubling and halving, which are exact. */
const powersOfTwo = (() => {
  const table = new Float64Array(1074 + 1024);
  table[1074] = 1;
  for (let k = 1; k < 1024; k++) table[1074 + k] = (table[1073 + k] as number) * 2;
  for (let k = 1; k <= 1074; k++) table[1074 - k] = (table[1075 - k] as number) / 2;
  return table;
})();

const twoTo = (k: number): number => powersOfTwo[k + 1074] as number;

/** e to the x. */
export function exponentialOf(x: number): number {
  if (!(x < 709.782712893384)) return x > 0 ? Number.POSITIVE_INFINITY : Number.NaN;
  if (x < -745.133219101941) return 0;
  const k = Math.floor(x * Math.LOG2E + 0.5);
  const high = x - k * LN2_HIGH;
  const low = k * LN2_LOW;
  const r = high - low;
  const t = r * r;
  const c =
    r -
    t *
      (0.16666666666666602 +
        t *
          (-0.0027777777777015593 +
            t * (6.613756321437934e-5 + t * (-1.6533902205465252e-6 + t * 4.1381367970572385e-8))));
  const y = 1 - (low - (r * c) / (2 - c) - high);
  // In two steps where one factor would run out of range.
  if (k > 1023) return y * 2 * twoTo(k - 1);
  return k < -1021 ? y * twoTo(k + 100) * twoTo(-100) : y * twoTo(k);
}

const bits = new Float64Array(1);
const words = new Uint32Array(bits.buffer);
bits[0] = 1;
const HIGH_WORD = words[1] === 0 ? 0 : 1;

/** Natural logarithm. */
export function logarithmOf(x: number): number {
  if (!(x > 0)) return x === 0 ? Number.NEGATIVE_INFINITY : Number.NaN;
  if (x === Number.POSITIVE_INFINITY) return x;
  let k = 0;
  bits[0] = x;
  if (x < 2.2250738585072014e-308) {
    bits[0] = x * 18014398509481984;
    k = -54;
  }
  const word = words[HIGH_WORD] as number;
  k += (word >>> 20) - 1023;
  const mantissa = word & 0xfffff;
  // Above the square root of two the mantissa is halved, so that f stays small.
  const upper = (mantissa + 0x95f64) & 0x100000;
  words[HIGH_WORD] = mantissa | (upper ^ 0x3ff00000);
  k += upper >>> 20;
  const f = (bits[0] as number) - 1;
  const s = f / (2 + f);
  const z = s * s;
  const w = z * z;
  const odd = w * (0.3999999999940942 + w * (0.22222198432149784 + w * 0.15313837699209373));
  const even =
    z * (0.6666666666666735 + w * (0.2857142874366239 + w * (0.1818357216161805 + w * 0.14798198605116586)));
  const half = 0.5 * f * f;
  return k * LN2_HIGH - (half - (s * (half + (even + odd)) + k * LN2_LOW) - f);
}

function sineKernel(x: number, tail: number): number {
  const z = x * x;
  const v = z * x;
  const r =
    0.00833333333332249 +
    z *
      (-0.0001984126982985795 +
        z * (2.7557313707070068e-6 + z * (-2.5050760253406863e-8 + z * 1.58969099521155e-10)));
  return x - (z * (0.5 * tail - v * r) - tail - v * -0.16666666666666632);
}

function cosineKernel(x: number, tail: number): number {
  const z = x * x;
  const r =
    z *
    (0.0416666666666666 +
      z *
        (-0.001388888888887411 +
          z *
            (2.480158728947673e-5 +
              z * (-2.7557314351390663e-7 + z * (2.087572321298175e-9 + z * -1.1359647557788195e-11)))));
  const half = 0.5 * z;
  const w = 1 - half;
  return w + (1 - w - half + (z * r - x * tail));
}

/** Beyond this the two-part reduction below loses digits; no angle of a measurement is near. */
const LARGEST_ANGLE = 1e5;

/** Sine of x plus quarter turns; NaN beyond 1e5 rad. */
function turned(x: number, quarters: number): number {
  if (!(x <= LARGEST_ANGLE && x >= -LARGEST_ANGLE)) return Number.NaN;
  const n = Math.floor(x * 0.6366197723675814 + 0.5);
  // π/2 in parts of 33 bits: the first two products are exact.
  const first = x - n * 1.5707963267341256;
  const second = n * 6.077100506303966e-11;
  const rest = first - second;
  const lost = n * 2.0222662487959506e-21 - (first - rest - second);
  const angle = rest - lost;
  const tail = rest - angle - lost;
  switch ((n + quarters) & 3) {
    case 0:
      return sineKernel(angle, tail);
    case 1:
      return cosineKernel(angle, tail);
    case 2:
      return -sineKernel(angle, tail);
    default:
      return -cosineKernel(angle, tail);
  }
}

/** Sine of an angle in radians; NaN beyond 1e5 rad. */
export const sineOf = (x: number): number => turned(x, 0);

/** Cosine of an angle in radians; NaN beyond 1e5 rad. */
export const cosineOf = (x: number): number => turned(x, 1);

/** x to an exact exponent: by multiplication where that is whole and small, by the square root where it is a half. */
export function powerOf(x: number, exponent: number): number {
  const size = Math.abs(exponent);
  if (size <= 64 && Number.isInteger(2 * size)) {
    let result = Number.isInteger(size) ? 1 : Math.sqrt(x);
    let square = x;
    for (let n = Math.floor(size); n > 0; n >>= 1) {
      if (n & 1) result *= square;
      square *= square;
    }
    return exponent < 0 ? 1 / result : result;
  }
  if (x === 0) return exponent > 0 ? 0 : Number.POSITIVE_INFINITY;
  if (x < 0) {
    if (!Number.isInteger(exponent)) return Number.NaN;
    const magnitude = exponentialOf(exponent * logarithmOf(-x));
    return exponent % 2 === 0 ? magnitude : -magnitude;
  }
  return exponentialOf(exponent * logarithmOf(x));
}
