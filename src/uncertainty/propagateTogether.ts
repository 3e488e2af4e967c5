import { problem } from '../errors/index.js';
import { covarianceOf } from './combined.js';
import { correlationMatrix } from './correlationMatrix.js';
import { type Propagated, propagate } from './propagate.js';
import type { Quantity } from './Quantity.js';
import { sensitivities } from './sensitivities.js';

/** Several results with what they share. */
export interface PropagatedTogether {
  readonly results: readonly Propagated[];
  readonly covariance: readonly (readonly number[])[];
  /** Null beside a result without doubt. */
  readonly correlation: readonly (readonly (number | null)[])[];
}

/**
 * First-order propagation of several quantities over the same sources, with their covariance and correlation:
 * u(y_k, y_l) = Σ c_ki c_li u_i² over the sources, and the same with the covariance matrix of a correlated group
 * (JCGM 100 H.2.3, equation (H.9), from memory).
 *
 * Throws `coverage-bad`, `source-clash`, and `no-quantities` for an empty list.
 *
 * @example
 * const offset = errorOf(source({ id: 'o', name: 'offset', standardUncertainty: 0.3 }));
 * const drift = errorOf(source({ id: 'd', name: 'drift', standardUncertainty: 0.4 }));
 * propagateTogether([add(constant(20), offset), add(constant(60), offset, drift)]).correlation[0][1] // => 0.6
 */
export function propagateTogether(
  quantities: readonly Quantity[],
  options: { readonly coverage?: number } = {},
): PropagatedTogether {
  if (quantities.length === 0) throw problem('no-quantities', { what: 'Propagation' });
  const results = quantities.map((quantity) => propagate(quantity, options));
  const parts = quantities.map(sensitivities);
  checkClashes(parts.flat());
  const covariance = parts.map((first) => parts.map((second) => covarianceOf(first, second)));
  return { results, covariance, correlation: correlationMatrix(covariance) };
}

/** One id is one source over all the quantities, too. */
function checkClashes(parts: readonly { readonly source: { readonly id: string } }[]): void {
  const byId = new Map<string, unknown>();
  for (const { source } of parts) {
    if (byId.has(source.id) && byId.get(source.id) !== source)
      throw problem('source-clash', { id: source.id });
    byId.set(source.id, source);
  }
}
