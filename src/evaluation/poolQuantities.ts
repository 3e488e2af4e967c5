import { type PooledRuns, poolingWeights, poolRuns, welchSatterthwaite } from '../statistics/index.js';
import { type Quantity, type Sensitivity, sensitivities } from '../uncertainty/index.js';

const isFreshIn =
  (common: ReadonlyMap<string, string>) =>
  (part: Sensitivity): boolean =>
    (part.source.scope === 'run' || part.source.scope === 'reading') && !common.has(part.source.id);
/** Part of a quantity's standard uncertainty that one source makes. */
export const contribution = (part: Sensitivity): number =>
  Math.abs(part.sensitivity) * part.source.standardUncertainty;
const rootSum = (values: readonly number[]): number =>
  Math.sqrt(values.reduce((sum, value) => sum + value ** 2, 0));

export interface CommonRow {
  readonly name: string;
  readonly instrument: string | null;
  readonly u: number;
}

/** The runs of one setting pooled, with the parts its budget is made of. */
export interface Pooled {
  readonly result: PooledRuns;
  readonly shared: readonly Sensitivity[];
  /** Rounding that the runs share because their displays showed the same digits. */
  readonly common: readonly CommonRow[];
  readonly fresh: readonly Sensitivity[];
  readonly assumedVariance: number;
}

/** Pools runs given as graphs: what is fresh in each run goes through the between-run model, what all share stands beside it. */
export function poolQuantities(
  quantities: readonly Quantity[],
  relativeSpread: number,
  coverage: number,
  commonIds: ReadonlyMap<string, string> = new Map(),
): Pooled {
  const isFresh = isFreshIn(commonIds);
  const parts = quantities.map((quantity) => sensitivities(quantity));
  const values = quantities.map((quantity) => quantity.value);
  const uncertainties = parts.map((list) => rootSum(list.filter(isFresh).map(contribution)));
  const typical = values.reduce((sum, value) => sum + value, 0) / values.length;
  const assumedSpread = relativeSpread * Math.abs(typical);
  // The weights don't depend on what is shared; they give the shared part.
  const weights = poolingWeights({ values, uncertainties, assumedSpread });
  const weighted = combine(parts, weights);
  const shared = weighted.filter((part) => !isFresh(part) && !commonIds.has(part.source.id));
  const components = shared.map((part) => ({
    u: contribution(part),
    degreesOfFreedom: part.source.degreesOfFreedom,
  }));
  const common = commonRows(weighted, commonIds);
  components.push(...common.map(({ u }) => ({ u, degreesOfFreedom: Number.POSITIVE_INFINITY })));
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

/** Step errors that show the same digits in every run: one error for each reading, its parts added up with their signs. */
function commonRows(parts: readonly Sensitivity[], common: ReadonlyMap<string, string>): CommonRow[] {
  const byReading = new Map<string, CommonRow>();
  for (const { source, sensitivity } of parts) {
    const reading = common.get(source.id);
    if (reading === undefined) continue;
    const u = sensitivity * source.standardUncertainty + (byReading.get(reading)?.u ?? 0);
    const name = `${source.name}, the same in every run`;
    byReading.set(reading, { name, instrument: source.instrument ?? null, u });
  }
  return [...byReading.values()].map((row) => ({ ...row, u: Math.abs(row.u) }));
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
