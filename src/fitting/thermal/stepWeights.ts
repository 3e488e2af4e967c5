const seriesTerms = 40;
const negligible = 1e-18;

/**
 * Of one step of h seconds at a rate b, for k = 0 to n − 1, into `out`: e^(−bh)·hᵏ/k!, and what a straight line from f₀ to
 * f₁ adds to ∫₀ʰe^(−b(h − s))·(h − s)ᵏ/k!·f ds for f₀ and for f₁. For b·h up to about 1.
 */
export function stepWeights(b: number, h: number, n: number, out: Float64Array): void {
  const decay = Math.exp(-b * h);
  let power = 1;
  let before = gamma(b, h, 0, power);
  for (let k = 0; k < n; k += 1) {
    out[k] = decay * power;
    power *= h / (k + 1);
    // With u = h − s: f = f₀·u/h + f₁·(1 − u/h).
    const next = gamma(b, h, k + 1, power);
    const late = ((k + 1) * next) / h;
    out[n + k] = late;
    out[2 * n + k] = before - late;
    before = next;
  }
}

/** ∫₀ʰe^(−bu)·uᵏ/k! du = hᵏ/k!·h·Σ (−bh)ⁿ/n!/(k + n + 1). */
function gamma(b: number, h: number, k: number, power: number): number {
  let sum = 0;
  let term = 1;
  for (let n = 0; n < seriesTerms; n += 1) {
    sum += term / (k + n + 1);
    term *= (-b * h) / (n + 1);
    if (Math.abs(term) < negligible) break;
  }
  return power * h * sum;
}
