import type { Block } from '../../outline/Block.js';
import type { PowerLevels } from '../../powerLevels.js';
import type { Readings } from '../../Readings.js';
import type { Rows } from '../../Rows.js';
import type { HeatingEdges } from '../../types.js';

/** Looks through rows for one kind of thing that shouldn't be. */
export interface Watcher {
  /** Whether the rows of a block may hold it; asked of every block of a long log in turn. */
  wants(block: Block, number: number): boolean;
  /** `follows`: these rows come directly after those seen before. */
  see(rows: Rows, follows: boolean): void;
  /** What was found, in sentences. */
  doubts(): string[];
}

/** What the watchers know of the log before they begin. */
export interface WatchedLog {
  readonly readings: Readings;
  readonly levels: PowerLevels;
  /** `null` where no heating was found. */
  readonly edges: HeatingEdges | null;
}

/** Things of one kind: how many, and the first of them. */
export class Sightings<T> {
  count = 0;
  readonly first: T[] = [];

  add(sighting: T): void {
    if (this.count++ < 1000) this.first.push(sighting);
  }
}
