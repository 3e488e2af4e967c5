import type { Elementary } from '../Quantity.js';
import { cosineOf, exponentialOf, logarithmOf, powerOf, sineOf } from './elementary.js';
import type { Affine, ChebyshevSeries } from './Program.js';

/**
 * What one step does to a whole block. Each is one plain loop over typed arrays of one length, which compilers turn
 * into good machine code; the order of the operations is fixed, so that the bits are too.
 */
type Block = Float64Array;

/** factors[0] + Σ factors[j + 1] · block j: the first up to four blocks in one pass, the others two a pass. */
export function linear(out: Block, blocks: readonly Block[], factors: Float64Array): void {
  let i = start(out, blocks, factors);
  for (; i + 2 <= blocks.length; i += 2) {
    const [a, b] = [blocks[i] as Block, blocks[i + 1] as Block];
    const [p, q] = [factors[i + 1]!, factors[i + 2]!];
    for (let k = 0; k < out.length; k++) out[k]! += p * a[k]! + q * b[k]!;
  }
  if (i === blocks.length) return;
  const a = blocks[i] as Block;
  const p = factors[i + 1]!;
  for (let k = 0; k < out.length; k++) out[k]! += p * a[k]!;
}

/** The first pass of `linear`; says how many blocks it took. */
function start(out: Block, blocks: readonly Block[], factors: Float64Array): number {
  const [a, b, c, d] = blocks as [Block, Block?, Block?, Block?];
  const constant = factors[0]!;
  if (!a) {
    out.fill(constant);
    return 0;
  }
  const p = factors[1]!;
  if (!b) {
    for (let k = 0; k < out.length; k++) out[k] = constant + p * a[k]!;
    return 1;
  }
  const q = factors[2]!;
  if (!c) {
    for (let k = 0; k < out.length; k++) out[k] = constant + p * a[k]! + q * b[k]!;
    return 2;
  }
  const r = factors[3]!;
  if (!d) {
    for (let k = 0; k < out.length; k++) out[k] = constant + p * a[k]! + q * b[k]! + r * c[k]!;
    return 3;
  }
  const s = factors[4]!;
  for (let k = 0; k < out.length; k++) out[k] = constant + p * a[k]! + q * b[k]! + (r * c[k]! + s * d[k]!);
  return 4;
}

export function multiply(out: Block, a: Affine, x: Block, b: Affine, y: Block): void {
  const { offset: p, factor: q } = a;
  const { offset: r, factor: s } = b;
  for (let k = 0; k < out.length; k++) out[k] = (p + q * x[k]!) * (r + s * y[k]!);
}

export function divide(out: Block, a: Affine, x: Block, b: Affine, y: Block): void {
  const { offset: p, factor: q } = a;
  const { offset: r, factor: s } = b;
  for (let k = 0; k < out.length; k++) out[k] = (p + q * x[k]!) / (r + s * y[k]!);
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
  const unit = (k: number) => Math.min(1, Math.max(-1, offset + factor * x[k]!));
  for (let k = 0; k < out.length; k += 4) {
    const z0 = unit(k);
    const z1 = unit(k + 1);
    const z2 = unit(k + 2);
    const z3 = unit(k + 3);
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
    if (z > 1) out[k]! += ((z - 1) / toUnit) * of.slopeAtHigh;
    else if (z < -1) out[k]! += ((z + 1) / toUnit) * of.slopeAtLow;
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
