/**
 * Inverse of JᵀJ for a few columns (Jacobian column by column), with the columns scaled to length 1 first; null where they
 * cannot be told apart. For start values and sensitivities, where seven digits are plenty; fits go another way.
 */
export function inverseNormal(columns: readonly Float64Array[]): number[][] | null {
  const p = columns.length;
  const lengths = columns.map((column) => Math.sqrt(dot(column, column)));
  const lower = columns.map(() => new Array<number>(p).fill(0));
  for (let i = 0; i < p; i += 1)
    for (let j = 0; j <= i; j += 1) {
      let sum = dot(columns[i]!, columns[j]!) / (lengths[i]! * lengths[j]!);
      for (let k = 0; k < j; k += 1) sum -= lower[i]![k]! * lower[j]![k]!;
      if (i !== j) lower[i]![j] = sum / lower[j]![j]!;
      else if (sum > 1e-14) lower[i]![i] = Math.sqrt(sum);
      else return null;
    }
  const inverse = columns.map(() => new Array<number>(p).fill(0));
  for (let i = 0; i < p; i += 1)
    for (let j = 0; j <= i; j += 1) {
      let sum = i === j ? 1 : 0;
      for (let k = j; k < i; k += 1) sum -= lower[i]![k]! * inverse[k]![j]!;
      inverse[i]![j] = sum / lower[i]![i]!;
    }
  return columns.map((_, i) =>
    columns.map((_, j) => {
      let sum = 0;
      for (let k = Math.max(i, j); k < p; k += 1) sum += inverse[k]![i]! * inverse[k]![j]!;
      return sum / (lengths[i]! * lengths[j]!);
    }),
  );
}

/** Solution of the least-squares problem J·x ≈ y; null where the columns cannot be told apart. */
export function solveNormal(columns: readonly Float64Array[], y: Float64Array): number[] | null {
  const inverse = inverseNormal(columns);
  if (inverse === null) return null;
  const moments = columns.map((column) => dot(column, y));
  return inverse.map((row) => row.reduce((sum, value, j) => sum + value * moments[j]!, 0));
}

/** Columns of a Jacobian that lies column by column. */
export function columnsOf(jacobian: Float64Array, points: number): Float64Array[] {
  return Array.from({ length: jacobian.length / points }, (_, j) =>
    jacobian.subarray(j * points, (j + 1) * points),
  );
}

function dot(a: Float64Array, b: Float64Array): number {
  let sum = 0;
  for (let i = 0; i < a.length; i += 1) sum += a[i]! * b[i]!;
  return sum;
}
