import { createHash } from 'node:crypto';

/**
 * The numbers 0 to n − 1 in a random order that a seed fixes: sorted by the SHA-256 of seed and number, so that
 * anybody can check the draw by hand.
 *
 * @example
 * randomOrder(3, 'dairy').sort() // => [0, 1, 2]
 */
export function randomOrder(n: number, seed: string): number[] {
  const keys = Array.from({ length: n }, (_, i) => ({
    i,
    key: createHash('sha256').update(`${seed}/${i}`).digest('hex'),
  }));
  return keys.sort((a, b) => (a.key < b.key ? -1 : 1)).map(({ i }) => i);
}
