import { problem } from '../errors/index.js';
import { correlationMatrix } from './correlationMatrix.js';
import { type AdaptiveOutcome, adaptive, fewestAdaptiveTrials } from './monteCarlo/adaptive.js';
import { compile } from './monteCarlo/compile.js';
import { intervals } from './monteCarlo/intervals.js';
import { covariances, failures, moments } from './monteCarlo/moments.js';
import { TrialRun } from './monteCarlo/TrialRun.js';
import type { Quantity } from './Quantity.js';

export interface SimulateOptions {
  /** The same seed gives the same bits, on any machine and for any number of threads. */
  readonly seed: number;
  /** A fixed number of trials; 1,000,000 unless this or `digits` is given. */
  readonly trials?: number;
  /** Instead: as many trials as make so many digits of the standard uncertainty stable (JCGM 101 7.9). */
  readonly digits?: number;
  /** Where the search for `digits` stops; 10,000,000 unless given. */
  readonly mostTrials?: number;
  /** Share of the values within the intervals; 0.95 unless given. */
  readonly coverage?: number;
  /** Threads, the calling one included; 1 unless given. */
  readonly workers?: number;
}

/** A result by Monte Carlo. */
export interface Simulated {
  /** The quantity with every error at zero, which is the first-order estimate; the mean differs where the model is bent. */
  readonly value: number;
  /** Null where it does not exist. */
  readonly mean: number | null;
  /** Null where it does not exist. */
  readonly standardUncertainty: number | null;
  /** Why one is null, as a sentence; else null. */
  readonly reason: string | null;
  readonly coverage: number;
  /** With as much probability below as above it. */
  readonly symmetric: readonly [number, number];
  readonly shortest: readonly [number, number];
  readonly trials: number;
  /** Whether the digits asked for are stable; null for a fixed number of trials. */
  readonly converged: boolean | null;
  readonly seed: number;
}

/** Several results from the same trials. */
export interface SimulatedTogether {
  readonly results: readonly Simulated[];
  /** Null beside a result without a standard uncertainty above zero. */
  readonly correlation: readonly (readonly (number | null)[])[];
}

const MOST_TRIALS = 100_000_000;

/**
 * Monte Carlo propagation of distributions (JCGM 101 clauses 5 to 7) over the same graph as `propagate`: draws every source from its
 * distribution, evaluates the graph, and reads mean, standard deviation and both coverage intervals from the trials. A
 * source of shape t is drawn from the scaled t distribution with its degrees of freedom; those of other shapes are not used.
 * A list of quantities is evaluated over the same draws, with their correlation.
 *
 * Generator xoshiro128**, one stream for each 1024 trials, a jump of 2^64 apart; normal numbers by the Ziggurat;
 * exp, log, sin, cos and powers from basic arithmetic, so that the bits are the same on every machine. A function made by `lift` is
 * called as it is (in the calling thread alone); its bits are its own.
 *
 * A t source with two degrees of freedom or fewer has no standard deviation: then none is reported, and the search for `digits`
 * looks at the interval's ends alone.
 *
 * Throws `coverage-bad`, `seed-bad`, `trials-bad`, `trials-and-digits`, `digits-bad`, `workers-bad`, `source-clash`, `no-quantities`, and
 * `trials-not-finite` where a trial gives no finite number.
 *
 * @example
 * const a = errorOf(source({ id: 'a', name: 'a', halfWidth: 1 }));
 * const b = errorOf(source({ id: 'b', name: 'b', halfWidth: 1 }));
 * const { symmetric } = simulate(add(a, b), { seed: 1, trials: 200_000 });
 * Math.abs(symmetric[1] - (2 - Math.sqrt(0.2))) < 0.01 // => true
 */
