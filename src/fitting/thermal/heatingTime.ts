/** What a heating at constant power takes, with its derivatives. */
export interface HeatingTime {
  readonly timeS: number;
  /** By heat flow over heat capacity (K/s), loss rate (1/s), start and end above ambient (K). */
  readonly gradient: readonly [number, number, number, number];
}

/**
 * Time to heat from x₁ to x₂ above ambient by dx/dt = f − b·x: t = ln[(f − b·x₁)/(f − b·x₂)]/b, and (x₂ − x₁)/f for b = 0.
 * null where x₂ is never reached.
 */
export function heatingTime(f: number, b: number, x1: number, x2: number): HeatingTime | null {
  const atStart = f - b * x1;
  const atEnd = f - b * x2;
  if (!(atStart * atEnd > 0)) return null;
  const rise = x2 - x1;
  // ln(atStart/atEnd) = ln(1 + z).
  const z = (b * rise) / atEnd;
  const timeS = (rise / atEnd) * logRatio(z);
  if (!(timeS >= 0)) return null;
  const byF = -rise / (atStart * atEnd);
  return { timeS, gradient: [byF, byLoss(f, b, x1, x2, timeS), -1 / atStart, 1 / atEnd] };
}

/** ln(1 + z)/z. */
function logRatio(z: number): number {
  return z === 0 ? 1 : Math.log1p(z) / z;
}

/** ∂t/∂b = (x₂/(f − b·x₂) − x₁/(f − b·x₁) − t)/b, by its limit where that would cancel. */
function byLoss(f: number, b: number, x1: number, x2: number, t: number): number {
  if (Math.abs((b * (x2 - x1)) / f) < 1e-5) return (x2 * x2 - x1 * x1) / (2 * f * f);
  return (x2 / (f - b * x2) - x1 / (f - b * x1) - t) / b;
}
