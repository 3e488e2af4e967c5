import { readSync } from 'node:fs';
import { isAscii, isUtf8 } from 'node:buffer';
import type { ColumnTotals } from '../scan/ColumnTotals.js';
import type { RowBuffer } from '../scan/RowBuffer.js';
import { type ReaderSetup, RowReader } from '../scan/RowReader.js';
import { Irregular } from './Irregular.js';

const windowBytes = 1 << 20;
const largestWindow = 1 << 26;
const lineFeed = 10;

/** A stretch of a file from a byte to another, and the line at which it begins. */
export interface Stretch {
  readonly from: number;
  readonly to: number;
  readonly line: number;
}

/** Reads the rows of a stretch of a file, window by window, and hands them on in order. */
export class FileScan {
  readonly reader: RowReader;
  /** The byte up to which everything is read. */
  position: number;
  private window = new Uint8Array(windowBytes);

  constructor(
    private readonly fd: number,
    private readonly stretch: Stretch,
    private readonly setup: ReaderSetup,
    buffer: RowBuffer,
    private readonly endsWithLineFeed: boolean,
    private readonly sink: (buffer: RowBuffer) => void,
  ) {
    this.position = stretch.from;
    this.reader = new RowReader(setup, buffer, stretch.line, endsWithLineFeed, sink);
  }

  get isDone(): boolean {
    return this.position >= this.stretch.to;
  }

  /** Reads on: all of the lines up to `limit` where it is stated, else a window full of them. */
  advance(limit = Math.min(this.position + windowBytes, this.stretch.to)): void {
    for (let size = limit - this.position; ; size = Math.min(2 * size, this.stretch.to - this.position)) {
      const bytes = this.bytesAt(this.position, size);
      const isLast = this.position + size >= this.stretch.to;
      const to = isLast ? size : bytes.lastIndexOf(lineFeed) + 1;
      if (to > 0) {
        const read = this.reader.read({ bytes, from: 0, to, offset: this.position, isLast });
        this.position += read;
        if (read > 0) return;
      }
      // A line, or a cell in quotes, that is longer than the window.
      if (isLast || size > largestWindow) throw new Irregular();
    }
  }

  /** Takes rows that another thread has read from the bytes up to `to`. */
  adopt(buffer: RowBuffer, to: number): void {
    this.reader.handOn();
    buffer.lineRuns = [{ row: 0, line: this.reader.line }];
    buffer.offset = this.position;
    this.reader.adopt(buffer.rows);
    this.sink(buffer);
    this.position = to;
  }

  finish(totals: ColumnTotals, warnings: string[]): void {
    this.reader.finish(totals, this.endsWithLineFeed, warnings);
  }

  private bytesAt(from: number, size: number): Uint8Array {
    if (this.window.length < size) this.window = new Uint8Array(size);
    let have = 0;
    while (have < size) {
      const count = readSync(this.fd, this.window, have, size - have, from + have);
      // The file became shorter while it was read.
      if (count === 0) throw new Irregular();
      have += count;
    }
    const bytes = this.window.subarray(0, size);
    // Bytes that are no UTF-8 make the whole file Latin-1, its header too.
    if (this.setup.encoding === 'utf-8' && !isAscii(bytes)) {
      const end = bytes.lastIndexOf(lineFeed) + 1;
      if (!isUtf8(bytes.subarray(0, end > 0 ? end : size))) throw new Irregular();
    }
    return bytes;
  }
}
