import { type PooledRuns, chiSquaredCdf, poolRuns, welchSatterthwaite } from '../statistics/index.js';
import { type Quantity, type Sensitivity, sensitivities } from '../uncertainty/index.js';

const isFresh = (part: Sensitivity): boolean =>
  part.source.scope === 'run' || part.source.scope === 'reading';
/** Part of a quantity's standard uncertainty that one source makes. */
export const contribution = (part: Sensitivity): number =>
  Math.abs(part.sensitivity) * part.source.standardUncertainty;
const rootSum = (values: readonly number[]): number =>
  Math.sqrt(values.reduce((sum, value) => sum + value ** 2, 0));

/** The runs of one setting pooled, with the parts its budget is made of. */
export interface Pooled {
  readonly result: PooledRuns;
  readonly shared: readonly Sensitivity[];
  /** Rounding that the runs seem to share, 0 where they don't. */
  readonly common: number;
  readonly fresh: readonly Sensitivity[];
  readonly assumedVariance: number;
}

/** Pools runs given as graphs: what is fresh in each run goes through the between-run model, what all share stands beside it. */
export function poolQuantities(
  quantities: readonly Quantity[],
  relativeSpread: number,
  coverage: number,
): Pooled {
  const parts = quantities.map((quantity) => sensitivities(quantity));
  const values = quantities.map((quantity) => quantity.value);
  const uncertainties = parts.map((list) => rootSum(list.filter(isFresh).map(contribution)));
  const typical = values.reduce((sum, value) => sum + value, 0) / values.length;
  const assumedSpread = relativeSpread * Math.abs(typical);
  const noShared = { u: 0, degreesOfFreedom: Number.POSITIVE_INFINITY };
  // The weights don't depend on what is shared: a first round gives them, and they give the shared part.
  const weights = poolRuns({ values, uncertainties, shared: noShared, coverage, assumedSpread }).weights;
  const weighted = combine(parts, weights);
  const shared = weighted.filter((part) => !isFresh(part));
  const components = shared.map((part) => ({
    u: contribution(part),
    degreesOfFreedom: part.source.degreesOfFreedom,
  }));
  const common = commonRounding(values, uncertainties, weights, assumedSpread);
  if (common > 0) components.push({ u: common, degreesOfFreedom: Number.POSITIVE_INFINITY });
  const u = rootSum(components.map((component) => component.u));
  const degreesOfFreedom = u > 0 ? welchSatterthwaite(components) : Number.POSITIVE_INFINITY;
  const result = poolRuns({
    values,
    uncertainties,
    shared: { u, degreesOfFreedom },
    coverage,
    assumedSpread,
  });
  const squares = weights.reduce((sum, weight) => sum + weight ** 2, 0);
  return {
    result,
    shared,
    common,
    fresh: weighted.filter(isFresh),
    assumedVariance: squares * assumedSpread ** 2,
  };
}

/** Runs that agree so well by chance less often than this are taken to share their rounding. */
const AGREEMENT_PROBABILITY = 0.1;

/**
 * Fresh errors are independent from run to run only while the readings move: a counter with coarse steps shows the
 * same digits in every run, and its rounding is then one and the same error. Where runs agree much better than their
 * own doubts allow, those doubts are counted once more as shared, so that repeats don't shrink them. Zero otherwise.
 */
function commonRounding(
  values: readonly number[],
  uncertainties: readonly number[],
  weights: readonly number[],
  assumedSpread: number,
): number {
  if (values.length < 2) return 0;
  const { birgeRatio } = poolRuns({
    values,
    uncertainties,
    shared: { u: 0, degreesOfFreedom: Number.POSITIVE_INFINITY },
    coverage: 0.95,
    assumedSpread,
  });
  if (birgeRatio === null) return 0;
  const degrees = values.length - 1;
  if (chiSquaredCdf(degrees * birgeRatio ** 2, degrees) >= AGREEMENT_PROBABILITY) return 0;
  return Math.sqrt(
    weights.reduce((sum, weight, run) => sum + weight * (uncertainties[run] as number) ** 2, 0),
  );
}

/** Sensitivities of the weighted mean: shared sources add up over the runs, fresh ones stay by themselves. */
function combine(parts: readonly Sensitivity[][], weights: readonly number[]): Sensitivity[] {
  const byId = new Map<string, { source: Sensitivity['source']; sensitivity: number }>();
  parts.forEach((list, run) => {
    for (const part of list) {
      const weighted = part.sensitivity * (weights[run] as number);
      const known = byId.get(part.source.id);
      if (known) known.sensitivity += weighted;
      else byId.set(part.source.id, { source: part.source, sensitivity: weighted });
    }
  });
  return [...byId.values()];
}
