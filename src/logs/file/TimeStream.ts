import { HeatledgerError } from '../../errors/index.js';
import { clockForm } from '../clockForm.js';
import { dateOrder } from '../dateOrder.js';
import { elapsedSeconds, passesMidnight } from '../elapsedSeconds.js';
import { LocalClock } from '../LocalClock.js';
import { numberForm } from '../numberForm.js';
import type { ResolvedTimes } from '../ResolvedTimes.js';
import { countEvidence, offsetSeconds } from '../resolveTimes.js';
import type { ClockForm } from '../scan/SlowRows.js';
import type { RowBuffer } from '../scan/RowBuffer.js';
import { DateKeys } from '../TimeRows.js';
import type { TimeSource } from '../TimeSource.js';
import type { ReadOptions, TimeForm } from '../types.js';
import { zoneOf } from '../zoneOf.js';
import { Irregular } from './Irregular.js';

/** The time of the row before some rows, to begin in the middle of a file. */
export interface TimeState {
  readonly first: number;
  readonly firstDay: number;
  readonly lastS: number;
}

/**
 * Turns the times of rows into seconds as they come, in the form that the first rows of the file have shown; at the
 * end the form is found again from all rows, and must be the same.
 */
export class TimeStream {
  private readonly dates = new DateKeys();
  private readonly shifts: number[] = [];
  private clock: LocalClock | null = null;
  private firstDay = Number.NaN;
  private first = Number.NaN;
  private least = Number.POSITIVE_INFINITY;
  private most = Number.NEGATIVE_INFINITY;
  private fraction = false;
  private rows = 0;
  private days = 0;
  private lastS = Number.NaN;
  private resumed = false;
  private room = new Float64Array(0);
  readonly warnings: string[] = [];

  constructor(
    private readonly form: TimeForm,
    private readonly source: TimeSource,
    private readonly options: ReadOptions,
    private readonly file: string,
  ) {
    if (form === 'serial-days' || form === 'elapsed-mmss') throw new Irregular();
  }

  /** Seconds of the rows, counted from the origin that `finish` states; the array is used again for the next rows. */
  seconds(buffer: RowBuffer): Float64Array {
    const { rows } = buffer;
    if (this.rows === 0 && rows > 0) this.first = buffer.times[0]!;
    const seconds =
      this.source.form === 'count'
        ? this.roomFor(rows).map((_, i) => (this.rows + i) * this.options.intervalS!)
        : this.source.form === 'number'
          ? this.numbers(buffer)
          : this.clocks(buffer);
    this.rows += rows;
    return seconds;
  }

  /** Where a later reading of the same file can begin. */
  state(lastS: number): TimeState {
    return { first: this.first, firstDay: this.firstDay, lastS };
  }

  /** Begins in the middle of a file; `rows` have gone before. */
  resume(state: TimeState, rows: number): void {
    this.first = state.first;
    this.firstDay = state.firstDay;
    this.lastS = state.lastS;
    this.resumed = true;
    this.rows = rows;
  }

  /** What all rows say about the form; another form than at the beginning is irregular. */
  finish(form: ClockForm | null, line: number): Omit<ResolvedTimes, 'seconds'> {
    const { source, options, file } = this;
    const found = this.found(form, line);
    if (found.form !== this.form) throw new Irregular();
    if (source.form !== 'clock' || Number.isNaN(this.firstDay)) {
      const origin =
        found.form === 'epoch-s' ? this.first * 1000 : found.form === 'epoch-ms' ? this.first : null;
      return { ...found, originUtcMs: origin, zone: origin === null ? null : 'UTC' };
    }
    const zone = zoneOf(this.dates.keys, source, options, this.warnings, file, line);
    return { ...found, originUtcMs: this.firstDay * 86_400_000, zone };
  }

  private roomFor(rows: number): Float64Array {
    if (this.room.length < rows) this.room = new Float64Array(rows);
    return this.room.subarray(0, rows);
  }

