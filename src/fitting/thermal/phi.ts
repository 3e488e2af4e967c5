/** Terms of the series: 0.5^17/20! is far below rounding. */
const terms = 17;
const seriesBelow = 0.5;

/**
 * φ₀ = eˣ, φ₁ = (φ₀ − 1)/x, φ₂ = (φ₁ − 1)/x, φ₃ = (φ₂ − ½)/x into `out`, without cancellation near x = 0.
 * φₖ' = φₖ − k·φₖ₊₁.
 */
export function phi(x: number, out: Float64Array): void {
  if (Math.abs(x) < seriesBelow) {
    let sum = 0;
    for (let k = terms; k > 0; k -= 1) sum = (sum * x) / (k + 3) + 1;
    out[3] = sum / 6;
    out[2] = 0.5 + x * out[3];
    out[1] = 1 + x * out[2];
    out[0] = 1 + x * out[1];
  } else {
    out[0] = Math.exp(x);
    out[1] = (out[0] - 1) / x;
    out[2] = (out[1] - 1) / x;
    out[3] = (out[2] - 0.5) / x;
  }
}
