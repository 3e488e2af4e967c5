import { clockCell } from './clockCell.js';
import { GrowingArray } from './GrowingArray.js';
import { numberCell } from './numberCell.js';
import type { TimeSource } from './pickTime.js';

/** A date and an offset as they stand in the file, each kept once, with the line where it came first. */
export interface DateKey {
  readonly date: string | null;
  readonly offset: string | null;
  readonly line: number;
}

// More than 300 years, or a clock that counts more hours than that, is a spoilt cell.
const longestS = 1e10;

/**
 * The times of all rows before the order of day and month is known: numbers (elapsed or epoch), or seconds of
 * the day with a number that stands for the date.
 */
export class TimeRows {
  readonly numbers = new GrowingArray();
  readonly keyOf = new GrowingArray();
  readonly keys: DateKey[] = [];
  /** 2 where the clock shows two numbers, 3 where it shows three. */
  parts = 0;
  private readonly known = new Map<string, number>();

  constructor(
    private readonly source: TimeSource,
    private readonly decimal: '.' | ',',
  ) {}

  /** Takes the time of one row; `false` where its cell is no time of this column's form. */
  take(cells: readonly string[], line: number): boolean {
    const cell = cells[this.source.index] ?? '';
    return this.source.form === 'number' ? this.takeNumber(cell) : this.takeClock(cell, cells, line);
  }

  dropLast(): void {
    this.numbers.dropLast();
    this.keyOf.dropLast();
  }

  private takeNumber(cell: string): boolean {
    const number = numberCell(cell, this.decimal);
    if (!number || (number.unit && number.unit.role !== 'time')) return false;
    const value =
      number.unit && this.source.unit
        ? (number.value * number.unit.factor) / this.source.unit.factor
        : number.value;
    // Epoch milliseconds are the largest numbers that make sense.
    if (Math.abs(value) > 1e3 * longestS) return false;
    this.numbers.push(value);
    return true;
  }

  private takeClock(cell: string, cells: readonly string[], line: number): boolean {
    const clock = clockCell(cell);
    if (!clock || clock.seconds === null || clock.seconds > longestS) return false;
    if (this.parts === 0) this.parts = clock.parts;
    if (clock.parts !== this.parts) return false;
    let date = clock.date;
    if (this.source.dateIndex !== null) {
      const beside = clockCell(cells[this.source.dateIndex] ?? '');
      if (!beside?.date || date !== null || clock.seconds > 86400) return false;
      date = beside.date;
    }
    const first = this.keys[0];
    if (
      first &&
      ((first.date === null) !== (date === null) || (first.offset === null) !== (clock.offset === null))
    )
      return false;
    this.numbers.push(clock.seconds);
    this.keyOf.push(this.keyNumber(date, clock.offset, line));
    return true;
  }

  private keyNumber(date: string | null, offset: string | null, line: number): number {
    const text = `${date}|${offset}`;
    const known = this.known.get(text);
    if (known !== undefined) return known;
    this.known.set(text, this.keys.length);
    this.keys.push({ date, offset, line });
    return this.keys.length - 1;
  }
}
