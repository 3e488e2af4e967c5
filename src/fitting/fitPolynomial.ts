import { checkPoints } from './checkPoints.js';
import type { FitResult } from './FitResult.js';
import { type LeastSquares, leastSquares } from './householder.js';

/** Points of a polynomial fit. */
export interface PolynomialPoints {
  readonly x: readonly number[];
  readonly y: readonly number[];
  /** Relative weights, in proportion to 1/u²(y); all 1 where left out. */
  readonly weights?: readonly number[];
  /** Highest power, 0 or more. */
  readonly degree: number;
}

/**
 * Least-squares polynomial y = b₀ + b₁x + ... + b_d·x^d; `parameters` are b₀ to b_d in units of y over powers of
 * the unit of x.
 *
 * Householder QR on x centred and scaled to ±1, the result expanded back; covariance s²(XᵀWX)⁻¹ with
 * s² = Σw(y − fit)²/(n − d − 1). Source: JCGM 100:2008, H.3 for the straight line; checked against NIST StRD.
 *
 * @throws `lengths-differ`, `value-not-finite`, `fit-input-bad` (degree, weights), `fit-too-few-points`
 * @example
 * const fit = fitPolynomial({ x: [0, 1, 2, 3], y: [1, 3, 5, 8], degree: 1 });
 * fit.parameters // => [0.8, 2.3]
 * fit.residualStandardDeviation // => 0.38730
 */
export function fitPolynomial({ x, y, weights, degree }: PolynomialPoints): FitResult {
  checkPoints(x, y, weights, degree);
  const low = x.reduce((a, b) => Math.min(a, b));
  const high = x.reduce((a, b) => Math.max(a, b));
  const centre = (low + high) / 2;
  const halfWidth = (high - low) / 2 || 1;
  const roots = weights?.map(Math.sqrt) ?? x.map(() => 1);
  const scaled = x.map((value) => (value - centre) / halfWidth);
  const columns = Array.from({ length: degree + 1 }, (_, power) =>
    scaled.map((z, i) => roots[i]! * z ** power),
  );
  const solved = leastSquares(
    columns,
    y.map((value, i) => roots[i]! * value),
  );
  const found = result(solved, expansion(degree, centre, halfWidth), x.length - degree - 1);
  const height = (z: number) => solved.solution.reduceRight((sum, b) => sum * z + b, 0);
  return { ...found, residuals: y.map((value, i) => value - height(scaled[i]!)) };
}

function result(
  solved: LeastSquares,
  expand: number[][],
  degreesOfFreedom: number,
): Omit<FitResult, 'residuals'> {
  const { residualSumOfSquares, dependentColumn } = solved;
  const variance = degreesOfFreedom > 0 ? residualSumOfSquares / degreesOfFreedom : null;
  const why =
    dependentColumn !== null
      ? `x^${dependentColumn} cannot be told from the lower powers at these x`
      : variance === null
        ? 'as many parameters as points: no degrees of freedom are left'
        : null;
  const factor = expand.map((row) => multiply(transpose(solved.inverseR), row));
  const covariance =
    variance === null || why !== null ? null : factor.map((a) => factor.map((b) => variance * inner(a, b)));
  return {
    parameters: multiply(expand, solved.solution),
    names: expand.map((_, j) => `b${j}`),
    standardErrors: covariance?.map((row, j) => Math.sqrt(row[j]!)) ?? null,
    covariance,
    covarianceReason: why,
    stuckParameter: dependentColumn === null ? null : `b${dependentColumn}`,
    atBounds: [],
    residualSumOfSquares,
    residualStandardDeviation: variance === null ? null : Math.sqrt(variance),
    degreesOfFreedom,
    converged: dependentColumn === null,
    stopReason: dependentColumn === null ? 'solved in one step' : why!,
    stopCode: dependentColumn === null ? 'one-step' : 'undetermined',
    evaluations: 1,
    restarts: 0,
  };
}

/** Rows: what each power of (x − centre)/halfWidth adds to b₀ ... b_d, by the binomial theorem. */
function expansion(degree: number, centre: number, halfWidth: number): number[][] {
  const matrix = Array.from({ length: degree + 1 }, () => new Array<number>(degree + 1).fill(0));
  for (let power = 0; power <= degree; power += 1) {
    let binomial = 1;
    for (let j = power; j >= 0; j -= 1) {
      matrix[j]![power] = (binomial * (-centre) ** (power - j)) / halfWidth ** power;
      binomial = (binomial * j) / (power - j + 1);
    }
  }
  return matrix;
}

function inner(a: readonly number[], b: readonly number[]): number {
  return a.reduce((sum, value, i) => sum + value * b[i]!, 0);
}

function multiply(matrix: readonly (readonly number[])[], vector: readonly number[]): number[] {
  return matrix.map((row) => inner(row, vector));
}

function transpose(matrix: readonly (readonly number[])[]): number[][] {
  return matrix.map((_, i) => matrix.map((row) => row[i]!));
}
