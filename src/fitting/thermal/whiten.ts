import type { Problem } from '../Problem.js';

/**
 * Takes the autocorrelation of a first-order autoregressive error out of a series, in place: Prais and Winsten's
 * transformation. The first value times √(1 − ρ²), the others y_t − ρ·y_(t−1); after a gap of g blocks
 * (y_t − ρᵍ·y_(t−g))·√((1 − ρ²)/(1 − ρ²ᵍ)), which is the same for g = 1.
 */
export function whiten(values: Float64Array, gaps: Int32Array, rho: number): void {
  for (let k = values.length - 1; k > 0; k -= 1) {
    const gap = gaps[k]!;
    values[k]! -= (gap === 1 ? rho : rho ** gap) * values[k - 1]!;
    if (gap > 1) values[k]! *= Math.sqrt((1 - rho * rho) / (1 - rho ** (2 * gap)));
  }
  if (values.length > 0) values[0]! *= Math.sqrt(1 - rho * rho);
}

/** The same problem with its autocorrelation taken out. */
export function whitenedProblem(problem: Problem, gaps: Int32Array, rho: number): Problem {
  const { points, parameters } = problem;
  return {
    ...problem,
    evaluate: (at, predicted, jacobian) => {
      problem.evaluate(at, predicted, jacobian);
      whiten(predicted, gaps, rho);
      for (let j = 0; jacobian !== null && j < parameters; j += 1)
        whiten(jacobian.subarray(j * points, (j + 1) * points), gaps, rho);
    },
  };
}
