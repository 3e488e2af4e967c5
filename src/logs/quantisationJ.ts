/**
 * The standard uncertainty of an energy from the step of its power readings. Each reading is off by up to half a
 * step (rectangular, q/√12). Readings that wander by half a step or more from one to the next err independently;
 * those that stand still all err alike.
 */
export function quantisationJ(
  stretches: readonly {
    readonly p0: number;
    readonly p1: number;
    readonly from: number;
    readonly to: number;
  }[],
  stepW: number | null,
): number {
  // Without a step there was no reading, and no interval to integrate either.
  if (stepW === null || stretches.length === 0) return Number.NaN;
  const changes = Float64Array.from(stretches, ({ p0, p1 }) => Math.abs(p1 - p0)).sort();
  const wanders = changes[changes.length >> 1]! >= stepW / 2;
  let sum = 0;
  let squares = 0;
  for (const { from, to } of stretches) {
    sum += to - from;
    squares += (to - from) ** 2;
  }
  return (stepW / Math.sqrt(12)) * (wanders ? Math.sqrt(squares) : sum);
}
