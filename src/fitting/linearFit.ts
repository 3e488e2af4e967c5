import { problem } from '../errors/index.js';
import type { FitResult } from './FitResult.js';
import type { Problem } from './Problem.js';
import { finiteCopy } from './solver/checkArrays.js';
import { checkOptions } from './solver/checkOptions.js';
import { covarianceAt } from './solver/covariance.js';
import { descend } from './solver/descend.js';
import { pointAt } from './solver/pointAt.js';
import { refineLinear } from './solver/refineLinear.js';
import { resultOf } from './solver/resultOf.js';

/** A linear model and its data. */
export interface LinearFitInput {
  /** One list a parameter, one entry a point: what stands beside the parameter in y = Σ b_j·columns[j]. */
  readonly columns: readonly (readonly number[])[];
  readonly y: readonly number[];
  /** Relative weights in proportion to 1/u²(y), none below zero; all 1 where left out. */
  readonly weights?: readonly number[];
  /** Names of the parameters; b1, b2, ... where left out. */
  readonly names?: readonly string[];
}

/**
 * Linear least squares with any columns (multiple regression): the b for which Σ w·(y − Σ b_j·columns[j])² is smallest, in
 * units of y over those of the column. A constant is a column of ones.
 *
 * Householder QR (G. H. Golub, Numer. Math. 7 (1965) 206) of scaled columns, refined with residuals of twice the digits
 * (Å. Björck, BIT 7 (1967) 257); covariance s²(XᵀWX)⁻¹, s² = Σw(y − fit)²/(n − p). Columns that are combinations of others are reported, not thrown. For
 * polynomials `fitPolynomial` is more exact where powers are rounded, as it shifts x. Checked against NIST StRD.
 *
 * @throws `lengths-differ`, `value-not-finite`, `fit-input-bad` (weights, no columns), `fit-fewer-points`
 * @example
 * const plane = linearFit({ columns: [[1, 1, 1, 1], [0, 1, 0, 1], [0, 0, 1, 1]], y: [1, 3, 4, 6.4] });
 * plane.parameters // => [0.9, 2.2, 3.2]
 * plane.standardErrors // => [0.17, 0.2, 0.2]
 */
export function linearFit({ columns, y, weights, names: given }: LinearFitInput): FitResult {
  const names = given ?? columns.map((_, j) => `b${j + 1}`);
  if (columns.length === 0)
    throw problem('fit-input-bad', { what: 'The number of columns', expected: 'one or more', got: '0' });
  const checked = columns.map((column, j) =>
    finiteCopy(`column ${j + 1}`, `Column ${j + 1}, point`, column, y.length, 'y'),
  );
  const task = checkOptions(modelOf(checked, names, y.length), {
    y,
    ...(weights ? { weights } : {}),
    start: columns.map(() => 0),
    linear: [...columns.keys()],
  });
  const solved = descend(task, task.start);
  if (covarianceAt(task, solved, []).stuck !== null) return resultOf(task, solved, 0);
  const weighted = (column: Float64Array) => column.map((value, i) => value * (task.rootWeights?.[i] ?? 1));
  const best = refineLinear(checked.map(weighted), weighted(task.y), solved.point.p);
  return resultOf(task, { ...solved, point: pointAt(task, best, null) }, 0);
}

function modelOf(columns: readonly Float64Array[], names: readonly string[], points: number): Problem {
  return {
    points,
    parameters: columns.length,
    names,
    evaluate: (b, predicted, jacobian) => {
      predicted.fill(0);
      columns.forEach((column, j) => {
        for (let i = 0; i < points; i += 1) predicted[i]! += b[j]! * column[i]!;
        jacobian?.set(column, j * points);
      });
    },
  };
}
