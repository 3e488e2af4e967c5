import { compile } from './monteCarlo/compile.js';
import { Machine } from './monteCarlo/Machine.js';
import { Xoshiro } from './monteCarlo/Xoshiro.js';
import type { BudgetRow } from './propagate.js';
import type { Quantity } from './Quantity.js';
import type { Source } from './Source.js';

/** A source counts as unseen where its slope tells less than this part of what it does. */
const SEEN = 0.1;
/** And as worth a word where it makes more than this part of the spread. */
const NOTABLE = 0.05;

/**
 * Sources whose effect first order can't see: their slope at the estimate vanishes, as in a product of two zeros or the
 * cosine of zero, yet they move the result. Found on a block of trials by taking one source at a time as zero.
 */
export function blindSpots(quantity: Quantity, budget: readonly BudgetRow[], seed: number): Source[] {
  const program = compile([quantity]);
  const state = new Uint32Array(4);
  Xoshiro.seeded(seed).store(state, 0);
  const trials = (muted: string | null) => new Machine(program, muted).run(state, 0)[0] as Float64Array;
  const whole = Float64Array.from(trials(null));
  const mean = whole.reduce((sum, value) => sum + value, 0) / whole.length;
  const spread = rootMeanSquare(whole.map((value) => value - mean));
  return budget
    .filter((row) => !row.correlationOf && row.source.standardUncertainty > 0)
    .filter(({ source, contribution }) => {
      const without = trials(source.id);
      const effect = rootMeanSquare(whole.map((value, k) => value - (without[k] as number)));
      return contribution < SEEN * effect && effect > NOTABLE * spread;
    })
    .map(({ source }) => source);
}

const rootMeanSquare = (values: Float64Array): number =>
  Math.sqrt(values.reduce((sum, value) => sum + value * value, 0) / values.length);
