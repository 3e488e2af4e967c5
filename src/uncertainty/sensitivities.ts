import { problem } from '../errors/index.js';
import { inOrder } from './inOrder.js';
import type { Quantity } from './Quantity.js';
import type { Source } from './Source.js';

export interface Sensitivity {
  readonly source: Source;
  /** Derivative of the quantity by the source's error. */
  readonly sensitivity: number;
}

/**
 * Derivative of a quantity by every source it rests on, by one backward walk over the graph (reverse-mode
 * differentiation). A source met on several roads is summed over them: this is where sharing becomes correlation.
 *
 * Throws `source-clash` when two different source objects carry one id.
 *
 * @example
 * const offset = errorOf(source({ id: 'o', name: 'offset', halfWidth: 0.5 }));
 * const rise = subtract(add(constant(60), offset), add(constant(20), offset));
 * sensitivities(rise)[0].sensitivity // => 0
 */
export function sensitivities(quantity: Quantity): Sensitivity[] {
  const order = inOrder([quantity]);
  const adjoint = new Map<Quantity, number>([[quantity, 1]]);
  const bySource = new Map<string, { source: Source; sensitivity: number }>();
  for (let i = order.length - 1; i >= 0; i--) {
    const node = order[i] as Quantity;
    const weight = adjoint.get(node) ?? 0;
    if (node.source) {
      const known = bySource.get(node.source.id);
      if (known && known.source !== node.source) throw problem('source-clash', { id: node.source.id });
      if (known) known.sensitivity += weight;
      else bySource.set(node.source.id, { source: node.source, sensitivity: weight });
    }
    for (let j = 0; j < node.inputs.length; j++) {
      const input = node.inputs[j] as Quantity;
      adjoint.set(input, (adjoint.get(input) ?? 0) + weight * (node.partials[j] as number));
    }
  }
  return [...bySource.values()];
}
