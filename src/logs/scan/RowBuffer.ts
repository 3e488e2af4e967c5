import { StepTracker } from '../StepTracker.js';
import type { KeyChange } from './FastSpec.js';

/** The values of one column, and what is kept of them besides. */
export interface BufferColumn {
  readonly values: Float64Array;
  steps: StepTracker;
  /** Rows without a value. */
  missing: number;
  /** Decimals of the last number, the fewest of the runs of numbers before, and the row where the last run began. */
  decimals: number;
  fewest: number;
  runFrom: number;
  /** The last number in units of its last decimal. */
  whole: number;
}

/** From this row on the line is this, and goes up by one with each row. */
export interface LineRun {
  readonly row: number;
  readonly line: number;
}

/** Some rows on their way from the file: times as numbers (or seconds of the day with date and offset), values in SI. */
export class RowBuffer {
  rows = 0;
  readonly times: Float64Array;
  readonly columns: readonly BufferColumn[];
  keyChanges: KeyChange[] = [];
  lineRuns: LineRun[] = [];
  /** Bytes of the file before the first row. */
  offset = 0;

  /** `arrays` is room for the times and for each column, where it is there already. */
  constructor(
    columns: number,
    readonly capacity: number,
    arrays: readonly Float64Array[] = [],
  ) {
    this.times = arrays[0] ?? new Float64Array(capacity);
    this.columns = Array.from({ length: columns }, (_, slot) => ({
      values: arrays[slot + 1] ?? new Float64Array(capacity),
      steps: new StepTracker(),
      missing: 0,
      decimals: Number.NaN,
      fewest: Infinity,
      runFrom: 0,
      whole: Number.NaN,
    }));
  }

  get isFull(): boolean {
    return this.rows === this.capacity;
  }

  /** Forgets the rows; the date of the last one holds on. */
  clear(): void {
    this.rows = 0;
    const last = this.keyChanges[this.keyChanges.length - 1];
    this.keyChanges = last ? [{ ...last, row: 0 }] : [];
    this.lineRuns = [];
    for (const column of this.columns) {
      column.steps = new StepTracker();
      column.missing = 0;
      column.decimals = Number.NaN;
      column.fewest = Infinity;
      column.runFrom = 0;
      column.whole = Number.NaN;
    }
  }

  dropLast(): void {
    this.rows--;
    for (const column of this.columns) if (Number.isNaN(column.values[this.rows]!)) column.missing--;
    this.keyChanges = this.keyChanges.filter(({ row }) => row < this.rows);
  }

  /** States the line of the row that comes next. */
  beginLine(line: number): void {
    const last = this.lineRuns[this.lineRuns.length - 1];
    if (last && last.line + this.rows - last.row === line) return;
    this.lineRuns.push({ row: this.rows, line });
  }

  lineOf(row: number): number {
    const run = this.lineRuns.findLast((each) => each.row <= row) ?? { row: 0, line: 1 };
    return run.line + row - run.row;
  }

  /** Takes the number of a slot in the row that is being filled. */
  noteNumber(slot: number, whole: number, places: number, factor: number): void {
    const column = this.columns[slot]!;
    if (places !== column.decimals) {
      if (!Number.isNaN(column.decimals)) column.fewest = Math.min(column.fewest, column.decimals);
      column.decimals = places;
      column.runFrom = this.rows;
    }
    const { steps } = column;
    if (places > steps.decimals || (steps.common !== 1 && whole !== column.whole))
      steps.noteWhole(whole, places, factor);
    column.whole = whole;
  }
}
