/**
 * Exponential, logarithm, cosine, sine and power from +, −, ×, ÷, the square root and the bits of the exponent alone:
 * what IEEE 754 leaves no freedom in. Math.exp and its kin may differ in the last bit between engines, and one
 * bit of difference in a rejection test is another stream of trials.
 *
 * Methods and coefficients: fdlibm (Sun Microsystems, 1993; e_exp.c, e_log.c, k_cos.c, k_sin.c, e_rem_pio2.c), from
 * memory, checked against Math in the tests; errors below one unit in the last place.
 */

const LN2_HIGH = 6.9314718036912381649e-1;
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
  const k = Math.floor(x * 1.442695040888963387 + 0.5);
  const high = x - k * LN2_HIGH;
  const low = k * LN2_LOW;
  const r = high - low;
  const t = r * r;
  const c =
    r -
    t *
      (1.66666666666666019037e-1 +
        t *
          (-2.77777777770155933842e-3 +
            t *
              (6.61375632143793436117e-5 + t * (-1.6533902205465251539e-6 + t * 4.13813679705723846039e-8))));
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
  const odd = w * (3.999999999940941908e-1 + w * (2.222219843214978396e-1 + w * 1.531383769920937332e-1));
  const even =
    z *
    (6.66666666666673513e-1 +
      w * (2.857142874366239149e-1 + w * (1.818357216161805012e-1 + w * 1.479819860511658591e-1)));
  const half = 0.5 * f * f;
  return k * LN2_HIGH - (half - (s * (half + odd + even) + k * LN2_LOW) - f);
}

function sineKernel(x: number, tail: number): number {
  const z = x * x;
  const v = z * x;
  const r =
    8.33333333332248946124e-3 +
    z *
      (-1.98412698298579493134e-4 +
        z * (2.75573137070700676789e-6 + z * (-2.50507602534068634195e-8 + z * 1.58969099521155010221e-10)));
  return x - (z * (0.5 * tail - v * r) - tail - v * -1.66666666666666324348e-1);
}

function cosineKernel(x: number, tail: number): number {
  const z = x * x;
  const r =
    z *
    (4.16666666666666019037e-2 +
      z *
        (-1.38888888888741095749e-3 +
          z *
            (2.48015872894767294178e-5 +
              z *
                (-2.75573143513906633035e-7 +
                  z * (2.0875723212981748279e-9 + z * -1.13596475577881948265e-11)))));
  const half = 0.5 * z;
  const w = 1 - half;
  return w + (1 - w - half + (z * r - x * tail));
}

/** Beyond this the two-part reduction below loses digits; no angle of a measurement is near. */
const LARGEST_ANGLE = 1e5;

/** Sine of x plus quarter turns; NaN beyond 1e5 rad. */
function turned(x: number, quarters: number): number {
  if (!(x <= LARGEST_ANGLE && x >= -LARGEST_ANGLE)) return Number.NaN;
  const n = Math.floor(x * 6.36619772367581382433e-1 + 0.5);
  // π/2 in parts of 33 bits: the first two products are exact.
  const first = x - n * 1.57079632673412561417;
  const second = n * 6.0771005063039659766e-11;
  const rest = first - second;
  const lost = n * 2.02226624879595063154e-21 - (first - rest - second);
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
