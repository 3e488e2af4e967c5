import { cutRows } from '../cutRows.js';
import type { Rows } from '../Rows.js';
import { type Block, type FilePlace, joinBlocks } from './Block.js';
import { type Carry, blockOf } from './blockOf.js';
import type { Outline } from './Outline.js';
import { StillRuns } from './StillRuns.js';
import { Tally } from './Tally.js';

const mostBlocks = 4096;
// Loops over few rows, run often, are compiled better than long ones that are run seldom.
const sliceRows = 1024;

/** Sums up a log batch by batch. Blocks grow with the log, so that there are never more than 4096. */
export class OutlineBuilder {
  private readonly blocks: Block[] = [];
  private readonly tallies = { powers: new Tally(), intervals: new Tally() };
  private readonly still = new StillRuns();
  private readonly carry: Carry = {
    powerS: Number.NaN,
    powerW: Number.NaN,
    counterS: Number.NaN,
    counterJ: Number.NaN,
  };
  private perBlock = 1;
  private inLast = 0;
  private rows = 0;

  /** `unitJ` is the unit of the energy counter, at whose powers of ten it runs over. */
  constructor(private readonly unitJ: number) {}

  /** Adds the next rows; `at` is where they stand in a file. */
  add(rows: Rows, at: FilePlace | null = null): void {
    if (rows.timesS.length === 0) return;
    const block = this.sumUp(cutRows(rows, 0, sliceRows), at);
    for (let from = sliceRows; from < rows.timesS.length; from += sliceRows)
      joinBlocks(block, this.sumUp(cutRows(rows, from, from + sliceRows), null));
    this.still.add(rows);
    const last = this.blocks[this.blocks.length - 1];
    if (last && this.inLast < this.perBlock) {
      joinBlocks(last, block);
      this.inLast++;
      return;
    }
    if (this.blocks.length === mostBlocks) this.joinPairs();
    this.blocks.push(block);
    this.inLast = 1;
  }

  finish(): Outline {
    const { blocks, rows, still } = this;
    const { pairs, samePairs, habit } = still;
    return {
      rows,
      endS: blocks[blocks.length - 1]?.endS ?? 0,
      blocks,
      ...this.tallies,
      still: { pairs, samePairs, habit, longest: still.longest() },
    };
  }

  private sumUp(rows: Rows, at: FilePlace | null): Block {
    const block = blockOf(rows, { firstRow: this.rows, at }, this.carry, this.tallies, this.unitJ);
    this.rows += block.rows;
    return block;
  }

  private joinPairs(): void {
    for (let i = 0; 2 * i + 1 < this.blocks.length; i++) {
      const block = this.blocks[2 * i]!;
      joinBlocks(block, this.blocks[2 * i + 1]!);
      this.blocks[i] = block;
    }
    this.blocks.length /= 2;
    this.perBlock *= 2;
  }
}
