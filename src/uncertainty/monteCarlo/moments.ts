/** Mean and standard deviation of a sample: JCGM 101 7.6, equations (16) and (17). Two passes, four sums side by side. */
export function moments(values: Float64Array): { mean: number; deviation: number } {
  const mean = sumOf(values, (value) => value) / values.length;
  const squares = sumOf(values, (value) => (value - mean) * (value - mean));
  return { mean, deviation: Math.sqrt(squares / (values.length - 1)) };
}

function sumOf(values: Float64Array, of: (value: number) => number): number {
  let [a, b, c, d] = [0, 0, 0, 0];
  let i = 0;
  for (; i + 4 <= values.length; i += 4) {
    a += of(values[i]!);
    b += of(values[i + 1]!);
    c += of(values[i + 2]!);
    d += of(values[i + 3]!);
  }
  for (; i < values.length; i++) a += of(values[i]!);
  return a + b + (c + d);
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
      let sum = 0;
      for (let k = 0; k < first.length; k++) sum += (first[k]! - means[i]!) * (second[k]! - means[j]!);
      return sum / (first.length - 1);
    }),
  );
}
