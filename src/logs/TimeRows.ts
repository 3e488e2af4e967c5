import { GrowingArray } from './GrowingArray.js';
import type { RowBuffer } from './scan/RowBuffer.js';

/** A date and an offset as they stand in the file, each kept once, with the line where it came first. */
export interface DateKey {
  readonly date: string | null;
  readonly offset: string | null;
  readonly line: number;
}

/** The dates and offsets of a log, each with the number by which rows refer to it. */
export class DateKeys {
  readonly keys: DateKey[] = [];
  private readonly known = new Map<string, number>();

  numberOf(date: string | null, offset: string | null, line: number): number {
    const text = `${date}|${offset}`;
    const known = this.known.get(text);
    if (known !== undefined) return known;
    this.known.set(text, this.keys.length);
    this.keys.push({ date, offset, line });
    return this.keys.length - 1;
  }
}

/**
 * The times of all rows before the order of day and month is known: numbers (elapsed or epoch), or seconds of
 * the day with a number that stands for the date.
 */
export class TimeRows {
  readonly numbers = new GrowingArray();
  readonly keyOf = new GrowingArray();
  /** 2 where the clock shows two numbers, 3 where it shows three. */
  parts = 0;
  private readonly dates = new DateKeys();

  get keys(): readonly DateKey[] {
    return this.dates.keys;
  }

  add(buffer: RowBuffer): void {
    this.numbers.append(buffer.times, buffer.rows);
    for (const [at, { row, date, offset }] of buffer.keyChanges.entries()) {
      const number = this.dates.numberOf(date, offset, buffer.lineOf(row));
      const to = buffer.keyChanges[at + 1]?.row ?? buffer.rows;
      for (let i = row; i < to; i++) this.keyOf.push(number);
    }
  }
}
