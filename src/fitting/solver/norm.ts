/** Euclidean length. */
export function norm(vector: ArrayLike<number>): number {
  return Math.sqrt(dot(vector, vector));
}

/** Sum of the products of two lists of the same length. */
export function dot(a: ArrayLike<number>, b: ArrayLike<number>): number {
  let sum = 0;
  for (let i = 0; i < a.length; i += 1) sum += a[i]! * b[i]!;
  return sum;
}
