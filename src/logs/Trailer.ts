import { problem } from '../errors/index.js';
import { shownText } from './shownText.js';
import type { Layout } from './sniffLayout.js';
import type { CsvRecord } from './types.js';

interface SetAside {
  readonly record: CsvRecord;
  readonly why: 'ragged' | 'time';
  readonly timeCell: string;
}

// Sums and notes under a table are a few lines; more than that is a damaged table.
const longest = 20;

/**
 * Rows that don't fit the table. At the end of the file they are a trailer, or a last row that was cut off, and
 * are left out with a warning; with data after them they are an error at the first of them.
 */
export class Trailer {
  private readonly rows: SetAside[] = [];
  private count = 0;
  private repeats = 0;

  constructor(
    private readonly layout: Layout,
    private readonly endsWithNewline: boolean,
    private readonly file: string,
  ) {}

  repeatsHeader(record: CsvRecord): boolean {
    const { header } = this.layout;
    if (this.layout.table.header === null || record.cells[0]?.trim() !== header[0]) return false;
    const same = header.every((cell, index) => (record.cells[index] ?? '').trim() === cell);
    if (same) this.repeats++;
    return same;
  }

  /** Whether the row has the cells of the table, give or take empty ones at the end. */
  fits(record: CsvRecord): boolean {
    const { width, kinds } = this.layout.table;
    if (record.cells.length > width) return record.cells.slice(width).every((cell) => cell.trim() === '');
    return (
      record.cells.length === width || (record.cells.length === width - 1 && kinds[width - 1] === 'missing')
    );
  }

  setAside(record: CsvRecord, why: SetAside['why'], timeCell = ''): void {
    this.count++;
    if (this.rows.length < longest) this.rows.push({ record, why, timeCell });
  }

  /** Called before each good row: rows set aside before it were no trailer. */
  refuseBefore(): void {
    if (this.count > 0) throw this.error(this.rows[0]!);
  }

  finish(dataRows: number, warnings: string[]): void {
    if (this.repeats > 0) warnings.push(`The header line is repeated ${this.repeats} times among the data.`);
    const first = this.rows[0];
    if (!first) return;
    if (this.count > longest || this.count > Math.max(dataRows, 3)) throw this.error(first);
    const { line, cells } = first.record;
    const shown = cells.join(this.layout.delimiter).slice(0, 60);
    const cut =
      this.count === 1 &&
      !this.endsWithNewline &&
      first.why === 'ragged' &&
      cells.length < this.layout.table.width;
    if (cut) warnings.push(`Line ${line} ("${shown}") is cut off at the end of the file; it was left out.`);
    else
      warnings.push(
        `${this.count === 1 ? 'One line' : `${this.count} lines`} at the end from line ${line} ("${shown}") left out: not a data row.`,
      );
  }

  private error({ record, why, timeCell }: SetAside) {
    const place = { file: this.file, line: record.line };
    return why === 'time'
      ? problem('log-time-bad', { got: shownText(timeCell), expected: 'a time like those above it' }, place)
      : problem('log-ragged', { got: record.cells.length, expected: this.layout.table.width }, place);
  }
}
