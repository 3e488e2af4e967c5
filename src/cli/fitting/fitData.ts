import type { CurveFit, CurveQuantity, RunCurves } from '../../evaluation/index.js';
import { nextThing } from '../../evaluation/index.js';

/** JSON has neither infinity nor NaN: null stands for them. */
const finite = (value: number): number | null => (Number.isFinite(value) ? value : null);

/** The curves of a run as `fit --json` prints them: SI, temperatures in kelvin, times in seconds from `zero`. */
export function fitData(curves: RunCurves): Record<string, unknown> {
  const { run, heater, protocol, zero, log, clocks, phases, ambient, parts, skipped, notes } = curves;
  return {
    run: run.id,
    heater: heater.id,
    setting: run.setting,
    protocol: protocol.name,
    zero,
    log,
    clocks,
    phases,
    ambient,
    parts: parts.map(({ fits, comparison, heatCapacity, ...part }) => ({
      ...part,
      heatCapacity: heatCapacity && {
        value: heatCapacity.joulesPerKelvin.value,
        expandedUncertainty: heatCapacity.joulesPerKelvin.expandedUncertainty,
        words: heatCapacity.words,
      },
      comparison: comparison && {
        sentence: comparison.sentence,
        ranked: comparison.ranked.map(({ fit, difference, weight }) => ({
          model: fit.model,
          difference,
          weight,
        })),
      },
      fits: fits.map(fitOf),
    })),
    skipped,
    notes,
    next: nextThing(curves),
  };
}

function fitOf({ model, fit, startS, parameters, quantities }: CurveFit): unknown {
  return {
    model,
    startS,
    parameters: parameters.map(numbers),
    quantities: quantities.map(numbers),
    fit: { ...fit, aicc: finite(fit.aicc), degreesOfFreedom: finite(fit.degreesOfFreedom) },
  };
}

function numbers({ name, meaning, unit, result, reason, conditionalOn }: CurveQuantity): unknown {
  return {
    name,
    meaning,
    unit,
    value: result?.value ?? null,
    standardUncertainty: result?.standardUncertainty ?? null,
    degreesOfFreedom: result ? finite(result.degreesOfFreedom) : null,
    interval: result?.interval ?? null,
    reason,
    conditionalOn,
    budget:
      result?.budget.map(({ source, sensitivity, contribution, share }) => ({
        id: source.id,
        source: source.name,
        scope: source.scope,
        sensitivity,
        contribution,
        share,
        assumed: source.assumed,
      })) ?? [],
  };
}
