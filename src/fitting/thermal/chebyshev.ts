/** A polynomial as a Chebyshev series on [low, high]. */
export interface Chebyshev {
  readonly middle: number;
  readonly halfWidth: number;
  readonly coefficients: Float64Array;
}

/** The polynomial through a function at the Chebyshev points of an interval. */
export function chebyshevThrough(
  f: (x: number) => number,
  low: number,
  high: number,
  degree: number,
): Chebyshev {
  const n = degree + 1;
  const middle = (low + high) / 2;
  const halfWidth = (high - low) / 2;
  const angles = Array.from({ length: n }, (_, k) => (Math.PI * (k + 0.5)) / n);
  const values = angles.map((angle) => f(middle + halfWidth * Math.cos(angle)));
  const coefficients = Float64Array.from(angles, (_, j) => {
    const sum = values.reduce((total, value, k) => total + value * Math.cos(j * angles[k]!), 0);
    return (sum * (j === 0 ? 1 : 2)) / n;
  });
  return { middle, halfWidth, coefficients };
}

/** Value and derivative into `out`, by Clenshaw's recurrence and its derivative. */
export function valueAndSlope(
  { middle, halfWidth, coefficients }: Chebyshev,
  x: number,
  out: Float64Array,
): void {
  const z = (x - middle) / halfWidth;
  let b1 = 0;
  let b2 = 0;
  let d1 = 0;
  let d2 = 0;
  for (let j = coefficients.length - 1; j > 0; j -= 1) {
    const d = 2 * b1 + 2 * z * d1 - d2;
    d2 = d1;
    d1 = d;
    const b = coefficients[j]! + 2 * z * b1 - b2;
    b2 = b1;
    b1 = b;
  }
  out[0] = coefficients[0]! + z * b1 - b2;
  out[1] = (b1 + z * d1 - d2) / halfWidth;
}
