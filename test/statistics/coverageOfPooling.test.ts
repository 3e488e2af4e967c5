import { describe, expect, it } from 'vitest';
import { poolRuns } from '../../src/statistics/index.js';

/** mulberry32 and Box–Muller: good enough for counting, and the same everywhere but for the last bits of log and cos. */
function normalNumbers(seed: number): () => number {
  let state = seed;
  const uniform = () => {
    state = (state + 0x6d2b79f5) | 0;
    let t = Math.imul(state ^ (state >>> 15), 1 | state);
    t ^= t + Math.imul(t ^ (t >>> 7), 61 | t);
    return ((t ^ (t >>> 14)) >>> 0) / 2 ** 32;
  };
  return () => Math.sqrt(-2 * Math.log(1 - uniform())) * Math.cos(2 * Math.PI * uniform());
}

interface Cell {
  readonly uncertainties: readonly number[];
  readonly spread: number;
  readonly shared: number;
}

/** Shares of campaigns whose intervals hold the true mean and the true value of one more run; truth is 0. */
function coverages({ uncertainties, spread, shared }: Cell, campaigns: number, seed: number) {
  const normal = normalNumbers(seed);
  const held = { mean: 0, prediction: 0 };
  for (let campaign = 0; campaign < campaigns; campaign += 1) {
    const common = shared * normal();
    const values = uncertainties.map((u) => common + spread * normal() + u * normal());
    const future = spread * normal();
    const pooled = poolRuns({
      values,
      uncertainties,
      shared: { u: shared, degreesOfFreedom: Infinity },
      coverage: 0.95,
    });
    const holds = ([low, high]: readonly [number, number], truth: number) =>
      low <= truth && truth <= high ? 1 : 0;
    held.mean += holds(pooled.interval, 0);
    held.prediction += holds(pooled.prediction.interval, future);
  }
  return { mean: held.mean / campaigns, prediction: held.prediction / campaigns };
}

// A count of 3,000 with p = 0.95 has a standard deviation of √(0.95·0.05/3000) = 0.4 %; four of them are passed by
// chance once in 30,000 times. The method is designed to cover at least its nominal share in the mean (95.0 to
// 97.6 % in the simulation that chose it) and 93.6 to 98.8 % in the prediction: those are the bounds, four
// standard deviations wider on each side.
const campaigns = 3000;
const four = 4 * Math.sqrt((0.95 * 0.05) / campaigns);

describe(`coverage of nominal 95 % intervals in ${campaigns} seeded campaigns`, () => {
  it.each([
    [
      'three runs, spread below their uncertainty',
      { uncertainties: [1, 1, 1], spread: 0.5, shared: 0.5 },
      11,
    ],
    ['three runs, scatter only', { uncertainties: [0.1, 0.1, 0.1], spread: 1, shared: 0 }, 12],
    ['five unequal runs', { uncertainties: [0.5, 1, 2, 1, 0.7], spread: 1, shared: 0.7 }, 13],
  ] as const)('%s', { timeout: 120_000 }, (_name, cell, seed) => {
    const seen = coverages(cell, campaigns, seed);
    const message = `seed ${seed}: ${JSON.stringify(seen)}`;
    expect(seen.mean, message).toBeGreaterThan(0.95 - four);
    expect(seen.mean, message).toBeLessThan(0.976 + four);
    expect(seen.prediction, message).toBeGreaterThan(0.936 - four);
    expect(seen.prediction, message).toBeLessThan(0.988 + four);
  });
});
