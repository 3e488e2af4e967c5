/** Mean and standard deviation of a sample: JCGM 101 7.6, equations (16) and (17). Two passes. */
export function moments(values: Float64Array): { mean: number; deviation: number } {
  const mean = sum(values) / values.length;
  return { mean, deviation: Math.sqrt(sumOfSquares(values, mean) / (values.length - 1)) };
}

function sum(values: Float64Array): number {
  let a = 0;
  let b = 0;
  const even = values.length & ~1;
  for (let i = 0; i < even; i += 2) {
    a += values[i]!;
    b += values[i + 1]!;
  }
  return even < values.length ? a + b + values[even]! : a + b;
}

function sumOfSquares(values: Float64Array, about: number): number {
  let a = 0;
  let b = 0;
  const even = values.length & ~1;
  for (let i = 0; i < even; i += 2) {
    const x = values[i]! - about;
    const y = values[i + 1]! - about;
    a += x * x;
    b += y * y;
  }
  return even < values.length ? a + b + (values[even]! - about) ** 2 : a + b;
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
