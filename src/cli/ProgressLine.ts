/** Where the line is drawn: stderr, or what a test puts in its place. */
export interface ProgressStream {
  readonly isTTY?: boolean | undefined;
  readonly columns?: number | undefined;
  write(text: string): unknown;
}

/** How far a piece of work has come. */
export interface Step {
  readonly rows: number;
  /** Share of the work: `done` of `total`, in whatever it is counted in. */
  readonly done: number;
  readonly total: number;
}

const quietMs = 1000;
const betweenMs = 200;
const longestBar = 30;
const shortestBar = 5;
/** Back to the start of the line and clear the rest of it. */
const redraw = (text: string) => `\r${text}\x1b[K`;

/**
 * One line that says how far a long work has come: a bar, the rows so far, the time left. Nothing is drawn before the
 * first second, five times a second at most, never where the stream is no terminal; `clear` takes the line away.
 */
export class ProgressLine {
  private readonly beganMs: number;
  private drawnMs = Number.NEGATIVE_INFINITY;
  private isDrawn = false;

  constructor(
    private readonly stream: ProgressStream,
    private readonly nowMs: () => number = () => performance.now(),
  ) {
    this.beganMs = nowMs();
  }

  report(step: Step): void {
    if (this.stream.isTTY !== true) return;
    const now = this.nowMs();
    if (now - this.beganMs < quietMs || now - this.drawnMs < betweenMs) return;
    this.drawnMs = now;
    this.isDrawn = true;
    // The last column stays free: a terminal would go on to the next line.
    // Some terminals say that they are 0 columns wide: they don't know.
    this.stream.write(redraw(lineOf(step, now - this.beganMs, (this.stream.columns || 80) - 1)));
  }

  clear(): void {
    if (this.isDrawn) this.stream.write(redraw(''));
    this.isDrawn = false;
  }
}

function lineOf({ rows, done, total }: Step, elapsedMs: number, width: number): string {
  const share = total > 0 ? Math.min(1, done / total) : 0;
  const left = share > 0 ? `, ${timeWords((elapsedMs * (1 - share)) / share / 1000)} left` : '';
  const text = `${rowWords(rows)}${left}`;
  const long = Math.min(longestBar, width - text.length - 2);
  if (long >= shortestBar) {
    const filled = Math.round(share * long);
    return `${':'.repeat(filled)}${'.'.repeat(long - filled)}  ${text}`;
  }
  return text.length <= width ? text : `${Math.floor(100 * share)} %`.slice(0, Math.max(0, width));
}

function rowWords(rows: number): string {
  if (rows >= 999_500) return `${(rows / 1e6).toFixed(1)} million rows`;
  if (rows >= 999.5) return `${Math.round(rows / 1e3)} thousand rows`;
  return rows === 1 ? '1 row' : `${rows} rows`;
}

function timeWords(seconds: number): string {
  if (seconds < 90) return `${Math.max(1, Math.ceil(seconds))} s`;
  return seconds < 5400 ? `${Math.round(seconds / 60)} min` : `${Math.round(seconds / 3600)} h`;
}
