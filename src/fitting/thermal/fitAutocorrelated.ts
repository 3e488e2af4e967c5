import type { FitResult } from '../FitResult.js';
import { fitProblem } from '../fitProblem.js';
import type { Problem } from '../Problem.js';
import { whiten, whitenedProblem } from './whiten.js';

/** Block means with where to begin. */
export interface AutocorrelatedInput {
  readonly observed: Float64Array;
  readonly gaps: Int32Array;
  readonly start: readonly number[];
  readonly lower: readonly number[];
  readonly upper: readonly number[];
}

/** A fit by generalised least squares under first-order autocorrelation. */
export interface AutocorrelatedFit {
  /** Of the whitened problem: its covariance is that of the parameters. */
  readonly result: FitResult;
  /** Of ordinary least squares: they show where a curve doesn't fit, while the weights of the other fit let it drift. */
  readonly ordinaryResiduals: readonly number[];
  readonly autocorrelation: number;
  /** Of the covariance. */
  readonly degreesOfFreedom: number;
  /** N(1 − ρ)/(1 + ρ). */
  readonly effective: number;
  readonly evaluations: number;
  readonly restarts: number;
}

const mostRho = 0.995;
const leastDegreesOfFreedom = 2;

/**
 * Ordinary least squares, the lag-1 autocorrelation r of its residuals,
 * ρ = min(0.995, r + [1 + 3r + (p − 1)(1 + r)]/N), and least squares again after Prais and Winsten's transformation:
 * covariance s²(JᵀJ)⁻¹ with s² = RSS/(N − p), Student's t with max(2, N(1 − ρ)/(1 + ρ) − p) degrees of freedom.
 * Source: settled by simulation against fits at the native rate and Newey–West, which state too small uncertainties.
 */
export function fitAutocorrelated(
  problem: Problem,
  { observed, gaps, start, lower, upper }: AutocorrelatedInput,
): AutocorrelatedFit {
  const n = problem.points;
  const p = problem.parameters;
  const ordinary = fitProblem(problem, { y: observed, start, lower, upper });
  const r = lagOne(ordinary.residuals, gaps);
  const rho = Math.max(-mostRho, Math.min(mostRho, r + (1 + 3 * r + (p - 1) * (1 + r)) / n));
  const y = observed.slice();
  whiten(y, gaps, rho);
  const result = fitProblem(whitenedProblem(problem, gaps, rho), {
    y,
    start: ordinary.parameters,
    lower,
    upper,
  });
  const effective = (n * (1 - rho)) / (1 + rho);
  return {
    result,
    ordinaryResiduals: ordinary.residuals,
    autocorrelation: rho,
    degreesOfFreedom: Math.max(leastDegreesOfFreedom, effective - p),
    effective,
    evaluations: ordinary.evaluations + result.evaluations,
    restarts: ordinary.restarts + result.restarts,
  };
}

/** Lag-1 autocorrelation of residuals, over neighbouring blocks only; 0 where nothing is left to correlate. */
function lagOne(residuals: readonly number[], gaps: Int32Array): number {
  const mean = residuals.reduce((sum, e) => sum + e, 0) / residuals.length;
  let products = 0;
  let squares = 0;
  residuals.forEach((e, k) => {
    squares += (e - mean) ** 2;
    if (k > 0 && gaps[k] === 1) products += (e - mean) * (residuals[k - 1]! - mean);
  });
  return squares > 0 ? products / squares : 0;
}
