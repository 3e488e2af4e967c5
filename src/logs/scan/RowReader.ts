import { problem } from '../../errors/index.js';
import type { Assignment } from '../assignColumns.js';
import { csvRecords } from '../csvRecords.js';
import { joinPairs } from '../joinPairs.js';
import type { Layout } from '../sniffLayout.js';
import { Trailer } from '../Trailer.js';
import type { CsvRecord, ExportMapping } from '../types.js';
import { FastRows } from './FastRows.js';
import type { FastSpec } from './FastSpec.js';
import { fastSpecOf } from './fastSpecOf.js';
import type { Piece } from './Piece.js';
import { recordText } from './recordText.js';
import type { ColumnTotals } from './ColumnTotals.js';
import type { RowBuffer } from './RowBuffer.js';
import { SlowRows } from './SlowRows.js';

const grammarLines = 256;
const longestRecord = 1 << 20;
const lineFeed = 10;

/** What a reader is told about an export. */
export interface ReaderSetup {
  readonly layout: Layout;
  readonly assignment: Assignment;
  readonly encoding: ExportMapping['encoding'];
  readonly file: string;
  /** Every row goes the way of the full grammar; to hold the fast road against it. */
  readonly grammarOnly?: boolean;
}

/**
 * Reads the data rows of an export piece by piece into a buffer, which it hands on when there is no room left. Rows of
 * plain numbers go the fast road, any other through the full grammar; both give the same.
 */
export class RowReader {
  readonly slow: SlowRows;
  readonly trailer: Trailer;
  /** Whether the last row was left out, because its last number is cut off. */
  droppedLast = false;
  private fast: FastRows | null = null;
  private spec: FastSpec | null = null;
  private rows = 0;
  private passed: { readonly line: number; readonly what: string } | null = null;

  constructor(
    private readonly setup: ReaderSetup,
    readonly buffer: RowBuffer,
    public line: number,
    endsWithLineFeed: boolean,
    private readonly flush: (buffer: RowBuffer) => void,
  ) {
    const { layout, assignment, file } = setup;
    this.slow = new SlowRows(assignment, layout.decimal, file, buffer);
    this.trailer = new Trailer(layout, endsWithLineFeed, file);
  }

  /** What the fast road needs to know, once a first row has settled it; `null` where no row can go there. */
  get fastSpec(): FastSpec | null {
    return this.spec;
  }

  /** Rows handed on or in the buffer. */
  get taken(): number {
    return this.rows;
  }

  /** Reads a piece, and gives how far it came: a quote that is still open at its end waits for the next piece. */
  read(piece: Piece): number {
    const { bytes, from, to, offset } = piece;
    const { buffer } = this;
    // A last line without a line feed isn't for the fast road, which reads until it meets one.
    const ended = bytes.lastIndexOf(lineFeed, to - 1) + 1;
    let at = from;
    while (at < to) {
      if (buffer.isFull) this.handOn();
      if (buffer.rows === 0) buffer.offset = offset + at - from;
      if (this.fast && at < ended) {
        const before = buffer.rows;
        buffer.beginLine(this.line);
        at = this.fast.read(bytes, at, ended);
        if (buffer.rows > before) {
          this.refuseBefore();
          this.line += buffer.rows - before;
          this.rows += buffer.rows - before;
        }
        if (at >= ended || buffer.isFull) continue;
        if (buffer.rows === 0) buffer.offset = offset + at - from;
      }
      const next = this.readSlow(piece, at);
      if (next < 0) return at;
      at = next;
    }
    return at;
  }

  /** Takes rows that another thread has read by the fast road from the lines that come next. */
  adopt(rows: number): void {
    if (rows === 0) return;
    this.refuseBefore();
    this.line += rows;
    this.rows += rows;
    this.fast?.restate();
  }

  /** Ends the reading: what doesn't fit at the end is reported, and a last number that is cut off is left out. */
  finish(totals: ColumnTotals, endsWithLineFeed: boolean, warnings: string[]): void {
    const { buffer, trailer, setup } = this;
    trailer.finish(this.rows, warnings);
    const { layout, assignment } = setup;
    const last = assignment.values.findIndex(({ index }) => index === layout.table.width - 1);
    if (!endsWithLineFeed && last >= 0 && buffer.rows > 0 && totals.lastIsCut(buffer, last)) {
      warnings.push(
        `The last number of line ${buffer.lineOf(buffer.rows - 1)} is cut off at the end of the file; the line was left out.`,
      );
      buffer.dropLast();
      this.droppedLast = true;
    }
    this.handOn();
  }

