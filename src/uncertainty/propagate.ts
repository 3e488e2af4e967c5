import { problem } from '../errors/index.js';
import { coverageFactor as factorOf, welchSatterthwaite } from '../statistics/index.js';
import { combined } from './combined.js';
import type { Quantity } from './Quantity.js';
import type { Source } from './Source.js';

/** One line of an uncertainty budget. */
export interface BudgetRow {
  readonly source: Source;
  /** Derivative of the result by the source's error. */
  readonly sensitivity: number;
  /** |sensitivity| times standard uncertainty, in the unit of the result. */
  readonly contribution: number;
  /** Part of the combined variance, 0 to 1; with correlated errors their shares may exceed 1 and that of their correlation be negative. */
  readonly share: number;
  /** Only in the row of the correlation terms of a group: the names they stand between. Its source is no single error. */
  readonly correlationOf?: readonly string[];
}

/** A result with all that is known about its doubt. */
export interface Propagated {
  readonly value: number;
  /** Combined standard uncertainty. */
  readonly standardUncertainty: number;
  /** Effective degrees of freedom; Infinity where no source is limited. */
  readonly degreesOfFreedom: number;
  readonly coverage: number;
  readonly coverageFactor: number;
  readonly expandedUncertainty: number;
  readonly interval: readonly [number, number];
  /** Sorted, the biggest doubt first. */
  readonly budget: readonly BudgetRow[];
}

/**
 * First-order propagation of uncertainty over an expression graph: JCGM 100 5.1.2 with independent sources (what is
 * correlated shares a source), effective degrees of freedom by Welch and Satterthwaite (G.4), the coverage factor
 * from the t distribution (G.3). A group made by `correlatedErrors` gives cᵀΣc (5.2.2) and counts as one component; in the
 * budget its members have a row each, and what their correlation adds or takes away has one more.
 *
 * Throws `coverage-bad` unless 0 < coverage < 1.
 *
 * @example
 * const gain = errorOf(source({ id: 'g', name: 'gain', halfWidth: 0.02 }));
 * const energy = multiply(constant(500), add(constant(1), gain));
 * propagate(energy).standardUncertainty // => 5.7735
 * propagate(energy, { coverage: 0.95 }).coverageFactor // => 1.95996
 */
export function propagate(quantity: Quantity, options: { readonly coverage?: number } = {}): Propagated {
  const coverage = options.coverage ?? 0.95;
  if (!(coverage > 0 && coverage < 1)) throw problem('coverage-bad', { got: String(coverage) });
  const { components, rows } = combined(quantity);
  const variance = components.reduce((sum, { u }) => sum + u ** 2, 0);
  const u = Math.sqrt(variance);
  const degreesOfFreedom = variance === 0 ? Number.POSITIVE_INFINITY : welchSatterthwaite(components);
  const k = factorOf(coverage, degreesOfFreedom);
  const budget = rows
    .map(({ variance: part, ...row }) => ({ ...row, share: variance === 0 ? 0 : part / variance }))
    .sort((a, b) => b.contribution - a.contribution || (a.source.id < b.source.id ? -1 : 1));
  return {
    value: quantity.value,
    standardUncertainty: u,
    degreesOfFreedom,
    coverage,
    coverageFactor: k,
    expandedUncertainty: k * u,
    interval: [quantity.value - k * u, quantity.value + k * u],
    budget,
  };
}
