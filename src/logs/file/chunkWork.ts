import { closeSync, openSync, readSync } from 'node:fs';
import { isAscii } from 'node:buffer';
import type { StepsSeen } from '../StepTracker.js';
import { FastRows } from '../scan/FastRows.js';
import type { FastSpec, KeyChange } from '../scan/FastSpec.js';
import { RowBuffer } from '../scan/RowBuffer.js';

const lineFeed = 10;
/** A chunk ends with the line that its last byte is in; a line longer than this is left to the other road. */
const longestLine = 1 << 16;

/** What a thread beside the calling one is told once. */
export interface ChunkJob {
  readonly path: string;
  readonly spec: FastSpec;
  readonly chunkBytes: number;
  readonly capacity: number;
  /** Room for times and values, shared with the calling thread, one for each slot. */
  readonly slots: readonly SharedArrayBuffer[];
}

/** Which chunk to read into which slot. */
export interface ChunkOrder {
  readonly chunk: number;
  readonly slot: number;
  /** Bytes of the file from which and to which its lines begin. */
  readonly from: number;
  readonly to: number;
}

/** What is said of a chunk besides its times and values. `start` to `stop` are the bytes of the rows that were read. */
export interface ChunkResult {
  readonly chunk: number;
  readonly slot: number;
  readonly rows: number;
  readonly start: number;
  readonly stop: number;
  readonly end: number;
  readonly keyChanges: readonly KeyChange[];
  readonly columns: readonly {
    readonly steps: StepsSeen;
    readonly missing: number;
    readonly decimals: number;
    readonly fewest: number;
    readonly runFrom: number;
  }[];
}

/** The times and values of a slot. */
export function slotArrays(slot: SharedArrayBuffer, capacity: number, columns: number): Float64Array[] {
  return Array.from({ length: columns + 1 }, (_, i) => new Float64Array(slot, 8 * capacity * i, capacity));
}

/** Reads chunks of a file by the fast road alone: it stops at the first row that is unusual. */
export class ChunkReader {
  private readonly fd: number;
  private readonly bytes: Uint8Array;
  private readonly buffers: RowBuffer[];
  private readonly roads: FastRows[];

  constructor(job: ChunkJob) {
    this.fd = openSync(job.path, 'r');
    this.bytes = new Uint8Array(job.chunkBytes + longestLine + 1);
    const columns = job.spec.factors.length;
    this.buffers = job.slots.map(
      (slot) => new RowBuffer(columns, job.capacity, slotArrays(slot, job.capacity, columns)),
    );
    this.roads = this.buffers.map((buffer) => new FastRows(job.spec, buffer));
  }

  read({ chunk, slot, from, to }: ChunkOrder): ChunkResult {
    const buffer = this.buffers[slot]!;
    buffer.clear();
    buffer.keyChanges = [];
    // From the byte before: a line that begins exactly at `from` belongs to this chunk.
    const base = from - 1;
    const have = this.fill(base, to - base + longestLine);
    const start = this.bytes.indexOf(lineFeed, 0) + 1;
    const last = this.bytes.indexOf(lineFeed, to - base - 1) + 1;
    const end = last > 0 && last <= have ? last : this.bytes.lastIndexOf(lineFeed, have - 1) + 1;
    let stop = start;
    // Bytes beyond ASCII are for the calling thread to judge.
    if (start > 0 && start < end && isAscii(this.bytes.subarray(start, end))) {
      const road = this.roads[slot]!;
      road.restate();
      stop = road.read(this.bytes, start, end);
    }
    return {
      chunk,
      slot,
      rows: buffer.rows,
      start: base + start,
      stop: base + stop,
      end: base + Math.max(end, start),
      keyChanges: buffer.keyChanges,
      columns: buffer.columns.map(({ steps, missing, decimals, fewest, runFrom }) => ({
        steps: steps.seen(),
        missing,
        decimals,
        fewest,
        runFrom,
      })),
    };
  }

  close(): void {
    closeSync(this.fd);
  }

  private fill(from: number, size: number): number {
    let have = 0;
    while (have < size) {
      const count = readSync(this.fd, this.bytes, have, size - have, from + have);
      if (count === 0) break;
      have += count;
    }
    return have;
  }
}
