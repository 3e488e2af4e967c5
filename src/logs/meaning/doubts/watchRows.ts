import type { Block } from '../../outline/Block.js';
import type { Readings } from '../../Readings.js';
import type { Watcher } from './Watcher.js';

const mostRows = 500_000;
const readWholeRows = 200_000;

/**
 * Shows the rows of a log to all watchers: all rows of a short log, of a long one those that a watcher asks for,
 * evenly thinned out to half a million rows for each.
 */
export function watchRows(readings: Readings, watchers: readonly Watcher[]): void {
  const { blocks } = readings.outline;
  const wanted = watchers.map((watcher) => wantedBlocks(readings, watcher));
  const last = watchers.map(() => -2);
  for (const [number, block] of blocks.entries()) {
    const asking = watchers.flatMap((_, i) => (wanted[i]!.has(block) ? [i] : []));
    if (asking.length === 0) continue;
    const rows = readings.rowsOf(block);
    for (const i of asking) {
      watchers[i]!.see(rows, last[i] === number - 1);
      last[i] = number;
    }
  }
}

function wantedBlocks({ rows, outline }: Readings, watcher: Watcher): Set<Block> {
  if (rows <= readWholeRows) return new Set(outline.blocks);
  const asked = outline.blocks.filter((block, number) => watcher.wants(block, number));
  const askedRows = asked.reduce((sum, block) => sum + block.rows, 0);
  const every = Math.ceil(askedRows / mostRows);
  return new Set(every > 1 ? asked.filter((_, i) => i % every === 0) : asked);
}
