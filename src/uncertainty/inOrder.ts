import type { Quantity } from './Quantity.js';

/** Every node below the given ones, once, inputs before those that use them; iterative, since a graph may be deep. */
export function inOrder(tops: readonly Quantity[]): Quantity[] {
  const order: Quantity[] = [];
  const seen = new Set<Quantity>();
  const stack: { node: Quantity; entered: boolean }[] = [];
  for (const top of [...tops].reverse()) stack.push({ node: top, entered: false });
  for (let item = stack.pop(); item; item = stack.pop()) {
    if (item.entered) {
      order.push(item.node);
    } else if (!seen.has(item.node)) {
      seen.add(item.node);
      stack.push({ node: item.node, entered: true });
      for (const input of item.node.inputs) if (!seen.has(input)) stack.push({ node: input, entered: false });
    }
  }
  return order;
}
