import { chiSquaredCdf, grubbs } from '../statistics/index.js';
import { type Pooled, contribution } from './poolQuantities.js';
import type { RunEvaluation } from './types.js';

/** Significance at which a run is pointed out; common practice, no source. */
const OUTLYING_SIGNIFICANCE = 0.05;

/** What of a figure's runs doesn't fit together, and what its protocol still asks for. */
export function figureWarnings(
  runs: readonly RunEvaluation[],
  parts: Pooled,
  values: readonly number[],
): string[] {
  const pooled = parts.result;
  const warnings: string[] = [];
  const lids = new Set(runs.map((run) => run.conditions.lid));
  if (lids.size > 1) warnings.push('The runs were not all made with the lid the same way.');
  const waters = runs.map((run) => run.conditions.waterKg);
  const [least, most] = [Math.min(...waters), Math.max(...waters)];
  if (most > 1.05 * least) {
    warnings.push(
      `The fill differed between runs by more than 5 % (${least.toFixed(2)} to ${most.toFixed(2)} kg).`,
    );
  }
  const needed = runs[0]?.protocol.limits.minimumRuns ?? 3;
  if (runs.length < needed) {
    warnings.push(
      `The protocol asks for ${needed} runs or more; there ${runs.length === 1 ? 'is 1' : `are ${runs.length}`}.`,
    );
  }
  const apart = outlying(runs, values);
  if (apart !== null) warnings.push(apart);
  const close = tooClose(runs, parts, values);
  if (close !== null) warnings.push(close);
  const differing = differingPair(parts, values);
  if (differing !== null) warnings.push(differing);
  if (pooled.prediction.interval[1] > 1) {
    warnings.push('The upper end of the prediction lies above 100 %, which no heater reaches.');
  }
  return warnings;
}

/** A run far from the others is pointed out; it is never dropped by the program. */
function outlying(runs: readonly RunEvaluation[], values: readonly number[]): string | null {
  if (values.length < 3) return null;
  const found = grubbs({ values, sides: 'two', significance: OUTLYING_SIGNIFICANCE });
  if (!found.outlying || found.suspectedIndex === null) return null;
  const run = runs[found.suspectedIndex]?.run.id;
  return `Run ${run} lies apart from the others. Look for the cause; it counts until a person excludes it: heatledger correct ${run} --exclude --reason "..."`;
}

/** Runs that agree so well by chance less often than this are pointed out; common practice, no source. */
const TOO_CLOSE_PROBABILITY = 0.02;

/** Runs that agree better than their own fresh errors allow: the scatter seen may be too small to go by. */
function tooClose(
  runs: readonly RunEvaluation[],
  { result }: Pooled,
  values: readonly number[],
): string | null {
  if (values.length < 3 || result.birgeRatio === null) return null;
  const degrees = runs.length - 1;
  if (chiSquaredCdf(degrees * result.birgeRatio ** 2, degrees) >= TOO_CLOSE_PROBABILITY) return null;
  return 'The runs agree better than their own doubts allow. That may be luck, or readings that were not independent: the ranges may be too narrow.';
}

/**
 * Two runs that differ by more than their fresh errors and the assumed scatter explain at 95 %. The mean of two nearly
 * equal weights has half the standard deviation of their difference.
 */
function differingPair({ fresh, assumedVariance }: Pooled, values: readonly number[]): string | null {
  const [one, other] = values;
  if (values.length !== 2 || one === undefined || other === undefined) return null;
  const variance = fresh.reduce((sum, part) => sum + contribution(part) ** 2, assumedVariance);
  const gap = Math.abs(one - other);
  if (gap <= 1.96 * 2 * Math.sqrt(variance)) return null;
  return `The two runs lie ${(100 * gap).toFixed(1)} points apart, more than the assumed scatter explains: the interval is too narrow. Look for the cause, and make a third.`;
}