  handOn(): void {
    if (this.buffer.rows > 0) this.flush(this.buffer);
    this.buffer.clear();
  }

  /** Reads one line, or some lines where there is a quote in it; -1 where a quote is still open at the end. */
  private readSlow(piece: Piece, at: number): number {
    const { layout, file } = this.setup;
    const end = lineEnd(piece, at);
    const text = recordText(piece, at, end, this.setup.encoding, { file, line: this.line });
    if (text.includes('"') || this.setup.grammarOnly) return this.readGrammar(piece, at);
    // Without a quote the grammar is no more than this.
    for (const line of text.split('\n'))
      this.take({ cells: line.split(layout.delimiter), line: this.line++ });
    return end;
  }

  private readGrammar(piece: Piece, at: number): number {
    const { layout, file, encoding } = this.setup;
    let end = at;
    for (let lines = grammarLines; ; lines *= 2) {
      for (let i = 0; i < lines && end < piece.to; i++) end = lineEnd(piece, end);
      const text = recordText(piece, at, end, encoding, { file, line: this.line });
      const whole = piece.isLast && end === piece.to;
      const open = csvRecords(text, { delimiter: layout.delimiter, file, line: this.line, whole }, (record) =>
        this.take(record),
      );
      if (open === null) {
        this.line += countLines(text);
        return end;
      }
      if (open > this.line) {
        const openAt = afterLines(piece, at, open - this.line);
        this.line = open;
        return openAt;
      }
      if (end - at > longestRecord) throw problem('log-quote-open', {}, { file, line: this.line });
      if (end >= piece.to) return -1;
    }
  }

  /** A line without a row does no harm where rows have times; where they are counted, one may be missing there. */
  private passOver(line: number, what: string): void {
    if (this.setup.assignment.time.form === 'count' && this.rows > 0) this.passed ??= { line, what };
  }

  /** Called for each row, or some of them: what was set aside before it was no trailer. */
  private refuseBefore(): void {
    this.trailer.refuseBefore();
    if (!this.passed) return;
    const { line, what } = this.passed;
    throw problem('log-count-broken', { what }, { file: this.setup.file, line });
  }

  private take(raw: CsvRecord): void {
    const { layout } = this.setup;
    const record = layout.pairs ? joinPairs(raw, 2 * layout.table.width) : raw;
    if (raw.cells.every((cell) => cell.trim() === '')) this.passOver(raw.line, 'is blank');
    else if (this.trailer.repeatsHeader(record)) this.passOver(raw.line, 'repeats the header');
    else if (this.trailer.fits(record)) this.takeRow(record);
    else this.trailer.setAside(record, 'ragged');
  }

  private takeRow(record: CsvRecord): void {
    const { layout, assignment, grammarOnly } = this.setup;
    if (this.buffer.isFull) this.handOn();
    if (!this.slow.take(record)) {
      this.trailer.setAside(record, 'time', record.cells[assignment.time.index] ?? '');
      return;
    }
    this.refuseBefore();
    this.rows++;
    this.fast?.restate();
    // The first row settles what the fast road must know.
    if (this.rows > 1 || grammarOnly) return;
    this.spec = fastSpecOf(layout, assignment, this.slow.form);
    if (this.spec) this.fast = new FastRows(this.spec, this.buffer);
  }
}

function lineEnd({ bytes, to }: Piece, at: number): number {
  const end = bytes.indexOf(lineFeed, at);
  return end < 0 || end >= to ? to : end + 1;
}

function afterLines(piece: Piece, at: number, lines: number): number {
  let end = at;
  for (let i = 0; i < lines; i++) end = lineEnd(piece, end);
  return end;
}

function countLines(text: string): number {
  let lines = 1;
  for (let at = text.indexOf('\n'); at >= 0; at = text.indexOf('\n', at + 1)) lines++;
  return lines;
}
