import { ClockScanner } from './ClockScanner.js';
import { DateScanner } from './DateScanner.js';
import { columnKinds, type FastSpec } from './FastSpec.js';
import { largestSi, largestTime } from './limits.js';
import type { RowBuffer } from './RowBuffer.js';

const powers = Float64Array.from({ length: 16 }, (_, i) => 10 ** i);
// So many digits fit a number exactly.
const mostDigits = 15;

/**
 * The fast road: reads rows of plain numbers and times straight from bytes. It stops before any row that has
 * something unusual in it: a quote, another number of cells, a word, a sign it doesn't know. Such a row goes the way of
 * the full grammar. Whatever is read here comes out the same as there, to the last bit.
 */
export class FastRows {
  private readonly clock: ClockScanner | null;
  private readonly dates: DateScanner | null;
  private readonly kinds: Uint8Array;
  private readonly slots: Int8Array;
  private readonly numbers: Float64Array;
  private readonly decimals: Int8Array;
  private readonly timed: boolean;

  constructor(
    private readonly spec: FastSpec,
    private readonly buffer: RowBuffer,
  ) {
    this.clock = spec.clock ? new ClockScanner(spec.clock) : null;
    this.dates = spec.kinds.includes(columnKinds.date) ? new DateScanner() : null;
    this.kinds = Uint8Array.from(spec.kinds);
    this.slots = Int8Array.from(spec.slots);
    this.numbers = new Float64Array(spec.factors.length);
    this.decimals = new Int8Array(spec.factors.length);
    this.timed = spec.clock !== null || spec.kinds.includes(columnKinds.timeNumber);
  }

  /** Makes the next row state its date again, because other rows came between. */
  restate(): void {
    if (this.clock) this.clock.changed = true;
  }

  /**
   * Reads rows from `from` on, each ended by a line feed before `to`. Gives where it stopped: `to`, or the
   * beginning of a row that is unusual or for which there is no room.
   */
  read(bytes: Uint8Array, from: number, to: number): number {
    let at = from;
    while (at < to && !this.buffer.isFull) {
      const next = this.readRow(bytes, at);
      if (next < 0) return at;
      at = next;
    }
    return at;
  }

  private readRow(bytes: Uint8Array, from: number): number {
    const { kinds, slots, numbers, decimals } = this;
    const { columns, rows: row } = this.buffer;
    const { delimiter, decimal, factors, offsets, least } = this.spec;
    const width = kinds.length;
    let p = from;
    let time = 0;
    for (let column = 0; column < width; column++) {
      const kind = kinds[column]!;
      if (kind === 1 || kind === 2) {
        let byte = bytes[p]!;
        const slot = slots[column]!;
        const negative = byte === 45;
        if (negative) byte = bytes[++p]!;
        const start = p;
        let whole = 0;
        let digit = byte - 48;
        while (digit >>> 0 <= 9) {
          whole = whole * 10 + digit;
          byte = bytes[++p]!;
          digit = byte - 48;
        }
        let digits = p - start;
        let places = 0;
        if (byte === decimal && digits > 0) {
          const mark = ++p;
          byte = bytes[p]!;
          digit = byte - 48;
          while (digit >>> 0 <= 9) {
            whole = whole * 10 + digit;
            byte = bytes[++p]!;
            digit = byte - 48;
          }
          places = p - mark;
          digits += places;
          // "12." goes the long way.
          if (places === 0) return -1;
        }
        if (digits === 0) {
          // An empty cell of a value column is a missing value; of the time column it is not.
          if (negative || kind === 2) return -1;
          columns[slot]!.values[row] = Number.NaN;
          decimals[slot] = -1;
        } else {
          if (digits > mostDigits) return -1;
          // -0 must stay -0.
          const value = places === 0 ? whole : whole / powers[places]!;
          if (kind === 2) time = negative ? -value : value;
          else {
            const si = (negative ? -value : value) * factors[slot]! + offsets[slot]!;
            if (!(si <= largestSi && si >= least[slot]!)) return -1;
            columns[slot]!.values[row] = si;
            numbers[slot] = negative ? -whole : whole;
            decimals[slot] = places;
          }
        }
      } else if (kind === 3) {
        p = this.clock!.read(bytes, p, delimiter);
        if (p < 0) return -1;
      } else if (kind === 4) {
        p = this.dates!.read(bytes, p, delimiter);
        if (p < 0) return -1;
      } else {
        let byte = bytes[p]!;
        while (byte !== delimiter && byte !== 10 && byte !== 13) {
          if (byte === 34 || byte < 32) return -1;
          byte = bytes[++p]!;
        }
      }
      const end = bytes[p]!;
      if (column < width - 1) {
        if (end !== delimiter) return -1;
        p++;
      } else if (end === 13) {
        if (bytes[p + 1] !== 10) return -1;
        p += 2;
      } else if (end === 10) p++;
      else return -1;
    }
    if (this.timed ? !(Math.abs(time) <= largestTime) : !this.hasValue()) return -1;
    if (this.dates && this.clock!.seconds > 86400) return -1;
    this.keep(time);
    return p;
  }

  /** Takes the row that was read: nothing of it is unusual. */
  private keep(time: number): void {
    const { numbers, decimals, clock, dates, buffer } = this;
    const { factors } = this.spec;
    for (let slot = 0; slot < numbers.length; slot++) {
      const places = decimals[slot]!;
      if (places < 0) buffer.columns[slot]!.missing++;
      else buffer.noteNumber(slot, numbers[slot]!, places, Math.abs(factors[slot]!));
    }
    const row = buffer.rows++;
    buffer.times[row] = clock === null ? time : clock.seconds;
    if (clock === null || (!clock.changed && !dates?.changed)) return;
    clock.changed = false;
    if (dates) dates.changed = false;
    buffer.keyChanges.push({ row, date: dates ? dates.date : clock.date, offset: clock.offset });
  }

  private hasValue(): boolean {
    return this.decimals.some((places) => places >= 0);
  }
}
