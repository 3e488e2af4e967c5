import { type FirstOrderSums, firstOrderPass } from './firstOrderPass.js';
import { momentPass } from './momentPass.js';
import { type Moments, momentsOf, segmentsOf } from './momentsOf.js';
import type { Timeline } from './Timeline.js';

type Pass = (a: number, b: number, startK: number, sums: FirstOrderSums) => void;

/** With fewer intervals a block there is nothing to gain. */
const leastIntervals = 6;
/** (b − b₀)·L up to which five terms leave out less than 1e-15: 0.0026⁵/5!. */
const reach = 0.0026;
/** Loss within one segment up to which the weights of a step are exact. */
const mostLoss = 1;
/** Moments are taken anew so many times before the search is left to the plain pass. */
const mostBuilds = 6;

/**
 * A pass over a timeline that is as quick as it can be without being less exact: by moments of each block where the blocks
 * hold many nodes and little is lost within one of them, from node to node elsewhere.
 */
export function quickestPass(line: Timeline, share: Float64Array, blockS: number): Pass {
  const plain: Pass = (a, b, startK, sums) => firstOrderPass(line, share, a, b, startK, sums);
  if (line.intervals < leastIntervals * share.length) return plain;
  const segments = segmentsOf(line, 1.5 * blockS);
  let moments: Moments | null = null;
  let builds = 0;
  return (a, b, startK, sums) => {
    if (moments === null || !(Math.abs(b - moments.nearRate) * segments.longestS <= reach)) {
      if (builds >= mostBuilds || !(Math.abs(b) * segments.longestS <= mostLoss)) {
        plain(a, b, startK, sums);
        return;
      }
      builds += 1;
      moments = momentsOf(line, segments, share, b);
    }
    momentPass(moments, a, b, startK, sums);
  };
}
