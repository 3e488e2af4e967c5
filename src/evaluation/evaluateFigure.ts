import { type Definition, definitions } from '../protocols/index.js';
import type { Sensitivity } from '../uncertainty/index.js';
import type { Quantity } from '../uncertainty/index.js';
import { commonRounding } from './commonRounding.js';
import { type Pooled, contribution, poolQuantities } from './poolQuantities.js';
import { figureWarnings } from './figureWarnings.js';
import type { KnownTransfer } from './losses/types.js';
import { whatCurvesKnow } from './losses/whatCurvesKnow.js';
import type { Figure, FigureBudgetRow, RunEvaluation } from './types.js';

/** Spread from run to run where too few runs say it: common practice, no source. */
export const ASSUMED_RELATIVE_SPREAD = 0.02;

export interface SpreadAssumption {
  /** Standard deviation between runs over the value. */
  readonly relative: number;
  /** Where it comes from, in words. */
  readonly words: string;
}

/**
 * Pools the runs of one heater, setting and protocol into a figure: what is fresh in each run goes through the
 * between-run model, what all share stands beside it and does not shrink with repeats. Null where there are no runs, or one
 * lacks the definition. `spread` is taken where fewer than three runs can't show theirs. `transfer` is what fits to several
 * fills tell of the heater; without it the heat balances of the runs say what one fill can.
 *
 * @example
 * const water = { operation: 'constant', value: 0.6, inputs: [], partials: [] };
 * const run = {
 *   run: { id: 'run-1', setting: 'full', readings: [] }, protocol: { limits: { minimumRuns: 3 } }, instruments: {},
 *   quantities: { water, 'water+vessel': null, 'water+vapour': null }, conditions: { lid: 'on', waterKg: 6 },
 * };
 * const figure = evaluateFigure([run], 'water', { relative: 0.02, words: 'assumed' });
 * figure.efficiency.standardUncertainty // => 0.012
 * figure.mark // => 'one run'
 * evaluateFigure([], 'water', { relative: 0.02, words: 'assumed' }) // => null
 */
export function evaluateFigure(
  runs: readonly RunEvaluation[],
  definition: Definition,
  spread: SpreadAssumption,
  coverage = 0.95,
  transfer: KnownTransfer | null = null,
): Figure | null {
  const first = runs[0];
  const quantities = runs.map((run) => run.quantities[definition]);
  if (!first || quantities.some((quantity) => quantity === null)) return null;
  const rounding = commonRounding(runs);
  const pool = (each: Quantity[]) => poolQuantities(each, spread.relative, coverage, rounding);
  const pooled = pool(quantities as Quantity[]);
  const n = runs.length;
  return {
    heater: first.heater,
    setting: first.run.setting,
    protocol: first.protocol,
    definition,
    efficiency: {
      value: pooled.result.mean,
      standardUncertainty: pooled.result.standardUncertainty,
      coverage,
      coverageFactor: pooled.result.coverageFactor,
      degreesOfFreedom: pooled.result.degreesOfFreedom,
      degreesOfFreedomBasis: pooled.result.degreesOfFreedomBasis,
      interval: pooled.result.interval,
    },
    prediction: { interval: pooled.result.prediction.interval },
    spread: {
      standardDeviation: pooled.result.betweenRunStandardDeviation,
      basis: pooled.result.basis,
      words: pooled.result.basis === 'seen' ? `seen in ${n} runs` : spread.words,
    },
    budget: budgetOf(pooled),
    parts: { shared: pooled.shared, own: ownPart(pooled) },
    runs,
    definitions: sideBySide(runs, (each, quantities) => (each === definition ? pooled : pool(quantities))),
    ...whatCurvesKnow(runs, transfer, { relativeSpread: spread.relative, coverage }),
    withExcluded: null,
    mark: n === 1 ? 'one run' : n === 2 ? 'two runs' : null,
    warnings: figureWarnings(
      runs,
      pooled,
      quantities.map((quantity) => quantity?.value ?? Number.NaN),
    ),
  };
}

/** The part of the mean's variance that no other figure shares: fresh errors, scatter, common rounding. */
export function ownPart(pooled: Pooled): { u: number; degreesOfFreedom: number } {
  const rounding = pooled.common.reduce((sum, { u }) => sum + u ** 2, 0);
  const { varianceHK, n } = pooled.result;
  if (varianceHK === null) {
    const fresh = pooled.fresh.reduce((sum, part) => sum + contribution(part) ** 2, 0);
    return {
      u: Math.sqrt(fresh + pooled.assumedVariance + rounding),
      degreesOfFreedom: Number.POSITIVE_INFINITY,
    };
  }
  const u = Math.sqrt(varianceHK + rounding);
  // The rounding is known; only the scatter carries the n − 1 degrees of freedom.
  const share = u > 0 ? varianceHK / u ** 2 : 1;
  return { u, degreesOfFreedom: share > 0 ? (n - 1) / share ** 2 : Number.POSITIVE_INFINITY };
}

/**
 * Budget of the mean. With three runs or more the scatter between them is seen as a whole, fresh errors of the
 * runs and all; with fewer, the fresh errors are listed and the scatter beyond them is the assumed one.
 */
export function budgetOf(pooled: Pooled): FigureBudgetRow[] {
  const variance = pooled.result.standardUncertainty ** 2;
  const row = (
    id: string,
    source: string,
    value: number,
    more: Partial<FigureBudgetRow> = {},
  ): FigureBudgetRow => ({
    id,
    source,
    scope: 'between runs',
    sensitivity: null,
    contribution: value,
    share: variance > 0 ? value ** 2 / variance : 0,
    assumed: false,
    instrument: null,
    ...more,
  });
  const ofPart = (part: Sensitivity): FigureBudgetRow =>
    row(part.source.id, part.source.name, contribution(part), {
      scope: part.source.scope,
      sensitivity: part.sensitivity,
      assumed: part.source.assumed,
      instrument: part.source.instrument ?? null,
    });
  const rows = pooled.shared.map(ofPart);
  rows.push(
    ...pooled.common.map(({ name, u, instrument }, i) =>
      row(`common:${i + 1}:step`, name, u, { scope: 'setting', instrument }),
    ),
  );
  if (pooled.result.varianceHK !== null) {
    rows.push(
      row(
        'between-runs',
        `scatter from run to run, seen in ${pooled.result.n} runs`,
        Math.sqrt(pooled.result.varianceHK),
      ),
    );
  } else {
    rows.push(...pooled.fresh.map(ofPart));
    rows.push(
      row('between-runs', 'scatter from run to run, assumed', Math.sqrt(pooled.assumedVariance), {
        assumed: true,
      }),
    );
  }
  return rows.sort((a, b) => b.contribution - a.contribution || (a.id < b.id ? -1 : 1));
}

/** Mean and interval under each definition, null where a run has none. */
function sideBySide(
  runs: readonly RunEvaluation[],
  pool: (definition: Definition, quantities: Quantity[]) => Pooled,
): Figure['definitions'] {
  const entries = definitions.map((definition) => {
    const quantities = runs.map((run) => run.quantities[definition]);
    if (quantities.some((quantity) => quantity === null)) return [definition, null] as const;
    const { result } = pool(definition, quantities as Quantity[]);
    return [definition, { value: result.mean, interval: result.interval }] as const;
  });
  return Object.fromEntries(entries) as Figure['definitions'];
}
