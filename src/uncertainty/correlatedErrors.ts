import { problem } from '../errors/index.js';
import { errorOf } from './arithmetic.js';
import { factorise } from './factorise.js';
import type { Quantity } from './Quantity.js';
import { type Scope, type Source, type SourceGroup, memberId } from './Source.js';

interface GroupSpec {
  /** Unique in an evaluation; a member is `id:name`. */
  readonly id: string;
  /** What a person reads in the budget, one for each error. */
  readonly names: readonly string[];
  /** Of the covariance as a whole; Infinity unless given, and the errors jointly normal. Finite: jointly t. */
  readonly degreesOfFreedom?: number;
  readonly scope?: Scope;
  readonly assumed?: boolean;
}

export type CorrelatedSpec = GroupSpec &
  (
    | { readonly covariance: readonly (readonly number[])[] }
    | {
        readonly correlation: readonly (readonly number[])[];
        readonly standardUncertainties: readonly number[];
      }
  );

/**
 * Errors that are correlated by what is known of them together, such as the parameters of a fit or means of readings
 * taken side by side: a group of jointly normal errors, each of mean zero, by its covariance matrix or by correlations
 * and standard uncertainties. With finite degrees of freedom they are jointly t, with that covariance matrix for scale.
 *
 * First order takes cᵀΣc (JCGM 100 5.2.2) and counts the group once in the effective degrees of freedom; Monte Carlo
 * draws L·z with Σ = L·Lᵀ (JCGM 101 6.4.8). A matrix of less than full rank is fine.
 *
 * Throws `names-repeat`, `covariance-shape`, `covariance-unknown` (an entry that is not a finite number),
 * `variance-negative`, `covariance-not-symmetric`, `correlation-diagonal`, `correlation-range`, `covariance-indefinite`
 * (naming the first error whose pivot is below zero), `uncertainty-unknown` and `degrees-of-freedom-bad`.
 *
 * @example
 * const [a, b] = correlatedErrors({ id: 'fit', names: ['intercept', 'slope'], covariance: [[4, -1.2], [-1.2, 1]] });
 * propagate(add(a, b)).standardUncertainty // => 1.6125
 * correlatedErrors({ id: 'r', names: ['x', 'y'], covariance: [[1, 2], [2, 1]] }) // throws 'covariance-indefinite'
 */
export function correlatedErrors(spec: CorrelatedSpec): Quantity[] {
  const { id, names } = spec;
  const repeated = names.find((name, index) => names.indexOf(name) < index);
  if (repeated !== undefined) throw problem('names-repeat', { group: id, name: repeated });
  const degreesOfFreedom = spec.degreesOfFreedom ?? Number.POSITIVE_INFINITY;
  if (!(degreesOfFreedom > 0)) {
    throw problem('degrees-of-freedom-bad', { source: id, got: String(degreesOfFreedom) });
  }
  const covariance =
    'covariance' in spec
      ? checkedMatrix(id, names, spec.covariance)
      : fromCorrelation(id, names, spec.correlation, spec.standardUncertainties);
  const factor = factorise(id, names, covariance);
  const group: SourceGroup = { id, names: [...names], covariance, factor, degreesOfFreedom };
  return names.map((name, index): Quantity => {
    const source: Source = {
      id: memberId(id, name),
      name,
      distribution: Number.isFinite(degreesOfFreedom) ? 't' : 'normal',
      standardUncertainty: Math.sqrt(covariance[index]?.[index] as number),
      degreesOfFreedom,
      scope: spec.scope ?? 'reading',
      assumed: spec.assumed ?? false,
      member: { group, index },
    };
    return errorOf(source);
  });
}

/** A copy of a matrix that is square, known and symmetric to within rounding. */
function checkedMatrix(
  group: string,
  names: readonly string[],
  matrix: readonly (readonly number[])[],
): number[][] {
  const n = names.length;
  if (matrix.length !== n || matrix.some((row) => row.length !== n)) {
    const got = `rows of ${matrix.map((row) => row.length).join(', ') || 'no'} numbers`;
    throw problem('covariance-shape', { group, expected: n, got });
  }
  return matrix.map((row, i) =>
    row.map((entry, j) => {
      const other = matrix[j]?.[i] as number;
      const place = { group, row: names[i] as string, column: names[j] as string };
      if (!Number.isFinite(entry)) throw problem('covariance-unknown', { ...place, got: String(entry) });
      if (i === j && entry < 0)
        throw problem('variance-negative', { group, name: place.row, got: String(entry) });
      const scale = Math.sqrt(Math.abs((matrix[i]?.[i] as number) * (matrix[j]?.[j] as number)));
      if (Math.abs(entry - other) > 1e-9 * Math.max(scale, Math.abs(entry)))
        throw problem('covariance-not-symmetric', { ...place, got: String(entry), other: String(other) });
      return (entry + other) / 2;
    }),
  );
}

function fromCorrelation(
  group: string,
  names: readonly string[],
  correlation: readonly (readonly number[])[],
  standardUncertainties: readonly number[],
): number[][] {
  if (standardUncertainties.length !== names.length) {
    const got = `${standardUncertainties.length} standard uncertainties`;
    throw problem('covariance-shape', { group, expected: names.length, got });
  }
  standardUncertainties.forEach((u, i) => {
    if (!(u >= 0 && u < Number.POSITIVE_INFINITY))
      throw problem('uncertainty-unknown', { source: names[i] as string, got: String(u) });
  });
  return checkedMatrix(group, names, correlation).map((row, i) =>
    row.map((entry, j) => {
      const name = names[i] as string;
      if (i === j && Math.abs(entry - 1) > 1e-9)
        throw problem('correlation-diagonal', { group, name, got: String(entry) });
      if (Math.abs(entry) > 1 + 1e-9) {
        const column = names[j] as string;
        throw problem('correlation-range', { group, row: name, column, got: String(entry) });
      }
      return entry * (standardUncertainties[i] as number) * (standardUncertainties[j] as number);
    }),
  );
}
