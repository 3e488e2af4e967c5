import type { Block } from './outline/Block.js';
import type { Outline } from './outline/Outline.js';
import type { Rows } from './Rows.js';
import type { Log } from './types.js';

/** A log whose rows come block by block: what energy, edges and phases are found from, in memory or on disk. */
export interface Readings extends Pick<Log, 'mapping' | 'rows' | 'startUtcMs' | 'warnings' | 'resolution'> {
  readonly outline: Outline;
  /** Which columns there are. */
  readonly has: { readonly power: boolean; readonly energy: boolean; readonly temperature: boolean };
  rowsOf(block: Block): Rows;
}
