/** Numbers of which nobody knows beforehand how many will come; doubles its memory when full. */
export class GrowingArray {
  private data = new Float64Array(1024);
  length = 0;

  push(value: number): void {
    if (this.length === this.data.length) {
      const larger = new Float64Array(2 * this.data.length);
      larger.set(this.data);
      this.data = larger;
    }
    this.data[this.length++] = value;
  }

  dropLast(): void {
    if (this.length > 0) this.length--;
  }

  at(index: number): number {
    return this.data[index]!;
  }

  toArray(): Float64Array {
    return this.data.slice(0, this.length);
  }
}
