/** Mean and standard deviation of a sample: JCGM 101 7.6, equations (16) and (17). Two passes, four sums side by side. */
export function moments(values: Float64Array): { mean: number; deviation: number } {
  const mean = sum(values) / values.length;
  return { mean, deviation: Math.sqrt(sumOfSquares(values, mean) / (values.length - 1)) };
}

function sum(values: Float64Array): number {
  let [a, b, c, d] = [0, 0, 0, 0];
  let i = 0;
  for (; i + 4 <= values.length; i += 4) {
    a += values[i]!;
    b += values[i + 1]!;
    c += values[i + 2]!;
    d += values[i + 3]!;
  }
  for (; i < values.length; i++) a += values[i]!;
  return a + b + (c + d);
}

function sumOfSquares(values: Float64Array, about: number): number {
  let [a, b] = [0, 0];
  let i = 0;
  for (; i + 2 <= values.length; i += 2) {
    const [x, y] = [values[i]! - about, values[i + 1]! - about];
    a += x * x;
    b += y * y;
  }
  for (; i < values.length; i++) a += (values[i]! - about) ** 2;
  return a + b;
}

/** How many of the values are no finite numbers. */
export function failures(values: Float64Array): number {
  let count = 0;
  for (const value of values) if (!Number.isFinite(value)) count++;
  return count;
}

/** Sample covariance matrix of several outputs. */
export function covariances(samples: readonly Float64Array[], means: readonly number[]): number[][] {
  return samples.map((first, i) =>
    samples.map((second, j) => {
      const [m, n] = [means[i]!, means[j]!];
      let total = 0;
      for (let k = 0; k < first.length; k++) total += (first[k]! - m) * (second[k]! - n);
      return total / (first.length - 1);
    }),
  );
}
