/**
 * Chebyshev coefficients of e^(z²/2)·Q(z)/t in t = 4/(4 + z), z >= 0; computed with mpmath at 50 digits from its
 * erfc. The first one dropped is 1e-17 of the first.
 */
const coefficients = [
  0.24261280114151915, 0.18792720420989262, 0.05554838891881276, 0.012129438315111521, 0.0017314801240606202,
  8.014961859953749e-5, -2.5136847908026697e-5, -4.725842254926741e-6, 2.5258922136865774e-7,
  1.536333687349456e-7, -8.452550300172939e-10, -5.171627015435708e-9, -2.8206509081173767e-11,
  1.9435038070971737e-10, -2.485356047851177e-12, -7.936207374645758e-12, 4.606201711176235e-13,
  3.2821541166777413e-13, -4.353840663163703e-14, -1.226818507926106e-14, 3.232846081541394e-15,
  3.0451658804315853e-16, -2.0130368431552333e-16, 7.151235360654053e-18, 1.0142661060838386e-17,
  -1.751600193203649e-18,
];

/** Upper tail Q(z) = 1 − Φ(z) of the standard normal distribution, to full relative precision for positive z. */
export function normalTail(z: number): number {
  if (z < 0) return 1 - normalTail(-z);
  if (z > 40) return 0;
  const t = 4 / (4 + z);
  const twice = 4 * t - 2;
  let one = 0;
  let two = 0;
  for (let k = coefficients.length - 1; k > 0; k -= 1) {
    const next = twice * one - two + coefficients[k]!;
    two = one;
    one = next;
  }
  return Math.exp(-0.5 * z * z) * t * (0.5 * twice * one - two + coefficients[0]!);
}

/** Density of the standard normal distribution. */
export function normalDensity(z: number): number {
  return Math.exp(-0.5 * z * z) / Math.sqrt(2 * Math.PI);
}

/** Φ(z) − 1/2 for z >= 0, small z with all their digits: φ(z)·(z + z³/3 + z⁵/15 + ...), all terms of one sign. */
export function normalMiddle(z: number): number {
  if (z > 1) return 0.5 - normalTail(z);
  let term = z;
  let sum = z;
  for (let n = 3; n < 60; n += 2) {
    term *= (z * z) / n;
    sum += term;
  }
  return normalDensity(z) * sum;
}
