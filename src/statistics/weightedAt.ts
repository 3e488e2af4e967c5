/** The weighted mean of independent results at one between-run variance t, and what the pooling needs of it. */
export interface WeightedAt {
  /** wᵢ/Σw, adding up to 1. */
  readonly weights: readonly number[];
  /** m(t) = Σwx/Σw. */
  readonly mean: number;
  /** Σw; Infinity where a result has no uncertainty at all. */
  readonly sumOfWeights: number;
  /** Q(t) = Σw(x − m)². */
  readonly chiSquared: number;
  /** dQ/dt = −Σw²(x − m)², because m minimises Q. */
  readonly slope: number;
}

/**
 * Weights wᵢ = 1/(uᵢ² + t). Where some uᵢ² + t are zero the limit t → 0 is taken: those results share all the
 * weight, and Q is infinite if they differ.
 */
export function weightedAt(
  values: readonly number[],
  uncertainties: readonly number[],
  betweenVariance: number,
): WeightedAt {
  const variances = uncertainties.map((u) => u * u + betweenVariance);
  const smallest = Math.min(...variances);
  // Relative to the largest weight, so that neither 1/u² nor its square leaves the range of a double.
  const relative = variances.map((v) => (v === smallest ? 1 : smallest / v));
  const total = relative.reduce((sum, w) => sum + w, 0);
  const weights = relative.map((w) => w / total);
  const origin = values[variances.indexOf(smallest)]!;
  const mean = origin + values.reduce((sum, x, i) => sum + weights[i]! * (x - origin), 0);
  let chiSquared = 0;
  let slope = 0;
  values.forEach((x, i) => {
    const deviation = x - mean;
    if (deviation === 0) return;
    const term = (deviation / variances[i]!) * deviation;
    chiSquared += term;
    slope -= term / variances[i]!;
  });
  return { weights, mean, sumOfWeights: total / smallest, chiSquared, slope };
}
