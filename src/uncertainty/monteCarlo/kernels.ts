import type { Elementary } from '../Quantity.js';
import { cosineOf, exponentialOf, logarithmOf, powerOf, sineOf } from './elementary.js';
import type { Affine, ChebyshevSeries } from './Program.js';

/**
 * What one step does to a whole block. Each is one plain loop over typed arrays of one length, which compilers turn
 * into good machine code; the order of the operations is fixed, so that the bits are too.
 */
type Block = Float64Array;

/** constant + Σ factor · block, four blocks a pass. */
export function linear(
  out: Block,
  constant: number,
  blocks: readonly Block[],
  factors: readonly number[],
): void {
  const n = out.length;
  out.fill(constant);
  let i = 0;
  for (; i + 4 <= blocks.length; i += 4) {
    const [a, b, c, d] = blocks.slice(i, i + 4) as [Block, Block, Block, Block];
    const [p, q, r, s] = factors.slice(i, i + 4) as [number, number, number, number];
    for (let k = 0; k < n; k++) out[k]! += p * a[k]! + q * b[k]! + (r * c[k]! + s * d[k]!);
  }
  for (; i + 2 <= blocks.length; i += 2) {
    const [a, b] = blocks.slice(i, i + 2) as [Block, Block];
    const [p, q] = factors.slice(i, i + 2) as [number, number];
    for (let k = 0; k < n; k++) out[k]! += p * a[k]! + q * b[k]!;
  }
  for (; i < blocks.length; i++) {
    const a = blocks[i] as Block;
    const p = factors[i] as number;
    for (let k = 0; k < n; k++) out[k]! += p * a[k]!;
  }
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
    const inside = z > 1 ? 1 : z < -1 ? -1 : z;
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
