import type { Elementary } from '../Quantity.js';
import { cosineOf, exponentialOf, logarithmOf, powerOf, sineOf } from './elementary.js';
import type { Affine, ChebyshevSeries } from './Program.js';

/**
 * What one step does to a whole block. Each is one plain loop over typed arrays of one length, which compilers turn
 * into good machine code; the order of the operations is fixed, so that the bits are too.
 */
type Block = Float64Array;

/** constant + Σ factor · block: the first up to four blocks in one pass, the others two a pass. */
export function linear(
  out: Block,
  constant: number,
  blocks: readonly Block[],
  factors: readonly number[],
): void {
  let i = start(out, constant, blocks, factors);
  for (; i + 2 <= blocks.length; i += 2) {
    const [a, b] = [blocks[i] as Block, blocks[i + 1] as Block];
    const [p, q] = [factors[i] as number, factors[i + 1] as number];
    for (let k = 0; k < out.length; k++) out[k]! += p * a[k]! + q * b[k]!;
  }
  if (i === blocks.length) return;
  const a = blocks[i] as Block;
  const p = factors[i] as number;
  for (let k = 0; k < out.length; k++) out[k]! += p * a[k]!;
}

/** The first pass of `linear`; says how many blocks it took. */
function start(out: Block, constant: number, blocks: readonly Block[], factors: readonly number[]): number {
  const [a, b, c, d] = blocks as [Block, Block?, Block?, Block?];
  const [p = 0, q = 0, r = 0, s = 0] = factors;
  if (blocks.length === 0) {
    out.fill(constant);
  } else if (d && c && b) {
    for (let k = 0; k < out.length; k++) out[k] = constant + p * a[k]! + q * b[k]! + (r * c[k]! + s * d[k]!);
  } else if (c && b) {
    for (let k = 0; k < out.length; k++) out[k] = constant + p * a[k]! + q * b[k]! + r * c[k]!;
  } else if (b) {
    for (let k = 0; k < out.length; k++) out[k] = constant + p * a[k]! + q * b[k]!;
  } else {
    for (let k = 0; k < out.length; k++) out[k] = constant + p * a[k]!;
  }
  return Math.min(4, blocks.length);
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
export function polynomialAt(coefficients: ArrayLike<number>, z: number): number {
  let sum = 0;
  for (let i = coefficients.length - 1; i >= 0; i--) sum = sum * z + (coefficients[i] as number);
  return sum;
}

export function series(out: Block, a: Affine, x: Block, of: ChebyshevSeries): void {
  const { low, high, slopeAtLow, slopeAtHigh } = of;
  const coefficients = Float64Array.from(of.coefficients);
  const degree = coefficients.length - 1;
  const top = coefficients[degree] as number;
  const toUnit = 2 / (high - low);
  const offset = (a.offset - low) * toUnit - 1;
  const factor = a.factor * toUnit;
  for (let k = 0; k < out.length; k++) {
    const z = offset + factor * x[k]!;
    const inside = Math.min(1, Math.max(-1, z));
    let sum = top;
    for (let i = degree - 1; i >= 0; i--) sum = sum * inside + coefficients[i]!;
    if (z !== inside) sum += ((z - inside) / toUnit) * (z > 1 ? slopeAtHigh : slopeAtLow);
    out[k] = sum;
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
