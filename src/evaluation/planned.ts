import { coverageFactor, welchSatterthwaite } from '../statistics/index.js';
import { sensitivities } from '../uncertainty/index.js';
import type { Quantity } from '../uncertainty/index.js';
import { ASSUMED_RELATIVE_SPREAD } from './evaluateFigure.js';
import { type Plan, forecast } from './forecast.js';
import { contribution } from './poolQuantities.js';
import type { Figure } from './types.js';

/** What a plan is expected to give, before the first run. Half-widths at 95 % coverage, in the unit of the efficiency. */
export interface Planned {
  readonly plan: Plan;
  /** Of the mean of the setting. */
  readonly meanHalfWidth: number;
  /** Of the true efficiency of one future heating. */
  readonly predictionHalfWidth: number;
  /** Of one run by itself: what is fresh in it, and what all share. */
  readonly freshU: number;
  readonly sharedU: number;
  /** Time for all runs with handling, seconds; cooling between them not counted. */
  readonly workS: number;
  /** The plan's single run as a figure, for its budget. */
  readonly single: Figure;
}

/** Weighing, stirring and writing around one heating; common practice, no source. */
const HANDLING_S = 20 * 60;
const WATER_J_PER_KG_K = 4186;

/**
 * What a plan of n runs is expected to give: U² = t²·(s² + u²)/n + (k·u_s)² with u fresh in each run, u_s shared, s the
 * scatter between runs (assumed until runs show it), t of n − 1 degrees of freedom once three runs can show it; for one
 * future heating s² is added under t. The closed form of the pooling, with the scatter put where it is expected.
 */
export function planned(plan: Plan, relativeSpread = ASSUMED_RELATIVE_SPREAD): Planned {
  const single = forecast({ ...plan, runs: 1 }, { relative: relativeSpread, words: 'as expected' });
  const quantity = single.runs[0]?.quantities[single.definition] as Quantity;
  const parts = sensitivities(quantity);
  const isFresh = (scope: string) => scope === 'run' || scope === 'reading';
  const root = (values: readonly number[]) => Math.sqrt(values.reduce((sum, value) => sum + value ** 2, 0));
  const freshU = root(parts.filter((part) => isFresh(part.source.scope)).map(contribution));
  const shared = parts.filter((part) => !isFresh(part.source.scope));
  const sharedU = root(shared.map(contribution));
  const components = shared.map((part) => ({
    u: contribution(part),
    degreesOfFreedom: part.source.degreesOfFreedom,
  }));
  const sharedK = sharedU > 0 ? coverageFactor(0.95, welchSatterthwaite(components)) : 0;
  const spread = relativeSpread * single.efficiency.value;
  const n = plan.runs;
  const k = coverageFactor(0.95, n >= 3 ? n - 1 : Number.POSITIVE_INFINITY);
  const ofMean = (spread ** 2 + freshU ** 2) / n;
  const energyJ = (plan.waterKg * WATER_J_PER_KG_K * plan.riseK) / plan.efficiency;
  return {
    plan,
    meanHalfWidth: Math.hypot(k * Math.sqrt(ofMean), sharedK * sharedU),
    predictionHalfWidth: Math.hypot(k * Math.sqrt(ofMean + spread ** 2), sharedK * sharedU),
    freshU,
    sharedU,
    workS: n * (energyJ / plan.powerW + HANDLING_S),
    single,
  };
}
