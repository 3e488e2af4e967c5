import { problem } from '../errors/index.js';
import { zoneOffsets } from './zoneOffsets.js';

/** Which rows, and the line of each in the file. */
export interface LocalRows {
  readonly from: number;
  readonly to: number;
  lineOf(row: number): number;
}

/**
 * Brings the local times of a zone to UTC row by row. A repeated hour is told apart by the order of the rows and
 * reported; a log that begins within it can't be, and is an error, as is a time that the clock never showed.
 */
export class LocalClock {
  private readonly offsetsAt: ReturnType<typeof zoneOffsets>;
  /** Local seconds from and to which one offset holds. */
  private fromS = Number.NaN;
  private toS = Number.NaN;
  private offsetS = 0;
  private before: number | null = null;
  private last: number | null;

  /** Times are counted from `baseS`, seconds since 1970-01-01; `last` is the UTC time before the first row, if known. */
  constructor(
    private readonly zone: string,
    private readonly baseS: number,
    private readonly file: string,
    private readonly warnings: string[],
    last: number | null = null,
  ) {
    this.offsetsAt = zoneOffsets(zone);
    this.last = last;
  }

  /** UTC of the local times `local[i] + shiftS` for rows from one to before another. Lines are asked for only where there is something to say. */
  toUtc(local: Float64Array, shiftS: number, rows: LocalRows, out: Float64Array): void {
    // In one loop, because a call for each row would cost more than the subtraction.
    let { fromS, toS, offsetS } = this;
    for (let row = rows.from; row < rows.to; row++) {
      const localS = local[row]! + shiftS;
      if (localS >= fromS && localS < toS) {
        this.last = localS - offsetS;
        out[row] = localS - offsetS;
      } else {
        out[row] = this.ask(localS, () => rows.lineOf(row));
        ({ fromS, toS, offsetS } = this);
      }
    }
  }

  private ask(localS: number, line: () => number): number {
    const { offsets, fromMs, toMs } = this.offsetsAt((this.baseS + localS) * 1000);
    const shown = () => new Date((this.baseS + localS) * 1000).toISOString().slice(0, 19).replace('T', ' ');
    const place = () => ({ file: this.file, line: line() });
    if (offsets.length === 0) throw problem('log-time-not-real', { got: shown(), zone: this.zone }, place());
    if (offsets.length > 1 && this.last === null) {
      throw problem(
        'log-time-twice',
        { got: shown(), zone: this.zone },
        place(),
        'Give the offset instead, such as --zone +02:00.',
      );
    }
    const previous = this.last ?? Number.NEGATIVE_INFINITY;
    const choices = offsets.map((offset) => localS - offset / 1000).sort((a, b) => a - b);
    const utc = choices.find((time) => time >= previous) ?? choices[choices.length - 1]!;
    const offset = localS - utc;
    this.report(Math.round(offset), line);
    this.offsetS = offsets.length === 1 ? offsets[0]! / 1000 : 0;
    this.fromS = fromMs / 1000 - this.baseS;
    this.toS = toMs / 1000 - this.baseS;
    this.last = utc;
    return utc;
  }

  private report(offset: number, line: () => number): void {
    const { before } = this;
    this.before = offset;
    if (before === null || offset === before) return;
    const hours = (offset - before) / 3600;
    this.warnings.push(
      `The clock of ${this.zone} was moved by ${hours > 0 ? '+' : ''}${hours} h at line ${line()}; durations are counted without the jump.`,
    );
  }
}
