// Three quarters of the slots are filled at most: 98,304 different values.
const mostSlots = 1 << 17;
const coarseSteps = 1 << 15;

/**
 * How often each value came, in bounded memory: exactly for up to 98,304 different values. With more of them
 * neighbours are put together, to a 16,384th of the range at worst.
 */
export class Tally {
  private keys = new Float64Array(256).fill(Number.NaN);
  private counts = new Float64Array(256);
  private used = 0;
  private quantum = 0;
  private inOrder: ReturnType<Tally['sort']> | null = null;
  total = 0;

  /** Counts a finite value. */
  add(value: number): void {
    this.addAll(Float64Array.of(value), 1);
  }

  /** Counts the first `count` of some values; missing ones (NaN) are passed over. */
  addAll(values: Float64Array, count: number): void {
    this.inOrder = null;
    // In one loop, because a call for each value would cost more than the counting.
    let { keys, counts } = this;
    let mask = keys.length - 1;
    let last = Number.NaN;
    let slot = 0;
    for (let i = 0; i < count; i++) {
      const value = values[i]!;
      if (value !== last) {
        if (Number.isNaN(value)) continue;
        last = value;
        const key = this.quantum === 0 ? value : Math.round(value / this.quantum) * this.quantum;
        slot = hashOf(key) & mask;
        while (counts[slot]! > 0 && keys[slot] !== key) slot = (slot + 1) & mask;
        if (counts[slot] === 0) {
          keys[slot] = key;
          this.used++;
          if (4 * this.used > 3 * keys.length) {
            counts[slot] = 1;
            this.total++;
            this.grow();
            ({ keys, counts } = this);
            mask = keys.length - 1;
            last = Number.NaN;
            continue;
          }
        }
      }
      counts[slot]!++;
      this.total++;
    }
  }

  /** The values in ascending order and how often each came. */
  sorted(): { readonly values: Float64Array; readonly counts: Float64Array } {
    this.inOrder ??= this.sort();
    return this.inOrder;
  }

  private sort(): { readonly values: Float64Array; readonly counts: Float64Array } {
    const slots = Array.from(this.keys.keys()).filter((slot) => this.counts[slot]! > 0);
    slots.sort((a, b) => this.keys[a]! - this.keys[b]!);
    return {
      values: Float64Array.from(slots, (slot) => this.keys[slot]!),
      counts: Float64Array.from(slots, (slot) => this.counts[slot]!),
    };
  }

  /** The value in the middle (the upper one of two); 0 where nothing was counted. */
  median(): number {
    const { values, counts } = this.sorted();
    let before = 0;
    for (let i = 0; i < values.length; i++) {
      before += counts[i]!;
      if (before > Math.floor(this.total / 2)) return values[i]!;
    }
    return 0;
  }

  private grow(): void {
    const { values, counts } = this.sort();
    const full = this.keys.length >= mostSlots;
    if (full) {
      // A power of two, so that rounding again later puts whole groups together.
      const span = values[values.length - 1]! - values[0]!;
      this.quantum = 2 ** Math.ceil(Math.log2(Math.max(span / coarseSteps, 2 * this.quantum)));
    }
    const size = full ? this.keys.length : 2 * this.keys.length;
    this.keys = new Float64Array(size).fill(Number.NaN);
    this.counts = new Float64Array(size);
    this.used = 0;
    for (let i = 0; i < values.length; i++) {
      const value = values[i]!;
      const key = this.quantum === 0 ? value : Math.round(value / this.quantum) * this.quantum;
      let slot = hashOf(key) & (size - 1);
      while (this.counts[slot]! > 0 && this.keys[slot] !== key) slot = (slot + 1) & (size - 1);
      if (this.counts[slot] === 0) this.used++;
      this.keys[slot] = key;
      this.counts[slot]! += counts[i]!;
    }
  }
}

function hashOf(key: number): number {
  const mixed = (key * 2654435.769) | 0;
  return Math.imul(mixed ^ (mixed >>> 15), 0x9e3779b1) >>> 8;
}
