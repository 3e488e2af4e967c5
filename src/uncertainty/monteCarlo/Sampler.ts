import { exponentialOf, logarithmOf } from './elementary.js';
import type { Xoshiro } from './Xoshiro.js';
import { TAIL, edges, inside } from './ziggurat.js';

/** Uniform between −1 and 1 from the upper 24 bits of one word and 28 of another; exact, never 0 or 1. */
const sideOf = (word: number, other: number): number =>
  ((word >> 8) * 268435456 + (other >>> 4) + 0.5) * 2 ** -51;

/**
 * Fills blocks with draws of the shapes an error source may have, each of mean zero and standard uncertainty one (t: scale
 * one). A uniform number is the middle of one of 2^52 equal parts, so that it is never 0 or 1 and symmetrical.
 */
export class Sampler {
  private readonly layers: Uint8Array;
  private readonly spare: Float64Array;

  constructor(
    private readonly generator: Xoshiro,
    size: number,
  ) {
    this.layers = new Uint8Array(size);
    this.spare = new Float64Array(size);
  }

  /** Exact normal draws by the Ziggurat: layer from 8 bits, sign and position from 52 others. */
  normal(out: Float64Array): void {
    const { layers } = this;
    this.generator.fillLayered(out, layers);
    for (let i = 0; i < out.length; i++) {
      const side = out[i] as number;
      const layer = layers[i] as number;
      if (Math.abs(side) < (inside[layer] as number)) out[i] = side * (edges[layer] as number);
      else out[i] = this.outside(layer, side);
    }
  }

  /** A draw that fell outside the sure part of its layer: kept under the curve, or drawn again. */
  private outside(layer: number, side: number): number {
    if (layer === 0) return this.tail(side < 0);
    const x = side * (edges[layer] as number);
    const low = exponentialOf(-0.5 * ((edges[layer] as number) ** 2 - x * x));
    const high = exponentialOf(-0.5 * ((edges[layer + 1] as number) ** 2 - x * x));
    return low + this.unit() * (high - low) < 1 ? x : this.oneNormal();
  }

  /** Beyond the last layer: G. Marsaglia's exact method for the tail (Technometrics 6 (1964), 101). */
  private tail(negative: boolean): number {
    for (;;) {
      const x = logarithmOf(this.unit()) / TAIL;
      if (-2 * logarithmOf(this.unit()) >= x * x) return negative ? x - TAIL : TAIL - x;
    }
  }

  private unit(): number {
    const word = this.generator.next();
    return ((word >>> 0) * 1048576 + (this.generator.next() >>> 12) + 0.5) * 2 ** -52;
  }

  /** One normal draw. */
  private oneNormal(): number {
    const word = this.generator.next();
    const layer = word & 255;
    const side = sideOf(word, this.generator.next());
    const sure = Math.abs(side) < (inside[layer] as number);
    return sure ? side * (edges[layer] as number) : this.outside(layer, side);
  }

  rectangular(out: Float64Array): void {
    this.generator.fillUniform(out, Math.sqrt(3));
  }

  /** Sum of two uniforms whose half-widths are (1 + β)/2 and (1 − β)/2 of the whole: JCGM 101 6.4.4.2. */
  trapezoidal(out: Float64Array, topToBase: number): void {
    const half = Math.sqrt(6 / (1 + topToBase * topToBase));
    this.generator.fillUniform(out, (half * (1 + topToBase)) / 2);
    this.generator.fillUniform(this.spare, (half * (1 - topToBase)) / 2);
    for (let i = 0; i < out.length; i++) out[i]! += this.spare[i] as number;
  }

  triangular(out: Float64Array): void {
    this.trapezoidal(out, 0);
  }

  /** Cosine of a uniform angle (JCGM 101 6.4.6.3) without the cosine: a point of a disc has that of twice its angle. */
  arcsine(out: Float64Array): void {
    for (let i = 0; i < out.length; i++) {
      let x: number;
      let y: number;
      let square: number;
      do {
        x = 2 * this.unit() - 1;
        y = 2 * this.unit() - 1;
        square = x * x + y * y;
      } while (square >= 1);
      out[i] = (Math.SQRT2 * (x * x - y * y)) / square;
    }
  }

  /** t of scale one: a normal over the root of a chi-squared per degree of freedom; any ν above zero. */
  t(out: Float64Array, degreesOfFreedom: number): void {
    this.normal(out);
    this.rootsOfChiSquared(this.spare, degreesOfFreedom);
    for (let i = 0; i < out.length; i++) out[i]! /= this.spare[i] as number;
  }

  /** √(χ²/ν), χ² being twice a gamma draw of shape ν/2. */
  rootsOfChiSquared(out: Float64Array, degreesOfFreedom: number): void {
    const shape = degreesOfFreedom / 2;
    for (let i = 0; i < out.length; i++) {
      // Below shape one: one more than the shape, times a power of a uniform (Marsaglia and Tsang, section 6).
      const gamma =
        shape >= 1
          ? this.gamma(shape)
          : this.gamma(shape + 1) * exponentialOf(logarithmOf(this.unit()) / shape);
      out[i] = Math.sqrt(gamma / shape);
    }
  }

  /** Gamma of shape one or more: G. Marsaglia and W. W. Tsang, ACM Trans. Math. Softw. 26 (2000), 363. */
  private gamma(shape: number): number {
    const d = shape - 1 / 3;
    const c = 1 / Math.sqrt(9 * d);
    for (;;) {
      const x = this.oneNormal();
      const root = 1 + c * x;
      if (root <= 0) continue;
      const v = root * root * root;
      const u = this.unit();
      const square = x * x;
      if (u < 1 - 0.0331 * square * square) return d * v;
      if (logarithmOf(u) < 0.5 * square + d * (1 - v + logarithmOf(v))) return d * v;
    }
  }
}
