/**
 * The standard uncertainty of an energy from the step of its power readings. Each reading is off by up to half a
 * step (rectangular, q/√12). Readings that wander, most of them other than the one before, err independently;
 * those that stand still all err alike.
 */
export function quantisationJ(
  sums: {
    readonly stretches: number;
    /** Stretches over which the power changes. */
    readonly changes: number;
    readonly lengthS: number;
    readonly lengthS2: number;
  },
  stepW: number | null,
): number {
  // Without a step there was no reading, and no interval to integrate either.
  if (stepW === null || sums.stretches === 0) return Number.NaN;
  const wanders = sums.changes >= sums.stretches - Math.floor(sums.stretches / 2);
  return (stepW / Math.sqrt(12)) * (wanders ? Math.sqrt(sums.lengthS2) : sums.lengthS);
}
