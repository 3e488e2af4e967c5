import type { RunConditions } from '../types.js';
import type { TestedRange } from './types.js';

/**
 * Between which conditions runs were made: water, start, end, power and room; the room null unless every run knows it.
 *
 * @example
 * const run = (waterKg) => ({ conditions: { waterKg, startK: 285, endK: 325, meanPowerW: 880, ambientK: 293 } });
 * testedRange([run(6), run(2)]).waterKg // => [2, 6]
 */
export function testedRange(
  runs: readonly {
    readonly conditions: Pick<RunConditions, 'waterKg' | 'startK' | 'endK' | 'meanPowerW' | 'ambientK'>;
  }[],
): TestedRange {
  const between = (values: readonly number[]) => [Math.min(...values), Math.max(...values)] as const;
  const all = runs.map(({ conditions }) => conditions);
  const rooms = all.map(({ ambientK }) => ambientK).filter((kelvin) => kelvin !== null);
  return {
    waterKg: between(all.map(({ waterKg }) => waterKg)),
    startK: between(all.map(({ startK }) => startK)),
    endK: between(all.map(({ endK }) => endK)),
    powerW: between(all.map(({ meanPowerW }) => meanPowerW)),
    ambientK: rooms.length === all.length && all.length > 0 ? between(rooms) : null,
  };
}
