const distinctKept = 512;
const distinctNeeded = 10;

/**
 * Finds the smallest step a column can show: the decimals shown, or a coarser step (0.5, 5) where at least ten
 * different values are all whole multiples of it apart.
 */
export class StepTracker {
  private decimals = -Infinity;
  private finest = Infinity;
  private readonly seen = new Set<number>();

  /** `factor` leads from the unit of the cell to SI. */
  note(value: number, decimals: number, factor: number): void {
    this.decimals = Math.max(this.decimals, decimals);
    this.finest = Math.min(this.finest, Math.max(10 ** -decimals, 1e-15) * factor);
    if (this.seen.size < distinctKept) this.seen.add(value);
  }

  /** The step in SI; `null` where the column held no number. */
  stepSi(): number | null {
    if (!Number.isFinite(this.finest)) return null;
    return this.finest * this.multiple();
  }

  private multiple(): number {
    if (this.seen.size < distinctNeeded) return 1;
    const [first, ...others] = [...this.seen].map((value) => Math.round(value * 10 ** this.decimals));
    let common = 0;
    for (const other of others) {
      const apart = Math.abs(other - first!);
      if (!Number.isSafeInteger(apart)) return 1;
      common = greatestCommonDivisor(common, apart);
    }
    return Math.max(common, 1);
  }
}

function greatestCommonDivisor(a: number, b: number): number {
  return b === 0 ? a : greatestCommonDivisor(b, a % b);
}
