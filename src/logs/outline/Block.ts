/** The readings of the power in a block. A stretch reaches from one known reading to the next; it belongs to the block of its end. */
export interface PowerPart {
  known: number;
  /** The last known reading before this block; NaN in the first one. */
  beforeS: number;
  beforeW: number;
  firstS: number;
  firstW: number;
  lastS: number;
  lastW: number;
  leastW: number;
  mostW: number;
  /** Energy of the stretches by the trapezoid, and with each reading as the mean of the stretch before it. */
  trapezoidJ: number;
  stepJ: number;
  /** Sum of (length · change of power)². */
  doubtJ2: number;
  stretches: number;
  lengthS: number;
  lengthS2: number;
  longestS: number;
  /** The longest stretch, and how long the next longest is. */
  longestFromS: number;
  longestFromW: number;
  longestToS: number;
  longestToW: number;
  secondS: number;
  /** Stretches over which the power changes at all. */
  changes: number;
}

/** The readings of the energy counter in a block. */
export interface CounterPart {
  known: number;
  beforeS: number;
  beforeJ: number;
  firstS: number;
  firstJ: number;
  lastS: number;
  lastJ: number;
  /** What it rose by since the last reading before this block, runs over its last digit included. */
  countedJ: number;
  wraps: number;
  resets: number;
  /** Times it fell without being reset. */
  falls: number;
  /** Times it rose. */
  ticks: number;
}

/** The readings of the temperature in a block. */
export interface TemperaturePart {
  known: number;
  firstS: number;
  firstK: number;
  lastS: number;
  lastK: number;
  leastK: number;
  mostK: number;
  sumK: number;
}

/** Where the first row of a block stands in the file: bytes before it, and its line counted from 1. */
export interface FilePlace {
  readonly offset: number;
  readonly line: number;
}

/** What is kept of some hundreds or thousands of rows, so that a log of any length can be looked through in little memory. */
export interface Block {
  /** Number of the first row, counted from 0 in time order. */
  readonly firstRow: number;
  /** `null` for a log in memory. */
  readonly at: FilePlace | null;
  rows: number;
  readonly startS: number;
  endS: number;
  readonly power: PowerPart | null;
  readonly counter: CounterPart | null;
  readonly temperature: TemperaturePart | null;
}

/** Adds the block that follows directly. */
export function joinBlocks(block: Block, next: Block): void {
  block.rows += next.rows;
  block.endS = next.endS;
  if (block.power && next.power) joinPower(block.power, next.power);
  if (block.counter && next.counter) joinCounter(block.counter, next.counter);
  if (block.temperature && next.temperature) joinTemperature(block.temperature, next.temperature);
}

function joinPower(a: PowerPart, b: PowerPart): void {
  if (b.known === 0) return;
  if (a.known === 0) [a.firstS, a.firstW] = [b.firstS, b.firstW];
  [a.lastS, a.lastW] = [b.lastS, b.lastW];
  a.known += b.known;
  a.leastW = Math.min(a.leastW, b.leastW);
  a.mostW = Math.max(a.mostW, b.mostW);
  a.trapezoidJ += b.trapezoidJ;
  a.stepJ += b.stepJ;
  a.doubtJ2 += b.doubtJ2;
  a.stretches += b.stretches;
  a.lengthS += b.lengthS;
  a.lengthS2 += b.lengthS2;
  a.secondS = Math.max(a.secondS, b.secondS, Math.min(a.longestS, b.longestS));
  if (b.longestS > a.longestS) {
    a.longestS = b.longestS;
    a.longestFromS = b.longestFromS;
    a.longestFromW = b.longestFromW;
    a.longestToS = b.longestToS;
    a.longestToW = b.longestToW;
  }
  a.changes += b.changes;
}

function joinCounter(a: CounterPart, b: CounterPart): void {
  if (b.known === 0) return;
  if (a.known === 0) [a.firstS, a.firstJ] = [b.firstS, b.firstJ];
  [a.lastS, a.lastJ] = [b.lastS, b.lastJ];
  a.known += b.known;
  a.countedJ += b.countedJ;
  a.wraps += b.wraps;
  a.resets += b.resets;
  a.falls += b.falls;
  a.ticks += b.ticks;
}

function joinTemperature(a: TemperaturePart, b: TemperaturePart): void {
  if (b.known === 0) return;
  if (a.known === 0) [a.firstS, a.firstK] = [b.firstS, b.firstK];
  [a.lastS, a.lastK] = [b.lastS, b.lastK];
  a.known += b.known;
  a.leastK = Math.min(a.leastK, b.leastK);
  a.mostK = Math.max(a.mostK, b.mostK);
  a.sumK += b.sumK;
}
