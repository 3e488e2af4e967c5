/** A matrix of `rows` × `columns`, column by column, turned into reflections below and R above the diagonal. */
export interface Triangularised {
  /** R, column by column, columns × columns; zeros below the diagonal. */
  readonly r: Float64Array;
  /** Turns the vector into Qᵀ·vector. */
  reflect(vector: Float64Array): void;
  /** Turns the vector into Q·vector. */
  unreflect(vector: Float64Array): void;
}

/**
 * Householder QR in place, at least as many rows as columns. Source: G. H. Golub, Numer. Math. 7 (1965) 206.
 */
export function triangularise(a: Float64Array, rows: number, columns: number): Triangularised {
  const halves = new Float64Array(columns);
  const r = new Float64Array(columns * columns);
  for (let k = 0; k < columns; k += 1) {
    const column = a.subarray(k * rows, (k + 1) * rows);
    let squares = 0;
    for (let i = k; i < rows; i += 1) squares += column[i]! ** 2;
    const norm = Math.sqrt(squares);
    const diagonal = column[k]! > 0 ? -norm : norm;
    for (let i = 0; i < k; i += 1) r[k * columns + i] = column[i]!;
    r[k * columns + k] = diagonal;
    column[k]! -= diagonal;
    halves[k] = norm * (norm + Math.abs(column[k]! + diagonal));
    for (let j = k + 1; j < columns; j += 1)
      mirror(column, halves[k]!, a.subarray(j * rows, (j + 1) * rows), k);
  }
  return {
    r,
    reflect(vector) {
      for (let k = 0; k < columns; k += 1)
        mirror(a.subarray(k * rows, (k + 1) * rows), halves[k]!, vector, k);
    },
    unreflect(vector) {
      for (let k = columns - 1; k >= 0; k -= 1)
        mirror(a.subarray(k * rows, (k + 1) * rows), halves[k]!, vector, k);
    },
  };
}

/** target − v·(v·target)/half from row `from` on, in place. */
function mirror(v: Float64Array, half: number, target: Float64Array, from: number): void {
  if (!(half > 0)) return;
  let sum = 0;
  for (let i = from; i < v.length; i += 1) sum += v[i]! * target[i]!;
  const factor = sum / half;
  for (let i = from; i < v.length; i += 1) target[i]! -= factor * v[i]!;
}
