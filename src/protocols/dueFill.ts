import type { RunRecord } from '../workbook/index.js';
import type { Protocol } from './schema.js';

/** Which fill of a protocol with several comes next. */
export interface DueFill {
  readonly fill: string;
  /** Finished runs at each fill, in the order of the protocol. */
  readonly runs: readonly { readonly fill: string; readonly count: number }[];
  /** As one would say it at the bench. */
  readonly words: string;
}

/**
 * The fill that is due: the one with the fewest finished runs, the first of them where several are alike. Runs of other
 * protocols and excluded ones don't count; the caller gives those of one heater and setting. null where a protocol has
 * no fills.
 *
 * @example
 * const protocol = { name: 'two', fills: ['third', 'full'], steps: [{ id: 'fill', kind: 'choice', role: 'fill' }] };
 * const run = { protocol: { name: 'two' }, choices: { fill: 'third' }, ended: true, excluded: null };
 * dueFill(protocol, [run]).words // => 'Due next: full (runs so far: third 1, full 0)'
 * dueFill(protocol, []).fill // => 'third'
 * dueFill({ name: 'one', steps: [] }, []) // => null
 */
export function dueFill(protocol: Protocol, runs: readonly RunRecord[]): DueFill | null {
  const step = protocol.steps.find((each) => each.kind === 'choice' && each.role === 'fill');
  if (!step || protocol.fills === undefined) return null;
  const counted = runs.filter(
    (run) => run.protocol.name === protocol.name && run.ended && run.excluded === null,
  );
  const counts = protocol.fills.map((fill) => ({
    fill,
    count: counted.filter((run) => run.choices[step.id] === fill).length,
  }));
  const least = Math.min(...counts.map(({ count }) => count));
  const fill = (counts.find(({ count }) => count === least) as (typeof counts)[number]).fill;
  const soFar = counts.map(({ fill: name, count }) => `${name} ${count}`).join(', ');
  const words = `Due next: ${fill} (runs so far: ${soFar})`;
  return { fill, runs: counts, words };
}