export function simulate(quantity: Quantity, options: SimulateOptions): Simulated;
export function simulate(quantities: readonly Quantity[], options: SimulateOptions): SimulatedTogether;
export function simulate(
  what: Quantity | readonly Quantity[],
  options: SimulateOptions,
): Simulated | SimulatedTogether {
  const quantities = isList(what) ? what : [what];
  if (quantities.length === 0) throw problem('no-quantities', { what: 'Monte Carlo' });
  const { run, outcome, trials } = runTrials(quantities, options, 1);
  const results = quantities.map((quantity, j) =>
    summary(quantity, run, j, { trials, converged: outcome?.converged ?? null }, options),
  );
  if (!isList(what)) return results[0] as Simulated;
  if (results.some((each) => each.standardUncertainty === null))
    return { results, correlation: results.map(() => results.map(() => null)) };
  const samples = quantities.map((_, j) => run.of(j, 0, trials));
  const means = results.map((each) => each.mean as number);
  return { results, correlation: correlationMatrix(covariances(samples, means)) };
}

const isList = (what: Quantity | readonly Quantity[]): what is readonly Quantity[] => Array.isArray(what);

/** Checks the options and runs the trials; `divisor` makes the tolerance of the adaptive scheme finer. */
export function runTrials(
  quantities: readonly Quantity[],
  options: SimulateOptions,
  divisor: number,
): { run: TrialRun; outcome: AdaptiveOutcome | null; trials: number } {
  const { coverage = 0.95, seed, workers = 1, digits } = options;
  if (!(coverage > 0 && coverage < 1)) throw problem('coverage-bad', { got: String(coverage) });
  if (!(Number.isSafeInteger(seed) && seed >= 0)) throw problem('seed-bad', { got: String(seed) });
  if (!(Number.isInteger(workers) && workers >= 1 && workers <= 64))
    throw problem('workers-bad', { got: String(workers) });
  if (digits !== undefined && options.trials !== undefined) throw problem('trials-and-digits', {});
  const run = new TrialRun(compile(quantities), seed, workers);
  if (digits === undefined) {
    const trials = checkedTrials(options.trials ?? 1_000_000, Math.ceil(10 / (1 - coverage)), coverage);
    run.extendTo(trials);
    return { run, outcome: null, trials };
  }
  if (!(digits >= 1 && digits <= 4 && Number.isInteger(digits)))
    throw problem('digits-bad', { got: String(digits) });
  const most = options.mostTrials ?? 10_000_000;
  const mostTrials = checkedTrials(most, fewestAdaptiveTrials(coverage), coverage);
  const endsOnly = run.program.fewestDegreesOfFreedom <= 2;
  const outcome = adaptive(run, { digits, coverage, mostTrials, divisor, endsOnly });
  return { run, outcome, trials: outcome.trials };
}

function checkedTrials(trials: number, least: number, coverage: number): number {
  if (Number.isInteger(trials) && trials >= least && trials <= MOST_TRIALS) return trials;
  throw problem('trials-bad', {
    got: String(trials),
    least,
    most: MOST_TRIALS,
    coverage: String(coverage),
  });
}

/** The result of one output from its trials. */
export function summary(
  quantity: Quantity,
  run: TrialRun,
  output: number,
  spent: { readonly trials: number; readonly converged: boolean | null },
  options: SimulateOptions,
): Simulated {
  const coverage = options.coverage ?? 0.95;
  const values = run.of(output, 0, spent.trials);
  const { mean, deviation } = moments(values);
  if (!Number.isFinite(mean) || !Number.isFinite(deviation)) {
    const failed = failures(values);
    if (failed > 0) throw problem('trials-not-finite', { failed, trials: spent.trials });
  }
  const fewest = run.program.fewestDegreesOfFreedom;
  return {
    value: quantity.value,
    mean: fewest > 1 ? mean : null,
    standardUncertainty: fewest > 2 ? deviation : null,
    reason: fewest > 2 ? null : missing(fewest),
    coverage,
    ...intervals(values, coverage),
    ...spent,
    seed: options.seed,
  };
}

function missing(degreesOfFreedom: number): string {
  const what = degreesOfFreedom > 1 ? 'standard deviation' : 'mean and no standard deviation';
  return `A source with ${degreesOfFreedom} degrees of freedom is among the inputs; a t distribution of two or fewer has no ${what}.`;
}
