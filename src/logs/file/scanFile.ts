import { fstatSync, readSync } from 'node:fs';
import type { Worker } from 'node:worker_threads';
import { type Assignment, assignColumns } from '../assignColumns.js';
import { derivedStepW, derivedWarning, needsDerivedPower } from '../derivedPower.js';
import { encodingOf } from '../encodingOf.js';
import { exportUnit } from '../exportUnits.js';
import { missingWarnings } from '../missingWarnings.js';
import { repeatsWarning } from '../orderRows.js';
import { OutlineBuilder } from '../outline/OutlineBuilder.js';
import { ColumnTotals } from '../scan/ColumnTotals.js';
import { endsWithLineFeed, headText, offsetOfLine } from '../scan/exportBytes.js';
import { RowBuffer } from '../scan/RowBuffer.js';
import type { ReaderSetup } from '../scan/RowReader.js';
import { sniffLayout } from '../sniffLayout.js';
import type { Log, QuantityRole } from '../types.js';
import { FileScan } from './FileScan.js';
import { headForm } from './headForm.js';
import { Irregular } from './Irregular.js';
import { LogFile } from './LogFile.js';
import type { OpenOptions } from './OpenOptions.js';
import { parallelScan, startThreads } from './parallelScan.js';
import { RowStream } from './RowStream.js';
import { TimeStream } from './TimeStream.js';

const headBytes = 1 << 18;
const bufferRows = 4096;
const carriageReturn = 13;
const lineFeed = 10;

/** Reads a large export once and sums it up in blocks; throws `Irregular` where it must be read into memory. */
export async function scanFile(fd: number, path: string, options: OpenOptions): Promise<LogFile> {
  const threads = startThreads(fstatSync(fd).size, options.helpers);
  try {
    return await scanWith(threads, fd, path, options);
  } finally {
    for (const thread of threads) void thread.terminate();
  }
}

async function scanWith(
  threads: readonly Worker[],
  fd: number,
  path: string,
  options: OpenOptions,
): Promise<LogFile> {
  const { size, mtimeMs: modifiedMs } = fstatSync(fd);
  const first = bytesAt(fd, 0, Math.min(headBytes, size));
  // Where that is the whole file, a last line without an end belongs to it too: it may be the only one.
  const head = first.length === size ? first : first.subarray(0, first.lastIndexOf(lineFeed) + 1);
  const setup = setupOf(head, options, options.fileName ?? path);
  const { layout, assignment, file } = setup;
  const line = layout.table.firstDataLine;
  const from = offsetOfLine(head, line);
  const times = new TimeStream(headForm(setup, head, options), assignment.time, options, file);
  const stream = new RowStream(times, assignment.values);
  const totals = new ColumnTotals(assignment.values.length);
  const builder = new OutlineBuilder(counterUnitJ(assignment));
  const buffer = new RowBuffer(assignment.values.length, bufferRows);
  let firstLine = 0;
  const sink = (rows: RowBuffer) => {
    if (firstLine === 0) firstLine = rows.lineOf(0);
    totals.add(rows);
    builder.add(stream.take(rows), { offset: rows.offset, line: rows.lineOf(0) });
    options.onProgress?.({ rows: totals.rows, bytes: scan.position, totalBytes: size });
  };
  const ended = endsWithLineFeed(bytesAt(fd, size - 2, 2));
  const scan = new FileScan(fd, { from, to: size, line }, setup, buffer, ended, sink);
  // The first window settles what the fast road needs to know.
  scan.advance();
  const rowBytes = (scan.position - from) / Math.max(1, scan.reader.taken);
  await parallelScan(scan, threads, { path, size, rowBytes });
  while (!scan.isDone) scan.advance();
  const bodyWarnings: string[] = [];
  scan.finish(totals, bodyWarnings);
  // The other way of reading finds the words for a file without rows.
  if (totals.rows === 0) throw new Irregular();
  const found = times.finish(scan.reader.slow.form, firstLine);
  return new LogFile({
    path,
    size,
    rowsEnd: scan.reader.droppedLast ? lastLineFrom(fd, size) : size,
    modifiedMs,
    setup,
    options,
    start: times.state(0),
    firstS: stream.first,
    startUtcMs: found.originUtcMs === null ? null : found.originUtcMs + stream.first * 1000,
    mapping: {
      delimiter: layout.delimiter,
      decimal: layout.decimal,
      decimalEvidence: layout.decimalEvidence,
      encoding: setup.encoding,
      headerLine: layout.table.headerLine,
      firstDataLine: line,
      timeForm: found.form,
      timeEvidence: found.evidence,
      zone: found.zone,
      columns: assignment.columns,
    },
    warnings: [
      ...assignment.warnings,
      ...bodyWarnings,
      ...missingWarnings(assignment.values, totals.missing, totals.rows),
      ...times.warnings,
      ...repeatsWarning(stream.repeats, totals.rows),
      ...(derives(assignment) ? [derivedWarning(rolesOf(assignment))] : []),
    ],
    resolution: resolutionOf(assignment, totals, stream),
    outline: builder.finish(),
  });
}

/** How the file is written, found out from its first part. */
function setupOf(head: Uint8Array, options: OpenOptions, file: string): ReaderSetup {
  const encoding = encodingOf(head);
  // Two bytes a sign, or lines that end in a carriage return alone.
  const wide = encoding === 'utf-16le' || encoding === 'utf-16be' || !head.includes(lineFeed);
  const at = head.indexOf(carriageReturn);
  if (wide || (at >= 0 && head[at + 1] !== lineFeed)) throw new Irregular();
  const layout = sniffLayout(headText(head, encoding, file).text, options, file);
  return { layout, assignment: assignColumns(layout, options, file), encoding, file };
}

function bytesAt(fd: number, from: number, size: number): Uint8Array {
  const bytes = new Uint8Array(size);
  readSync(fd, bytes, 0, size, from);
  return bytes;
}

/** Where the last line begins, which has no end. */
function lastLineFrom(fd: number, size: number): number {
  const from = Math.max(0, size - headBytes);
  const at = bytesAt(fd, from, size - from).lastIndexOf(lineFeed);
  if (at < 0) throw new Irregular();
  return from + at + 1;
}

function rolesOf({ values }: Assignment): Set<QuantityRole> {
  return new Set(values.map(({ role }) => role));
}

function derives(assignment: Assignment): boolean {
  return needsDerivedPower(rolesOf(assignment));
}

function counterUnitJ({ values }: Assignment): number {
  const counter = values.find(({ role }) => role === 'energy');
  return exportUnit(counter?.unit?.symbol ?? 'J')?.factor ?? 1;
}

function resolutionOf(assignment: Assignment, totals: ColumnTotals, stream: RowStream): Log['resolution'] {
  const steps = new Map<QuantityRole, number | null>(
    assignment.values.map(({ role }, slot) => [role, totals.steps[slot]!.stepSi()]),
  );
  return {
    powerW: derives(assignment) ? derivedStepW(stream.largest, steps) : (steps.get('power') ?? null),
    energyJ: steps.get('energy') ?? null,
    temperatureK: steps.get('temperature') ?? null,
  };
}
