import { clockCell } from '../clockCell.js';
import { cellText } from './cellText.js';

const longestCell = 64;

/** Reads date cells from bytes; one that is the same as in the row before costs a comparison only. */
export class DateScanner {
  date: string | null = null;
  /** Whether the date changed with the cell read last; set, never cleared. */
  changed = false;
  private readonly last = new Uint8Array(longestCell);
  private length = -1;

  /** Reads the cell that begins at `at`, and gives where it ends; -1 where it isn't a date. */
  read(bytes: Uint8Array, at: number, delimiter: number): number {
    let end = at;
    let same = true;
    const { last } = this;
    for (let byte = bytes[end]!; byte !== delimiter && byte !== 10 && byte !== 13; byte = bytes[++end]!) {
      if (end >= bytes.length || end - at >= longestCell) return -1;
      if (byte !== last[end - at]) same = false;
    }
    if (same && end - at === this.length) return end;
    const text = cellText(bytes, at, end);
    const date = text.includes('"') ? undefined : clockCell(text)?.date;
    if (!date) return -1;
    if (date !== this.date) this.changed = true;
    this.date = date;
    this.length = end - at;
    last.set(bytes.subarray(at, end));
    return end;
  }
}
