import { coverageFactor } from '../../statistics/index.js';
import { numericalTolerance } from '../numericalTolerance.js';
import { intervals } from './intervals.js';
import { moments } from './moments.js';
import type { TrialRun } from './TrialRun.js';

/** What one group of trials says of one output, or the standard errors of the same. */
export interface Figures {
  readonly mean: number;
  readonly deviation: number;
  readonly low: number;
  readonly high: number;
}

export interface AdaptiveOptions {
  readonly digits: number;
  readonly coverage: number;
  readonly mostTrials: number;
  /** The tolerance is δ over this: 1, or 5 where δ itself is to be compared with. */
  readonly divisor: number;
  /** Ends only, where a standard deviation does not exist. */
  readonly endsOnly: boolean;
}

export interface AdaptiveOutcome {
  readonly trials: number;
  readonly converged: boolean;
  /** For each output: standard errors of the averages over the groups, and δ. */
  readonly errors: readonly Figures[];
  readonly tolerances: readonly number[];
}

const FEWEST_GROUPS = 10;

/** Trials of one group, M = max(J, 10^4) with J = 100/(1 − p) rounded up: JCGM 101 7.9.4 b). */
export const groupSize = (coverage: number): number =>
  Math.max(10_000, Math.ceil(100 / (1 - coverage) - 1e-9));

export const fewestAdaptiveTrials = (coverage: number): number => FEWEST_GROUPS * groupSize(coverage);

/**
 * The adaptive scheme of JCGM 101 7.9.4: groups of trials until twice the standard errors of mean, standard deviation and both ends
 * of the symmetric interval, seen from the scatter of the groups, are below the tolerance. One thing is stricter: at least
 * ten groups, since two agree by luck too often. The rule is asked after each group in turn, so that the portions in
 * which trials are computed ahead don't matter.
 */
export function adaptive(run: TrialRun, options: AdaptiveOptions): AdaptiveOutcome {
  const size = groupSize(options.coverage);
  const most = Math.floor(options.mostTrials / size);
  const groups: Figures[][] = run.program.outputs.map(() => []);
  let target = Math.min(most, FEWEST_GROUPS);
  for (let count = 1; ; count++) {
    run.extendTo(target * size);
    groups.forEach((list, j) => {
      list.push(figuresOf(run.of(j, (count - 1) * size, count * size), options.coverage));
    });
    if (count < Math.min(FEWEST_GROUPS, most)) continue;
    const errors = groups.map(standardErrors);
    const tolerances = groups.map((list) => toleranceOf(spreadOf(list, options), options.digits));
    const excess = Math.max(
      ...errors.map((each, j) => (2 * largest(each, options.endsOnly) * options.divisor) / tolerances[j]!),
    );
    const converged = excess < 1;
    // A trial that gave no number ends it at once; whoever reads the trials says so.
    if (converged || count >= most || Number.isNaN(excess))
      return { trials: count * size, converged, errors, tolerances };
    if (count < target) continue;
    // Errors go with the root of the trials: compute ahead what will be needed, from a tenth to as much again.
    target = Math.min(most, Math.ceil(Math.min(2, Math.max(1.1, excess * excess)) * count));
  }
}

function figuresOf(values: Float64Array, coverage: number): Figures {
  const [low, high] = intervals(values, coverage).symmetric;
  return { ...moments(values), low, high };
}

function standardErrors(list: readonly Figures[]): Figures {
  const error = (pick: (figures: Figures) => number) =>
    moments(Float64Array.from(list, pick)).deviation / Math.sqrt(list.length);
  return {
    mean: error((each) => each.mean),
    deviation: error((each) => each.deviation),
    low: error((each) => each.low),
    high: error((each) => each.high),
  };
}

/** A result that does not vary at all is stable with any number of trials. */
function toleranceOf(spread: number, digits: number): number {
  return spread > 0 && spread < Number.POSITIVE_INFINITY
    ? numericalTolerance(spread, digits)
    : Number.POSITIVE_INFINITY;
}

function largest(errors: Figures, endsOnly: boolean): number {
  const ends = Math.max(errors.low, errors.high);
  return endsOnly ? ends : Math.max(ends, errors.mean, errors.deviation);
}

/** The standard deviation of all trials, or where there is none, what half the interval would be one of in a normal. */
function spreadOf(list: readonly Figures[], { coverage, endsOnly }: AdaptiveOptions): number {
  const average = (pick: (figures: Figures) => number) =>
    list.reduce((sum, each) => sum + pick(each), 0) / list.length;
  if (endsOnly) {
    const half = average((each) => each.high - each.low) / 2;
    return half / coverageFactor(coverage, Number.POSITIVE_INFINITY);
  }
  return Math.sqrt(average((each) => each.deviation ** 2));
}
