import { exponentialOf, logarithmOf } from './elementary.js';
import type { Xoshiro } from './Xoshiro.js';
import { TAIL, edges, inside } from './ziggurat.js';

const TWO_20 = 1048576;
const TWO_28 = 268435456;
const PER_UNIT = 2 ** -52;
const PER_SIDE = 2 ** -51;

/**
 * Fills blocks with draws of the shapes an error source may have, each of mean zero and standard uncertainty one (t: scale
 * one). A uniform number is the middle of one of 2^52 equal parts, so that it is never 0 or 1 and symmetrical.
 */
export class Sampler {
  private readonly words: Int32Array;
  private readonly spare: Float64Array;

  constructor(
    private readonly generator: Xoshiro,
    private readonly size: number,
  ) {
    this.words = new Int32Array(2 * size);
    this.spare = new Float64Array(size);
  }

  /** Exact normal draws by the Ziggurat: layer from 8 bits, sign and position from 52 others. */
  normal(out: Float64Array): void {
    const { words, size } = this;
    this.generator.fill(words, 2 * size);
    for (let i = 0; i < size; i++) {
      const word = words[2 * i] as number;
      const layer = word & 255;
      const side = ((word >>> 8) * TWO_28 + ((words[2 * i + 1] as number) >>> 4) + 0.5) * PER_SIDE - 1;
      const part = inside[layer] as number;
      out[i] = side < part && side > -part ? side * (edges[layer] as number) : this.outside(layer, side);
    }
  }

  /** A draw that fell outside the sure part of its layer: kept under the curve, or drawn again. */
  private outside(firstLayer: number, firstSide: number): number {
    let layer = firstLayer;
    let side = firstSide;
    for (;;) {
      if (layer === 0) {
        if (Math.abs(side) >= (inside[0] as number)) return this.tail(side < 0);
        return side * (edges[0] as number);
      }
      const x = side * (edges[layer] as number);
      const low = exponentialOf(-0.5 * ((edges[layer] as number) ** 2 - x * x));
      const high = exponentialOf(-0.5 * ((edges[layer + 1] as number) ** 2 - x * x));
      if (low + this.unit() * (high - low) < 1) return x;
      const word = this.generator.next();
      layer = word & 255;
      side = ((word >>> 8) * TWO_28 + (this.generator.next() >>> 4) + 0.5) * PER_SIDE - 1;
      if (Math.abs(side) < (inside[layer] as number)) return side * (edges[layer] as number);
    }
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
    return ((word >>> 0) * TWO_20 + (this.generator.next() >>> 12) + 0.5) * PER_UNIT;
  }

  /** One normal draw. */
  private oneNormal(): number {
    const word = this.generator.next();
    const layer = word & 255;
    const side = ((word >>> 8) * TWO_28 + (this.generator.next() >>> 4) + 0.5) * PER_SIDE - 1;
    const sure = Math.abs(side) < (inside[layer] as number);
    return sure ? side * (edges[layer] as number) : this.outside(layer, side);
  }

  /** Uniform between −half and +half. */
  private uniform(out: Float64Array, half: number): void {
    const { words, size } = this;
    this.generator.fill(words, 2 * size);
    const step = half * PER_SIDE;
    for (let i = 0; i < size; i++) {
      const whole = ((words[2 * i] as number) >>> 0) * TWO_20 + ((words[2 * i + 1] as number) >>> 12) + 0.5;
      out[i] = whole * step - half;
    }
  }

  rectangular(out: Float64Array): void {
    this.uniform(out, Math.sqrt(3));
  }

  /** Sum of two uniforms whose half-widths are (1 + β)/2 and (1 − β)/2 of the whole: JCGM 101 6.4.4.2. */
  trapezoidal(out: Float64Array, topToBase: number): void {
    const half = Math.sqrt(6 / (1 + topToBase * topToBase));
    this.uniform(out, (half * (1 + topToBase)) / 2);
    this.uniform(this.spare, (half * (1 - topToBase)) / 2);
    for (let i = 0; i < this.size; i++) out[i]! += this.spare[i] as number;
  }

  triangular(out: Float64Array): void {
    this.trapezoidal(out, 0);
  }

  /** Cosine of a uniform angle (JCGM 101 6.4.6.3) without the cosine: a point of a disc has that of twice its angle. */
  arcsine(out: Float64Array): void {
    for (let i = 0; i < this.size; i++) {
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
    for (let i = 0; i < this.size; i++) out[i]! /= this.spare[i] as number;
  }

  /** √(χ²/ν), χ² being twice a gamma draw of shape ν/2. */
  rootsOfChiSquared(out: Float64Array, degreesOfFreedom: number): void {
    const shape = degreesOfFreedom / 2;
    for (let i = 0; i < this.size; i++) {
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
