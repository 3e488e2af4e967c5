/**
 * The pieces from which the incomplete gamma and beta functions build their leading factors without
 * cancellation: Stirling's error and the deviance x − log(1 + x). Writing x^a·e^(−x)/Γ(a + 1) with them keeps
 * full precision at thousands of degrees of freedom, where differences of log-gamma values lose five digits.
 * Formula: C. Loader, "Fast and accurate computation of binomial probabilities" (2000).
 */

/** Coefficients B(2k)/(2k(2k − 1)) of Stirling's series, NIST DLMF 5.11.1. */
const stirlingSeries = [1 / 12, -1 / 360, 1 / 1260, -1 / 1680, 1 / 1188, -691 / 360360, 1 / 156];
const stirlingFrom = 16;

/** log Γ(z) − [(z − 1/2)·log z − z + log(2π)/2] for z > 0. */
export function stirlingError(z: number): number {
  let shift = 0;
  let w = z;
  while (w < stirlingFrom) {
    shift += (w + 0.5) * Math.log1p(1 / w) - 1;
    w += 1;
  }
  const inverseSquare = 1 / (w * w);
  let sum = 0;
  for (let k = stirlingSeries.length - 1; k >= 0; k -= 1) sum = sum * inverseSquare + stirlingSeries[k]!;
  return shift + sum / w;
}

/** log Γ(z) for z > 0. */
export function logGamma(z: number): number {
  return (z - 0.5) * Math.log(z) - z + 0.5 * Math.log(2 * Math.PI) + stirlingError(z);
}

/** (ratio − 1) − log(ratio), given `excess` = ratio − 1 computed without cancellation by the caller. */
export function deviance(ratio: number, excess: number): number {
  if (Math.abs(excess) > 0.3) return excess - Math.log(ratio);
  const r = excess / (2 + excess);
  const square = r * r;
  let sum = 0;
  let power = 1;
  for (let k = 3; k <= 27; k += 2) {
    sum += power / k;
    power *= square;
  }
  return r * excess - 2 * r * square * sum;
}
