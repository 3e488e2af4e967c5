import type { FitResult } from './FitResult.js';
import type { FitOptions, Problem } from './Problem.js';
import { checkOptions } from './solver/checkOptions.js';
import { resultOf } from './solver/resultOf.js';
import { search } from './solver/search.js';

/**
 * Nonlinear least squares for a model that fills whole arrays: the parameters p at which Σ w·(y − f(p))² is smallest.
 *
 * Levenberg–Marquardt in a trust region (J. J. Moré, LNM 630 (1978) 105) with geodesic acceleration (M. K. Transtrum,
 * J. P. Sethna, arXiv:1201.5885 (2012)): Householder QR of the weighted Jacobian, then the singular values of its small
 * triangular factor, so that nothing is squared. It stops by the relative offset (D. M. Bates, D. G. Watts,
 * Technometrics 23 (1981) 179), which knows no units, and then takes undamped steps for as long as they help.
 * Parameters named `linear` are eliminated (variable projection: G. H. Golub, V. Pereyra, SIAM J. Numer. Anal. 10 (1973)
 * 413; the Jacobian of L. Kaufman, BIT 15 (1975) 49).
 *
 * Covariance s²(JᵀWJ)⁻¹ with s² = Σw(y − fit)²/(n − p), in the units of the parameters; null, with the reason, where the fit did
 * not converge, a parameter is undetermined, lies on a bound, or no degrees of freedom are left.
 *
 * A descent that finds no optimum, or one at which a parameter is undetermined, is followed by others from the same other
 * starts every time (`restarts` counts them). A hard problem is no error: `converged`, `stopCode` and `stopReason` say what
 * came of it. Only the optimum nearest to a start is looked for, not the lowest of all.
 *
 * @throws `lengths-differ`, `value-not-finite`, `fit-input-bad` (sizes, weights, bounds, start, linear),
 * `fit-fewer-points`, `fit-start-undefined` (the model has no value at the start)
 * @example
 * // y = a·exp(−k·t) at t = 0, 1, 2, with its derivatives column by column.
 * const decay = {
 *   points: 3,
 *   parameters: 2,
 *   names: ['a', 'k'],
 *   evaluate([a, k], predicted, jacobian) {
 *     for (let t = 0; t < 3; t += 1) {
 *       predicted[t] = a * Math.exp(-k * t);
 *       if (jacobian === null) continue;
 *       jacobian[t] = Math.exp(-k * t);
 *       jacobian[3 + t] = -t * predicted[t];
 *     }
 *   },
 * };
 * const fitted = fitProblem(decay, { y: [4, 2, 1], start: [1, 1] });
 * fitted.parameters // => [4.00000, 0.69315]
 * fitted.stopCode // => 'exact'
 */
export function fitProblem(problem: Problem, options: FitOptions): FitResult {
  const task = checkOptions(problem, options);
  const { descent, restarts } = search(task, options.restart ?? true);
  return resultOf(task, descent, restarts);
}
