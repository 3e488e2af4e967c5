import { expect } from 'vitest';
import { mean, standardDeviation } from '../../src/statistics/index.js';
import { type Quantity, simulate } from '../../src/uncertainty/index.js';

export const SEEDS = 20;
const TRIALS = 100_000;

/** A figure from independent seeds: its average, the scatter of one run and the standard error of the average. */
export interface Seen {
  readonly average: number;
  readonly scatter: number;
  readonly standardError: number;
}

export interface SeenFigures {
  readonly mean: Seen;
  readonly u: Seen;
  readonly low: Seen;
  readonly high: Seen;
  readonly shortestLow: Seen;
  readonly shortestHigh: Seen;
  readonly shortestLength: Seen;
}

/** Twenty runs of 100,000 trials with seeds of their own: the tolerance of a comparison is seen, not chosen. */
export function overSeeds(quantity: Quantity, coverage = 0.95, factor = 1): SeenFigures {
  const runs = Array.from({ length: SEEDS }, (_, seed) =>
    simulate(quantity, { seed: 1000 + seed, trials: TRIALS, coverage }),
  );
  const seen = (pick: (run: (typeof runs)[number]) => number | null): Seen => {
    const values = runs.map((run) => factor * (pick(run) as number));
    const scatter = standardDeviation(values);
    return { average: mean(values), scatter, standardError: scatter / Math.sqrt(SEEDS) };
  };
  return {
    mean: seen((run) => run.mean),
    u: seen((run) => run.standardUncertainty),
    low: seen((run) => run.symmetric[0]),
    high: seen((run) => run.symmetric[1]),
    shortestLow: seen((run) => run.shortest[0]),
    shortestHigh: seen((run) => run.shortest[1]),
    shortestLength: seen((run) => run.shortest[1] - run.shortest[0]),
  };
}

/**
 * Six standard errors: with 19 degrees of freedom t is beyond that once in 100,000. `own` is the standard error of the
 * expected number, where it was simulated too.
 */
export function expectNear(found: Seen, expected: number, own = 0): void {
  expect(Math.abs(found.average - expected)).toBeLessThan(6 * Math.hypot(found.standardError, own));
}

/**
 * The ends of a shortest interval are poorly determined, with errors that go with the cube root of the trials and may lean to one
 * side: here one run's scatter is the measure.
 */
export function expectWithinScatter(found: Seen, expected: number, own = 0): void {
  expect(Math.abs(found.average - expected)).toBeLessThan(6 * Math.hypot(found.scatter, own));
}

/**
 * A printed number that itself comes from about 10^6 trials, ten of our runs: half a unit of its last digit, and six times the
 * scatter that one run of so many trials has.
 */
export function expectPrinted(found: Seen, printed: number, unit: number): void {
  const theirs = found.scatter / Math.sqrt(10);
  expect(Math.abs(found.average - printed)).toBeLessThan(
    unit / 2 + 6 * Math.hypot(found.standardError, theirs),
  );
}
