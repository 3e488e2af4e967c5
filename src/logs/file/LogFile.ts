import { closeSync, fstatSync, openSync } from 'node:fs';
import { problem } from '../../errors/index.js';
import type { Block } from '../outline/Block.js';
import type { Outline } from '../outline/Outline.js';
import type { Readings } from '../Readings.js';
import type { Rows } from '../Rows.js';
import { RowBuffer } from '../scan/RowBuffer.js';
import type { ReaderSetup } from '../scan/RowReader.js';
import type { ExportMapping, Log, ReadOptions } from '../types.js';
import { FileScan } from './FileScan.js';
import { RowStream } from './RowStream.js';
import { type TimeState, TimeStream } from './TimeStream.js';

/** What a reading of the whole file has found, and what is needed to read a piece of it again. */
export interface FileReading {
  readonly path: string;
  readonly size: number;
  /** Byte up to which there are rows: a last line that was left out must not come back when a block is read again. */
  readonly rowsEnd: number;
  readonly modifiedMs: number;
  readonly setup: ReaderSetup;
  readonly options: ReadOptions;
  readonly start: Omit<TimeState, 'lastS'>;
  /** Seconds of the first row, counted from the origin of the times. */
  readonly firstS: number;
  readonly mapping: ExportMapping;
  readonly startUtcMs: number | null;
  readonly warnings: readonly string[];
  readonly resolution: Log['resolution'];
  readonly outline: Outline;
}

const blocksKept = 3;

/**
 * A large export that stays on disk: summed up in blocks in one pass, and read again piece by piece where the rows
 * themselves are needed. It takes the same memory whatever its length.
 */
export class LogFile implements Readings {
  readonly mapping: ExportMapping;
  readonly rows: number;
  readonly durationS: number;
  readonly startUtcMs: number | null;
  readonly warnings: readonly string[];
  readonly resolution: Log['resolution'];
  readonly outline: Outline;
  readonly has: Readings['has'];
  private readonly endOf = new Map<number, number>();
  private readonly recent = new Map<Block, Rows>();

  constructor(private readonly reading: FileReading) {
    const { mapping, startUtcMs, warnings, resolution, outline, rowsEnd } = reading;
    this.mapping = mapping;
    this.startUtcMs = startUtcMs;
    this.warnings = warnings;
    this.resolution = resolution;
    this.outline = outline;
    this.rows = outline.rows;
    this.durationS = outline.endS;
    const [first] = outline.blocks;
    this.has = {
      power: first?.power !== null,
      energy: first?.counter !== null,
      temperature: first?.temperature !== null,
    };
    for (const [i, block] of outline.blocks.entries())
      this.endOf.set(block.firstRow, outline.blocks[i + 1]?.at?.offset ?? rowsEnd);
  }

  /** Reads the rows of a block again. A file that has changed since is an error. */
  rowsOf(block: Block): Rows {
    const known = this.recent.get(block);
    if (known) return known;
    const rows = this.read(block);
    // The blocks of both edges are asked for again and again.
    const [oldest] = this.recent.keys();
    if (oldest && this.recent.size === blocksKept) this.recent.delete(oldest);
    this.recent.set(block, rows);
    return rows;
  }

  private read(block: Block): Rows {
    const { path, size, modifiedMs, setup, options, start, firstS, mapping } = this.reading;
    const { assignment, file } = setup;
    const times = new TimeStream(mapping.timeForm, assignment.time, options, file);
    times.resume({ ...start, lastS: block.startS + firstS }, block.firstRow);
    const stream = new RowStream(times, assignment.values);
    stream.first = firstS;
    const gathered = gatherRows(block.rows);
    const fd = openSync(path, 'r');
    try {
      const now = fstatSync(fd);
      if (now.size !== size || now.mtimeMs !== modifiedMs) throw changed(file);
      const { offset, line } = block.at!;
      const stretch = { from: offset, to: this.endOf.get(block.firstRow)!, line };
      const buffer = new RowBuffer(assignment.values.length, Math.min(block.rows + 1, 1 << 14));
      const scan = new FileScan(fd, stretch, setup, buffer, true, () =>
        gathered.add(stream.take(buffer), block),
      );
      while (!scan.isDone) scan.advance();
      scan.reader.handOn();
    } finally {
      closeSync(fd);
    }
    if (gathered.count() !== block.rows) throw changed(file);
    return gathered.rows();
  }
}

function changed(file: string) {
  return problem('log-file-changed', {}, { file });
}

/** Puts rows that come in pieces into arrays of their own, those before a block and after it left out. */
function gatherRows(most: number) {
  const parts: Rows[] = [];
  let count = 0;
  const keys = ['powerW', 'energyJ', 'voltageV', 'currentA', 'powerFactor', 'temperatureK'] as const;
  const cut = (rows: Rows, from: number, to: number): Rows => {
    const of = (values: Float64Array | null) => values?.slice(from, to) ?? null;
    const columns = Object.fromEntries(keys.map((key) => [key, of(rows[key])]));
    return { timesS: rows.timesS.slice(from, to), ...columns } as unknown as Rows;
  };
  return {
    add(rows: Rows, { startS }: Block): void {
      const from = rows.timesS.findIndex((time) => time >= startS);
      if (from < 0) return;
      const to = Math.min(rows.timesS.length, from + most - count);
      parts.push(cut(rows, from, to));
      count += to - from;
    },
    count: () => count,
    rows(): Rows {
      if (parts.length === 1) return parts[0]!;
      const joined = (of: (rows: Rows) => Float64Array | null): Float64Array | null => {
        if (parts.length === 0 || of(parts[0]!) === null) return null;
        const all = new Float64Array(count);
        let at = 0;
        for (const part of parts) {
          all.set(of(part)!, at);
          at += part.timesS.length;
        }
        return all;
      };
      const columns = Object.fromEntries(keys.map((key) => [key, joined((rows) => rows[key])]));
      return { timesS: joined((rows) => rows.timesS) ?? new Float64Array(0), ...columns } as unknown as Rows;
    },
  };
}
