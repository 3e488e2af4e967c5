import type { Elementary } from '../Quantity.js';
import { cosineOf, exponentialOf, logarithmOf, powerOf, sineOf } from './elementary.js';
import type { Affine, ChebyshevSeries } from './Program.js';

/**
 * What one step does to a whole block. Each is one plain loop over typed arrays of one length, which compilers turn
 * into good machine code; the order of the operations is fixed, so that the bits are too.
 */
type Block = Float64Array;

/** factors[0] + Σ factors[j + 1] · block j, two blocks a pass. */
export function linear(out: Block, blocks: readonly Block[], factors: Float64Array): void {
  let i = 0;
  if (blocks.length < 2) out.fill(factors[0]!);
  else {
    pair(out, factors[0]!, blocks[0]!, factors[1]!, blocks[1]!, factors[2]!);
    i = 2;
  }
  for (; i + 2 <= blocks.length; i += 2)
    addPair(out, blocks[i]!, factors[i + 1]!, blocks[i + 1]!, factors[i + 2]!);
  if (i === blocks.length) return;
  const a = blocks[i]!;
  const p = factors[i + 1]!;
  for (let k = 0; k < out.length; k++) out[k]! += p * a[k]!;
}

// Four trials a round: compilers fetch the places of the arrays anew in each round, which costs more than the sum.

function pair(out: Block, constant: number, a: Block, p: number, b: Block, q: number): void {
  for (let k = 0; k < out.length; k += 4) {
    out[k] = constant + p * a[k]! + q * b[k]!;
    out[k + 1] = constant + p * a[k + 1]! + q * b[k + 1]!;
    out[k + 2] = constant + p * a[k + 2]! + q * b[k + 2]!;
    out[k + 3] = constant + p * a[k + 3]! + q * b[k + 3]!;
  }
}

function addPair(out: Block, a: Block, p: number, b: Block, q: number): void {
  for (let k = 0; k < out.length; k += 4) {
    out[k]! += p * a[k]! + q * b[k]!;
    out[k + 1]! += p * a[k + 1]! + q * b[k + 1]!;
    out[k + 2]! += p * a[k + 2]! + q * b[k + 2]!;
    out[k + 3]! += p * a[k + 3]! + q * b[k + 3]!;
  }
}

export function multiply(out: Block, a: Affine, x: Block, b: Affine, y: Block): void {
  const { offset: p, factor: q } = a;
  const { offset: r, factor: s } = b;
  for (let k = 0; k < out.length; k += 4) {
    out[k] = (p + q * x[k]!) * (r + s * y[k]!);
    out[k + 1] = (p + q * x[k + 1]!) * (r + s * y[k + 1]!);
    out[k + 2] = (p + q * x[k + 2]!) * (r + s * y[k + 2]!);
    out[k + 3] = (p + q * x[k + 3]!) * (r + s * y[k + 3]!);
  }
}

export function divide(out: Block, a: Affine, x: Block, b: Affine, y: Block): void {
  const { offset: p, factor: q } = a;
  const { offset: r, factor: s } = b;
  for (let k = 0; k < out.length; k += 4) {
    out[k] = (p + q * x[k]!) / (r + s * y[k]!);
    out[k + 1] = (p + q * x[k + 1]!) / (r + s * y[k + 1]!);
    out[k + 2] = (p + q * x[k + 2]!) / (r + s * y[k + 2]!);
    out[k + 3] = (p + q * x[k + 3]!) / (r + s * y[k + 3]!);
  }
}

export function power(out: Block, a: Affine, x: Block, exponent: number): void {
  const { offset: p, factor: q } = a;
  if (exponent === 2) {
    for (let k = 0; k < out.length; k++) {
      const base = p + q * x[k]!;
      out[k] = base * base;
    }
    return;
  }
  for (let k = 0; k < out.length; k++) out[k] = powerOf(p + q * x[k]!, exponent);
}

const functions: Record<Elementary, (x: number) => number> = {
  cosine: cosineOf,
  sine: sineOf,
  exponential: exponentialOf,
  logarithm: logarithmOf,
};

export function elementary(out: Block, a: Affine, x: Block, name: Elementary): void {
  const f = functions[name];
  for (let k = 0; k < out.length; k++) out[k] = f(a.offset + a.factor * x[k]!);
}

/** Σ c_i z^i by Horner's rule. */
export function polynomialAt(coefficients: Float64Array, z: number): number {
  let sum = 0;
  for (let i = coefficients.length - 1; i >= 0; i--) sum = sum * z + coefficients[i]!;
  return sum;
}

/** The polynomial of a block, four trials side by side: their chains of operations don't wait for each other. */
export function series(out: Block, a: Affine, x: Block, of: ChebyshevSeries): void {
  const { coefficients } = of;
  const degree = coefficients.length - 1;
  const top = coefficients[degree] as number;
  const toUnit = 2 / (of.high - of.low);
  const offset = (a.offset - of.low) * toUnit - 1;
  const factor = a.factor * toUnit;
  for (let k = 0; k < out.length; k += 4) {
    const z0 = offset + factor * x[k]!;
    const z1 = offset + factor * x[k + 1]!;
    const z2 = offset + factor * x[k + 2]!;
    const z3 = offset + factor * x[k + 3]!;
    let s0 = top;
    let s1 = top;
    let s2 = top;
    let s3 = top;
    for (let i = degree - 1; i >= 0; i--) {
      const c = coefficients[i]!;
      s0 = s0 * z0 + c;
      s1 = s1 * z1 + c;
      s2 = s2 * z2 + c;
      s3 = s3 * z3 + c;
    }
    out[k] = s0;
    out[k + 1] = s1;
    out[k + 2] = s2;
    out[k + 3] = s3;
  }
  for (let k = 0; k < out.length; k++) {
    const z = offset + factor * x[k]!;
    if (Math.abs(z) <= 1) continue;
    const end = Math.sign(z);
    const slope = z > 0 ? of.slopeAtHigh : of.slopeAtLow;
    out[k] = polynomialAt(coefficients, end) + ((z - end) / toUnit) * slope;
  }
}

export function call(
  out: Block,
  inputs: readonly Affine[],
  blocks: readonly Block[],
  evaluate: (inputs: readonly number[]) => number,
): void {
  for (let k = 0; k < out.length; k++)
    out[k] = evaluate(inputs.map((input, j) => input.offset + input.factor * blocks[j]![k]!));
}
