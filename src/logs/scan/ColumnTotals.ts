import { StepTracker } from '../StepTracker.js';
import type { BufferColumn, RowBuffer } from './RowBuffer.js';

/** What is known of the value columns over all rows handed on so far. */
export class ColumnTotals {
  rows = 0;
  readonly missing: number[];
  readonly steps: StepTracker[];
  private readonly fewest: number[];

  constructor(columns: number) {
    this.missing = new Array<number>(columns).fill(0);
    this.fewest = new Array<number>(columns).fill(Infinity);
    this.steps = Array.from({ length: columns }, () => new StepTracker());
  }

  add(buffer: RowBuffer): void {
    this.rows += buffer.rows;
    for (const [slot, column] of buffer.columns.entries()) {
      this.missing[slot]! += column.missing;
      this.steps[slot]!.join(column.steps.seen());
      const last = Number.isNaN(column.decimals) ? Infinity : column.decimals;
      this.fewest[slot] = Math.min(this.fewest[slot]!, column.fewest, last);
    }
  }

  /**
   * Whether the last number of a buffer, not yet added, shows fewer decimals than every one before it: the file may end
   * in the middle of it.
   */
  lastIsCut(buffer: RowBuffer, slot: number): boolean {
    const column: BufferColumn = buffer.columns[slot]!;
    const fewest = Math.min(this.fewest[slot]!, column.fewest);
    return (
      this.rows + buffer.rows > 3 &&
      column.runFrom === buffer.rows - 1 &&
      column.decimals < fewest &&
      Number.isFinite(fewest)
    );
  }
}