  private found(form: ClockForm | null, line: number): { form: TimeForm; evidence: string } {
    const { source, options, file, first, least, most, rows } = this;
    const place = { file, line };
    if (source.form === 'count') {
      const evidence = countEvidence(options.intervalS!);
      return { form: 'row-count', evidence };
    }
    if (source.form === 'number') return numberForm({ rows, first, least, most }, source, options, place);
    if (!Number.isNaN(this.firstDay))
      return dateOrder(this.dates.keys, source.header, options.timeForm, file);
    const seen = { parts: form!.parts, fraction: this.fraction };
    return {
      form: clockForm(seen, source, options, place),
      evidence: 'no date beside it: only differences are used',
    };
  }

  private numbers({ times, rows }: RowBuffer): Float64Array {
    const seconds = this.roomFor(rows);
    const { form, first } = this;
    for (let i = 0; i < rows; i++) {
      const value = times[i]!;
      if (value < this.least) this.least = value;
      if (value > this.most) this.most = value;
      seconds[i] = elapsedSeconds(value, first, form);
    }
    return seconds;
  }

  private clocks(buffer: RowBuffer): Float64Array {
    const { times, rows, keyChanges } = buffer;
    const seconds = this.roomFor(rows);
    for (const [at, { row, date, offset }] of keyChanges.entries()) {
      const to = keyChanges[at + 1]?.row ?? rows;
      if (date === null) this.dateless(times, seconds, row, to);
      else this.dated(buffer, seconds, row, to, date, offset);
    }
    return seconds;
  }

  private dated(
    buffer: RowBuffer,
    seconds: Float64Array,
    from: number,
    to: number,
    date: string,
    offset: string | null,
  ): void {
    const shift = this.shiftOf(date, offset, buffer.lineOf(from));
    if (offset !== null) {
      for (let i = from; i < to; i++) seconds[i] = buffer.times[i]! + shift;
      return;
    }
    this.clock ??= this.localClock(date, buffer.lineOf(from));
    const rows = { from, to, lineOf: (row: number) => buffer.lineOf(row) };
    this.clock.toUtc(buffer.times, shift, rows, seconds);
  }

  private localClock(date: string, line: number): LocalClock {
    const keys = [{ date, offset: null, line }];
    const zone = zoneOf(keys, this.source, this.options, [], this.file, line);
    // Half a second before: what is counted from another origin may be off in the last bit.
    const last = Number.isNaN(this.lastS) ? null : this.lastS - 0.5;
    return new LocalClock(zone, this.firstDay * 86400, this.file, this.warnings, last);
  }

  private shiftOf(date: string, offset: string | null, line: number): number {
    const number = this.dates.numberOf(date, offset, line);
    const known = this.shifts[number];
    if (known !== undefined) return known;
    const day = this.dayOf(date, line);
    if (Number.isNaN(this.firstDay)) this.firstDay = day;
    const shift = (day - this.firstDay) * 86400 - offsetSeconds(offset);
    this.shifts[number] = shift;
    return shift;
  }

  private dayOf(date: string, line: number): number {
    try {
      const order = dateOrder([{ date, offset: null, line }], this.source.header, this.form, this.file);
      return order.days[0]!;
    } catch (error) {
      // A named month takes no stated order.
      if (!(error instanceof HeatledgerError)) throw error;
      throw new Irregular();
    }
  }

  private dateless(times: Float64Array, seconds: Float64Array, from: number, to: number): void {
    if (this.resumed && from < to) this.days = 86400 * Math.round((this.lastS - times[from]!) / 86400);
    this.resumed = false;
    for (let i = from; i < to; i++) {
      const time = times[i]!;
      if (time % 60 !== 0) this.fraction = true;
      if (passesMidnight(this.lastS - this.days, time)) {
        this.days += 86400;
        this.warnings.push(
          'The clock passes midnight; the next day was taken, because the export has no date.',
        );
      }
      this.lastS = time + this.days;
      seconds[i] = this.lastS;
    }
  }
}
