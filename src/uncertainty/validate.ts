import { blindSpots } from './blindSpots.js';
import { propagate } from './propagate.js';
import type { Quantity } from './Quantity.js';
import { runTrials, summary } from './simulate.js';
import type { Validation, Verdict } from './Validation.js';
import { verdictText } from './verdictText.js';

export interface ValidateOptions {
  /** Significant digits of the standard uncertainty that are to count: 1 or 2 (up to 4). 1 unless given. */
  readonly digits?: number;
  readonly seed: number;
  readonly coverage?: number;
  /** Trials after which it is left undecided; 2,000,000 unless given. */
  readonly mostTrials?: number;
  readonly workers?: number;
}

/**
 * Whether the first-order interval may be used, by comparison with Monte Carlo: JCGM 101 clause 8. Both ends of the
 * interval y ± U must lie within the numerical tolerance δ of those of the probabilistically symmetric interval from
 * the trials, which are to be stable to δ/5 (8.2). Where `mostTrials` don't make them so, the verdict is `not
 * validated` only if an end is farther off than δ by three standard errors, and else `undecided`.
 *
 * δ goes with Monte Carlo's standard uncertainty. Errors as `propagate` and `simulate`.
 *
 * @example
 * const x = add(constant(0), errorOf(source({ id: 'x', name: 'X', standardUncertainty: 1 })));
 * const { verdict, blindTo } = validate(power(x, 2), { seed: 1, mostTrials: 200_000 });
 * verdict // => 'not validated'
 * blindTo // => ['X']
 */
export function validate(quantity: Quantity, options: ValidateOptions): Validation {
  const { digits = 1, coverage = 0.95, mostTrials = 2_000_000 } = options;
  const firstOrder = propagate(quantity, { coverage });
  const search = { ...options, digits, coverage, mostTrials };
  const { run, outcome, trials } = runTrials([quantity], search, 5);
  if (!outcome) throw new TypeError('The search for digits has an outcome.');
  const monteCarlo = summary(quantity, run, 0, { trials, converged: outcome.converged }, search);
  const [errors] = outcome.errors as [(typeof outcome.errors)[number]];
  const still = monteCarlo.symmetric[0] === monteCarlo.symmetric[1];
  const comparison = {
    digits,
    tolerance: still ? 0 : (outcome.tolerances[0] as number),
    dLow: Math.abs(firstOrder.interval[0] - monteCarlo.symmetric[0]),
    dHigh: Math.abs(firstOrder.interval[1] - monteCarlo.symmetric[1]),
    endErrors: [errors.low, errors.high] as const,
  };
  const verdict = verdictOf(comparison, outcome.converged);
  const blindTo = blindSpots(quantity, firstOrder.budget, options.seed).map((source) => source.name);
  const sources = firstOrder.budget.filter((row) => !row.correlationOf).map((row) => row.source.name);
  const inputs = [...new Set(sources)];
  const told = { verdict, ...comparison, inputs, blindTo, firstOrder, monteCarlo };
  return { ...told, sentence: verdictText(told) };
}

type Comparison = Pick<Validation, 'tolerance' | 'dLow' | 'dHigh' | 'endErrors'>;

function verdictOf({ tolerance, dLow, dHigh, endErrors }: Comparison, converged: boolean): Verdict {
  if (converged) return dLow <= tolerance && dHigh <= tolerance ? 'validated' : 'not validated';
  const sure = dLow - 3 * endErrors[0] > tolerance || dHigh - 3 * endErrors[1] > tolerance;
  return sure ? 'not validated' : 'undecided';
}
