import type { Plan } from './forecast.js';
import { type Planned, planned } from './planned.js';

const MASS_FACTORS = [1, 1.5, 2, 3, 4] as const;
const RISES_K = [30, 35, 40, 45, 50, 55] as const;
const MOST_RUNS = 12;

/** Plans near a given one: more water, another rise, more runs; within the protocol's limits and what a vessel may hold. */
function variations(plan: Plan, mostWaterKg: number): Plan[] {
  const masses = MASS_FACTORS.map((factor) => plan.waterKg * factor).filter((kg) => kg <= mostWaterKg + 1e-9);
  const { minimumRise, maximumEnd, minimumRuns } = plan.protocol.limits;
  const rises = [...new Set([plan.riseK, ...RISES_K])].filter(
    (rise) => rise >= minimumRise && plan.startK + rise <= maximumEnd - 2,
  );
  const found: Plan[] = [];
  for (const waterKg of masses) {
    for (const riseK of rises) {
      for (let runs = minimumRuns; runs <= MOST_RUNS; runs++) found.push({ ...plan, waterKg, riseK, runs });
    }
  }
  return found;
}

/**
 * The plan near a given one that meets a half-width of the mean with the least work, or null where none does: then
 * what all runs share is already wider, and a better instrument is the only help.
 */
export function cheapestPlan(
  plan: Plan,
  target: number,
  mostWaterKg: number,
  relativeSpread?: number,
): Planned | null {
  const singles = new Map<string, Planned>();
  let best: Planned | null = null;
  for (const variation of variations(plan, mostWaterKg)) {
    const key = `${variation.waterKg}/${variation.riseK}`;
    // A plan whose shared part alone is too wide is not helped by runs.
    const known = singles.get(key);
    if (known && 1.96 * known.sharedU > target) continue;
    const result = planned(variation, relativeSpread);
    singles.set(key, result);
    if (result.meanHalfWidth <= target && (best === null || result.workS < best.workS)) best = result;
  }
  return best;
}
