import type { Elementary } from '../Quantity.js';
import type { Distribution } from '../Source.js';

/** Trials of one block, which has one stream of random numbers. Small, so that all registers stay in the cache; a multiple of 4. */
export const BLOCK = 1024;

/** A register with an exact factor and offset: offset + factor · register. Register −1 stands for a constant. */
export interface Affine {
  readonly register: number;
  readonly offset: number;
  readonly factor: number;
}

/** A smooth function of one variable between two ends; beyond them it goes on along the tangent. */
export interface ChebyshevSeries {
  readonly low: number;
  readonly high: number;
  /** Of ascending powers of the variable mapped to −1 to 1. */
  readonly coefficients: Float64Array;
  readonly slopeAtLow: number;
  readonly slopeAtHigh: number;
}

/** One instruction over a whole block. `out` never names a register that the same step reads. */
export type Step =
  | {
      readonly op: 'draw';
      readonly out: number;
      /** Id of the source. */
      readonly source: string;
      readonly shape: Distribution;
      readonly degreesOfFreedom: number;
      readonly topToBase: number;
    }
  | {
      readonly op: 'drawGroup';
      /** One register for each member, and the ids of their sources. */
      readonly outs: readonly number[];
      readonly sources: readonly string[];
      readonly factor: readonly (readonly number[])[];
      readonly degreesOfFreedom: number;
    }
  | {
      readonly op: 'linear';
      readonly out: number;
      readonly registers: readonly number[];
      /** The constant first, then one for each register. */
      readonly factors: Float64Array;
    }
  | { readonly op: 'multiply'; readonly out: number; readonly a: Affine; readonly b: Affine }
  | { readonly op: 'divide'; readonly out: number; readonly a: Affine; readonly b: Affine }
  | { readonly op: 'power'; readonly out: number; readonly a: Affine; readonly exponent: number }
  | { readonly op: 'elementary'; readonly out: number; readonly a: Affine; readonly name: Elementary }
  | { readonly op: 'series'; readonly out: number; readonly a: Affine; readonly series: ChebyshevSeries }
  | {
      readonly op: 'call';
      readonly out: number;
      readonly inputs: readonly Affine[];
      readonly evaluate: (inputs: readonly number[]) => number;
    };

/** A graph as a list of steps over numbered registers; plain data unless it holds a `call`. */
export interface Program {
  readonly steps: readonly Step[];
  readonly registers: number;
  /** Register of each output. */
  readonly outputs: readonly number[];
  /** Whether another thread can run it: a function handed to `lift` cannot go there. */
  readonly portable: boolean;
  /** Fewest degrees of freedom among the t distributions drawn; Infinity where none is. */
  readonly fewestDegreesOfFreedom: number;
}
