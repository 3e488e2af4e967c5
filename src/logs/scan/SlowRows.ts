import { problem } from '../../errors/index.js';
import type { Assignment } from '../assignColumns.js';
import { clockCell } from '../clockCell.js';
import { numberCell } from '../numberCell.js';
import type { ValueColumn } from '../pickValues.js';
import { shownText } from '../shownText.js';
import type { CsvRecord } from '../types.js';
import { largestSi, largestTime, leastSi } from './limits.js';
import type { RowBuffer } from './RowBuffer.js';

/** What the first row settled for all that follow. */
export interface ClockForm {
  /** 2 where the clock shows two numbers, 3 where it shows three. */
  readonly parts: number;
  /** Whether the time cell has a date of its own. */
  readonly dated: boolean;
  readonly zoned: boolean;
}

/** Reads rows cell by cell, in whatever way a cell may be written. A value that is no number is an error that names it. */
export class SlowRows {
  /** `null` until the first row with a clock time. */
  form: ClockForm | null = null;

  constructor(
    private readonly assignment: Assignment,
    private readonly decimal: '.' | ',',
    private readonly file: string,
    private readonly buffer: RowBuffer,
  ) {}

  /** Takes a row; `false`, with nothing taken, where its time is no time of this column's form. */
  take(record: CsvRecord): boolean {
    const { buffer, assignment } = this;
    const time = this.timeOf(record.cells);
    if (time === null) return false;
    buffer.beginLine(record.line);
    for (const [slot, column] of assignment.values.entries()) this.takeValue(slot, column, record);
    const row = buffer.rows++;
    buffer.times[row] = time.value;
    if (time.key) buffer.keyChanges.push({ row, ...time.key });
    return true;
  }

  private takeValue(slot: number, column: ValueColumn, record: CsvRecord): void {
    const { buffer } = this;
    const cell = record.cells[column.index] ?? '';
    const number = numberCell(cell, this.decimal);
    const target = buffer.columns[slot]!;
    if (number === null) {
      target.missing++;
      target.values[buffer.rows] = Number.NaN;
      return;
    }
    const unit = number?.unit ?? column.unit;
    const factor = unit?.factor ?? 1;
    const si = number ? number.value * factor + (unit?.offset ?? 0) : Number.NaN;
    const spoilt = !(si <= largestSi && si >= leastSi(column.role));
    if (!number || spoilt || (number.unit && number.unit.role !== column.role))
      throw this.bad(column, cell, record.line);
    target.values[buffer.rows] = si;
    const shown = number.unit ? si : number.value;
    const whole = Math.round(shown * 10 ** number.decimals);
    buffer.noteNumber(slot, whole, number.decimals, Math.abs(factor));
  }

  private timeOf(
    cells: readonly string[],
  ): { value: number; key?: { date: string | null; offset: string | null } } | null {
    const { form, index, unit } = this.assignment.time;
    if (form === 'count') return { value: 0 };
    const cell = cells[index] ?? '';
    if (form === 'clock') return this.clockOf(cell, cells);
    const number = numberCell(cell, this.decimal);
    if (!number || (number.unit && number.unit.role !== 'time')) return null;
    const value = number.unit && unit ? (number.value * number.unit.factor) / unit.factor : number.value;
    return Math.abs(value) > largestTime ? null : { value };
  }

  private clockOf(cell: string, cells: readonly string[]) {
    const clock = clockCell(cell);
    if (!clock || clock.seconds === null) return null;
    const found = { parts: clock.parts, dated: clock.date !== null, zoned: clock.offset !== null };
    let { date } = clock;
    const { dateIndex } = this.assignment.time;
    if (dateIndex !== null) {
      const beside = clockCell(cells[dateIndex] ?? '');
      if (!beside?.date || date !== null || clock.seconds > 86400) return null;
      date = beside.date;
    }
    this.form ??= found;
    const { parts, dated, zoned } = this.form;
    if (parts !== found.parts || dated !== found.dated || zoned !== found.zoned) return null;
    return { value: clock.seconds, key: { date, offset: clock.offset } };
  }

  private bad(column: ValueColumn, cell: string, line: number) {
    const example = this.decimal === ',' ? '12,5' : '12.5';
    const unit = column.unit ? ` in ${column.unit.symbol}` : '';
    return problem(
      'log-cell-bad',
      {
        header: column.header ? shownText(column.header) : `column ${column.index + 1}`,
        got: shownText(cell),
        expected: `a number such as ${example}${unit}, or an empty cell`,
      },
      { file: this.file, line, column: column.index + 1 },
    );
  }
}
