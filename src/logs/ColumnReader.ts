import { problem } from '../errors/index.js';
import { GrowingArray } from './GrowingArray.js';
import { numberCell } from './numberCell.js';
import type { ValueColumn } from './pickValues.js';
import { StepTracker } from './StepTracker.js';
import type { CsvRecord } from './types.js';

// No meter shows more than a terawatt or a terajoule: such a cell is spoilt.
const largestSi = 1e12;

/** Reads the cells of one column to SI; a cell that is no number in the column's unit is an error. */
export class ColumnReader {
  readonly data = new GrowingArray();
  readonly steps = new StepTracker();
  private missing = 0;
  private lastDecimals = Infinity;
  private fewestBefore = Infinity;

  constructor(
    readonly column: ValueColumn,
    private readonly decimal: '.' | ',',
    private readonly file: string,
  ) {}

  take(record: CsvRecord): void {
    const cell = record.cells[this.column.index] ?? '';
    const number = numberCell(cell, this.decimal);
    if (number === null) {
      this.missing++;
      this.data.push(Number.NaN);
      return;
    }
    const unit = number?.unit ?? this.column.unit;
    const factor = unit?.factor ?? 1;
    const si = number ? number.value * factor + (unit?.offset ?? 0) : Number.NaN;
    const spoilt = !(Math.abs(si) <= largestSi) || (this.column.role === 'temperature' && si < 0);
    if (!number || spoilt || (number.unit && number.unit.role !== this.column.role))
      throw this.bad(cell, record.line);
    this.fewestBefore = Math.min(this.fewestBefore, this.lastDecimals);
    this.lastDecimals = number.decimals;
    this.steps.note(number.unit ? si : number.value, number.decimals, Math.abs(factor));
    this.data.push(si);
  }

  /** Whether the last number shows fewer decimals than every one before it: the file may end in the middle of it. */
  lastIsCut(): boolean {
    return (
      this.data.length > 3 && this.lastDecimals < this.fewestBefore && Number.isFinite(this.fewestBefore)
    );
  }

  report(rows: number, warnings: string[]): void {
    const name = this.column.header || `column ${this.column.index + 1}`;
    if (this.missing === rows && rows > 0) warnings.push(`"${name}" has no value in any row.`);
    else if (this.missing > 0)
      warnings.push(`"${name}" has no value in ${this.missing} of ${rows} rows; they are unknown, not zero.`);
  }

  private bad(cell: string, line: number) {
    const example = this.decimal === ',' ? '12,5' : '12.5';
    const unit = this.column.unit ? ` in ${this.column.unit.symbol}` : '';
    return problem(
      'log-cell-bad',
      {
        header: this.column.header || `column ${this.column.index + 1}`,
        got: cell,
        expected: `a number such as ${example}${unit}, or an empty cell`,
      },
      { file: this.file, line, column: this.column.index + 1 },
    );
  }
}
