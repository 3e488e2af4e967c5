import { checkProbability } from './distributionArguments.js';

/**
 * p values adjusted for their number by Holm's step-down method, in the order given: rejecting those no larger than
 * α keeps the chance of even one false rejection at or below α, whatever the dependence between the tests.
 *
 * Formula: with p₍₁₎ <= ... <= p₍ₘ₎ the adjusted one is the largest of (m − j + 1)·p₍ⱼ₎ over j <= i, at most 1. Source:
 * S. Holm, Scand. J. Statist. 6 (1979) 65.
 *
 * @throws `probability-bad`
 * @example
 * holm([0.04, 0.01, 0.03]) // => [0.06, 0.03, 0.06]
 */
export function holm(pValues: readonly number[]): number[] {
  for (const p of pValues) checkProbability(p);
  const order = pValues.map((_, index) => index).sort((a, b) => pValues[a]! - pValues[b]!);
  const adjusted = new Array<number>(pValues.length);
  let largest = 0;
  order.forEach((index, place) => {
    largest = Math.max(largest, Math.min(1, (pValues.length - place) * pValues[index]!));
    adjusted[index] = largest;
  });
  return adjusted;
}
