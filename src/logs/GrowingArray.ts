/** Numbers of which nobody knows beforehand how many will come; doubles its memory when full. */
export class GrowingArray {
  private data = new Float64Array(1024);
  length = 0;

  push(value: number): void {
    this.reserve(this.length + 1);
    this.data[this.length++] = value;
  }

  /** Appends the first `count` of some numbers. */
  append(values: Float64Array, count: number): void {
    this.reserve(this.length + count);
    this.data.set(values.subarray(0, count), this.length);
    this.length += count;
  }

  at(index: number): number {
    return this.data[index]!;
  }

  toArray(): Float64Array {
    return this.data.slice(0, this.length);
  }

  private reserve(length: number): void {
    if (length <= this.data.length) return;
    const larger = new Float64Array(Math.max(length, 2 * this.data.length));
    larger.set(this.data);
    this.data = larger;
  }
}
