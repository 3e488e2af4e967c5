const distinctNeeded = 10;

/** What a tracker has seen so far, in a form that can be sent to another thread. */
export interface StepsSeen {
  readonly decimals: number;
  readonly finest: number;
  readonly first: number;
  readonly common: number;
  readonly distinct: readonly number[];
}

/**
 * Finds the smallest step a column can show: the decimals shown, or a coarser step (0.5, 5) where at least ten
 * different values are all whole multiples of it apart. Values are kept as whole numbers of the last decimal.
 */
export class StepTracker {
  /** The most decimals seen; values count in units of the last one. */
  decimals = -Infinity;
  /** Greatest common divisor of the differences to the first value; 1 once nothing coarser can come out. */
  common = 0;
  private finest = Infinity;
  private first = Number.NaN;
  private distinct: number[] = [];

  /** A tracker that has seen what another one has. */
  static from(seen: StepsSeen): StepTracker {
    const tracker = new StepTracker();
    tracker.decimals = seen.decimals;
    tracker.finest = seen.finest;
    tracker.first = seen.first;
    tracker.common = seen.common;
    tracker.distinct = [...seen.distinct];
    return tracker;
  }

  /** Notes a value; `factor` leads from the unit of the cell to SI. */
  note(value: number, decimals: number, factor: number): void {
    this.noteWhole(Math.round(value * 10 ** decimals), decimals, factor);
  }

  /** Notes a value that is `whole` units of its last decimal. */
  noteWhole(whole: number, decimals: number, factor: number): void {
    this.finest = Math.min(this.finest, Math.max(10 ** -decimals, 1e-15) * factor);
    if (decimals > this.decimals) this.refine(decimals);
    const units = decimals === this.decimals ? whole : Math.round(whole * 10 ** (this.decimals - decimals));
    if (Number.isNaN(this.first)) this.first = units;
    if (this.distinct.length < distinctNeeded && !this.distinct.includes(units)) this.distinct.push(units);
    const apart = Math.abs(units - this.first);
    if (this.common !== 1)
      this.common = Number.isSafeInteger(apart) ? greatestCommonDivisor(this.common, apart) : 1;
  }

  seen(): StepsSeen {
    const { decimals, finest, first, common, distinct } = this;
    return { decimals, finest, first, common, distinct };
  }

  /** Takes in what another tracker saw in the rows that follow. */
  join(other: StepsSeen): void {
    if (other.distinct.length === 0) return;
    const factor = other.finest / Math.max(10 ** -other.decimals, 1e-15);
    this.noteWhole(other.first, other.decimals, factor);
    for (const units of other.distinct) this.noteWhole(units, other.decimals, factor);
    const common = other.common * 10 ** (this.decimals - other.decimals);
    if (this.common !== 1 && common > 0) this.common = greatestCommonDivisor(this.common, Math.round(common));
  }

  /** The step in SI; `null` where the column held no number. */
  stepSi(): number | null {
    if (!Number.isFinite(this.finest)) return null;
    return this.finest * (this.distinct.length < distinctNeeded ? 1 : Math.max(this.common, 1));
  }

  private refine(decimals: number): void {
    const scale = 10 ** (decimals - this.decimals);
    if (!Number.isNaN(this.first)) {
      const larger = (units: number) => Math.round(units * scale);
      this.first = larger(this.first);
      this.distinct = this.distinct.map(larger);
      // Once nothing coarser than the old last decimal was left, only the new one can say more.
      this.common = Number.isSafeInteger(this.first) ? this.common * scale : 1;
    }
    this.decimals = decimals;
  }
}

function greatestCommonDivisor(a: number, b: number): number {
  return b === 0 ? a : greatestCommonDivisor(b, a % b);
}
