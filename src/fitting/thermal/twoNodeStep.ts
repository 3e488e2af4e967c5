/** Entries of a step: E, W₀, W₁ as 2×2 matrices by rows (q, T), then the same by B, then by c. */
export const stepEntries = 36;

const smallest = 1e-18;

/** How many equal parts a step of h seconds is cut into: in each the eigenvalues times its length are at most 1. */
export function partsOf(lossRate: number, couplingRate: number, bodyRatio: number, h: number): number {
  const radius = Math.abs(couplingRate) + Math.abs(lossRate) * (1 + bodyRatio);
  return Math.max(1, Math.ceil(radius * h));
}

/**
 * One exact step of dq/dt = c·(A·P − q + r·B·(T − Ta)), dT/dt = q − (1 + r)·B·(T − Ta) with straight-line forcing f in
 * both: z(h) = E·z(0) + W₀·f₀ + W₁·f₁, E = φ₀(Mh), W₁ = h·φ₂(Mh), W₀ = h·φ₁(Mh) − W₁, with derivatives by B and c.
 *
 * Powers of M by Cayley and Hamilton: Mⁿ = αₙ·I + βₙ·M with αₙ₊₁ = −det·βₙ, βₙ₊₁ = αₙ + tr·βₙ. Equal
 * eigenvalues and a vanishing determinant are nothing special in it.
 */
export function twoNodeStep(
  lossRate: number,
  couplingRate: number,
  bodyRatio: number,
  h: number,
  out: Float64Array,
): void {
  const B = lossRate;
  const c = couplingRate;
  const r = bodyRatio;
  const trace = -c - (1 + r) * B;
  const det = c * B;
  // Sums Σ hⁿ/(n+k)!·(αₙ, βₙ) for φ₀, φ₁, φ₂ with derivatives by trace and determinant.
  let alpha = 1;
  let beta = 0;
  let alphaT = 0;
  let betaT = 0;
  let alphaD = 0;
  let betaD = 0;
  const g = new Float64Array(18);
  let weight = 1;
  for (let n = 0; n < 40; n += 1) {
    const w1 = weight / (n + 1);
    const w2 = w1 / (n + 2);
    for (let k = 0; k < 3; k += 1) {
      const w = k === 0 ? weight : k === 1 ? w1 : w2;
      g[6 * k]! += w * alpha;
      g[6 * k + 1]! += w * beta;
      g[6 * k + 2]! += w * alphaT;
      g[6 * k + 3]! += w * betaT;
      g[6 * k + 4]! += w * alphaD;
      g[6 * k + 5]! += w * betaD;
    }
    const nextAlphaT = -det * betaT;
    const nextBetaT = alphaT + beta + trace * betaT;
    const nextAlphaD = -beta - det * betaD;
    const nextBetaD = alphaD + trace * betaD;
    const nextAlpha = -det * beta;
    beta = alpha + trace * beta;
    alpha = nextAlpha;
    alphaT = nextAlphaT;
    betaT = nextBetaT;
    alphaD = nextAlphaD;
    betaD = nextBetaD;
    weight *= h / (n + 1);
    if (n > 2 && isSmall(weight, trace, det, h, n)) break;
  }
  const m = [-c, c * r * B, 1, -(1 + r) * B];
  // Derivatives of matrix, trace and determinant by B and c.
  const mB = [0, c * r, 0, -(1 + r)];
  const mC = [-1, r * B, 0, 0];
  write(g, m, null, 0, 0, h, out, 0);
  write(g, m, mB, -(1 + r), c, h, out, 12);
  write(g, m, mC, -1, B, h, out, 24);
}

/** Whether the next terms are below rounding: they are at most hⁿ/n!·n²·ρⁿ with ρ the largest eigenvalue. */
function isSmall(weight: number, trace: number, det: number, h: number, n: number): boolean {
  const radius = Math.abs(trace) + Math.sqrt(Math.abs(det));
  return weight * radius ** (n + 1) * (n + 2) ** 2 < smallest && h > 0;
}

/** E, W₀, W₁ (`by` null) or their derivatives, from the sums, into out[at...]. */
function write(
  g: Float64Array,
  m: readonly number[],
  by: readonly number[] | null,
  byTrace: number,
  byDet: number,
  h: number,
  out: Float64Array,
  at: number,
): void {
  for (let k = 0; k < 3; k += 1) {
    const factor = k === 0 ? 1 : h;
    const base = 6 * k;
    const identity = by ? g[base + 2]! * byTrace + g[base + 4]! * byDet : g[base]!;
    const linear = by ? g[base + 3]! * byTrace + g[base + 5]! * byDet : g[base + 1]!;
    for (let e = 0; e < 4; e += 1) {
      const diagonal = e === 0 || e === 3 ? identity : 0;
      out[at + 4 * k + e] = factor * (diagonal + linear * m[e]! + (by ? g[base + 1]! * by[e]! : 0));
    }
  }
  for (let e = 0; e < 4; e += 1) out[at + 4 + e]! -= out[at + 8 + e]!;
}
