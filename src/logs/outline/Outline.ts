import type { Block } from './Block.js';
import type { StillHabit, StillRun } from './StillRuns.js';
import type { Tally } from './Tally.js';

/** A log summed up in blocks, in time order. */
export interface Outline {
  readonly rows: number;
  /** Time of the last row, seconds after the first. */
  readonly endS: number;
  readonly blocks: readonly Block[];
  /** How often each power came, watts. */
  readonly powers: Tally;
  /** How often each interval between two known powers came, seconds. */
  readonly intervals: Tally;
  /** Rows in succession that show exactly the same in all electrical columns. */
  readonly still: {
    /** Pairs of rows in succession with a power above zero, and how many of them are the same. */
    readonly pairs: number;
    readonly samePairs: number;
    /** The same pairs by the octave of their power. */
    readonly habit: StillHabit;
    /** The longest runs, longest first. */
    readonly longest: readonly StillRun[];
  };
}
