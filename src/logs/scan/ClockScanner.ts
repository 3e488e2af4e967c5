import { clockCell } from '../clockCell.js';
import { cellText } from './cellText.js';
import type { FastSpec } from './FastSpec.js';

const powers = Float64Array.from({ length: 10 }, (_, i) => 10 ** i);
const longestCell = 64;

/**
 * Reads clock cells from bytes. What stands before and after the time of day (date, zone) is compared with the row
 * before; only where it changes is the cell read in full.
 */
export class ClockScanner {
  /** Seconds of the day of the cell read last. */
  seconds = 0;
  /** Whether date or offset changed with the cell read last. */
  changed = false;
  date: string | null = null;
  offset: string | null = null;
  private readonly before = new Uint8Array(longestCell);
  private beforeLength = -1;
  private readonly after = new Uint8Array(longestCell);
  private afterLength = 0;
  private plain = false;

  constructor(private readonly wanted: NonNullable<FastSpec['clock']>) {}

  /**
   * Reads the cell that begins at `at`, and gives where it ends; -1 where it isn't a time like those before it.
   * `changed` is set, never cleared.
   */
  read(bytes: Uint8Array, at: number, delimiter: number): number {
    const end = this.plain ? this.readLike(bytes, at, delimiter) : -1;
    return end >= 0 ? end : this.readFull(bytes, at, delimiter);
  }

  private readLike(bytes: Uint8Array, at: number, delimiter: number): number {
    const { before, beforeLength, after, afterLength } = this;
    for (let i = beforeLength - 1; i >= 0; i--) if (bytes[at + i] !== before[i]) return -1;
    let p = at + beforeLength;
    const threeParts = this.wanted.parts === 3;
    let hours = bytes[p]! - 48;
    const second = bytes[p + 1]! - 48;
    if (hours >>> 0 > 9) return -1;
    if (second >>> 0 <= 9) {
      hours = hours * 10 + second;
      p += 2;
    } else p++;
    if (bytes[p] !== 58) return -1;
    const m1 = bytes[p + 1]! - 48;
    const m0 = bytes[p + 2]! - 48;
    if (m1 >>> 0 > 5 || m0 >>> 0 > 9) return -1;
    let seconds = hours * 3600 + (m1 * 10 + m0) * 60;
    p += 3;
    if (threeParts) {
      const s1 = bytes[p + 1]! - 48;
      const s0 = bytes[p + 2]! - 48;
      if (bytes[p] !== 58 || s1 >>> 0 > 5 || s0 >>> 0 > 9) return -1;
      seconds += s1 * 10 + s0;
      p += 3;
      const sign = bytes[p];
      if ((sign === 46 || sign === 44) && sign !== delimiter) {
        const from = ++p;
        let part = 0;
        for (let digit = bytes[p]! - 48; digit >>> 0 <= 9; digit = bytes[++p]! - 48) part = part * 10 + digit;
        const scale = powers[p - from];
        if (p === from || scale === undefined) return -1;
        seconds = (seconds * scale + part) / scale;
      }
    }
    for (let i = 0; i < afterLength; i++) if (bytes[p + i] !== after[i]) return -1;
    p += afterLength;
    const next = bytes[p]!;
    if (next !== delimiter && next !== 10 && next !== 13) return -1;
    // Hour 24 is for the full reading: only midnight may be written so.
    if (hours > 23) return -1;
    this.seconds = seconds;
    return p;
  }

  private readFull(bytes: Uint8Array, at: number, delimiter: number): number {
    let end = at;
    while (end < bytes.length && bytes[end] !== delimiter && bytes[end] !== 10 && bytes[end] !== 13) end++;
    if (end === at || end - at >= longestCell) return -1;
    const text = cellText(bytes, at, end);
    const clock = text.includes('"') ? undefined : clockCell(text);
    const { parts, dated, zoned } = this.wanted;
    if (!clock || clock.seconds === null || clock.parts !== parts) return -1;
    if ((clock.date !== null) !== dated || (clock.offset !== null) !== zoned) return -1;
    if (clock.date !== this.date || clock.offset !== this.offset) this.changed = true;
    this.date = clock.date;
    this.offset = clock.offset;
    this.seconds = clock.seconds;
    this.learn(bytes, at, text);
    return end;
  }

  // A clock of twelve hours, or one without colons, is read in full in each row.
  private learn(bytes: Uint8Array, at: number, text: string): void {
    const match = /^(.*?)(\d{1,2}:\d{2}(?::\d{2}(?:[.,]\d{1,9})?)?)(.*)$/.exec(text);
    this.plain = match !== null && !/\d$/.test(match[1]!) && !/m/i.test(match[3]!);
    if (!match || !this.plain) return;
    this.beforeLength = match[1]!.length;
    this.afterLength = match[3]!.length;
    const afterAt = at + match[1]!.length + match[2]!.length;
    for (let i = 0; i < this.beforeLength; i++) this.before[i] = bytes[at + i]!;
    for (let i = 0; i < this.afterLength; i++) this.after[i] = bytes[afterAt + i]!;
  }
}
