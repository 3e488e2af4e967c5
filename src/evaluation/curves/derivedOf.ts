import type { ThermalFit } from '../../fitting/index.js';
import { add, constant, divide, lift, multiply, propagate, type Quantity } from '../../uncertainty/index.js';
import type { PartSetup } from './partSetup.js';
import { type TargetInputs, targetTime } from './targetTime.js';
import type { CurveQuantity } from './types.js';

/** Less than so many standard uncertainties from zero a loss gives no time constant. */
const LEAST_SIGNIFICANCE = 3;

/** What follows from the parameters of a fit, by name, with all doubts. */
export function derivedOf(
  fit: ThermalFit,
  parameters: readonly Quantity[] | null,
  setup: PartSetup,
  targetK: number | undefined,
): CurveQuantity[] {
  const graphs = parameters === null ? {} : graphsOf(fit, parameters, setup, targetK);
  return fit.quantities.map(({ name, meaning, unit, reason, conditionalOn }) => {
    const graph = graphs[name];
    const known = typeof graph === 'object';
    return {
      name,
      meaning,
      unit,
      result: known ? propagate(graph) : null,
      reason: known
        ? null
        : typeof graph === 'string'
          ? graph
          : (reason ?? fit.covarianceReason ?? 'it can’t be told'),
      conditionalOn: name === 'kappa' || name === 'ua' ? capacityWords(setup) : conditionalOn,
    };
  });
}

/** C in words, which κ and UA from one fill rest on. */
function capacityWords({ capacity }: PartSetup): string | null {
  if (capacity === null) return null;
  const { value, expandedUncertainty } = capacity.result;
  return `a heat capacity of ${(value / 1000).toFixed(1)} ± ${(expandedUncertainty / 1000).toFixed(1)} kJ/K: ${capacity.words}`;
}

/** Above this water boils first. */
const BOILS_K = 373.15;
const boils = 'the water boils before it comes there';

/** A graph, or the reason why there is none. */
function graphsOf(
  fit: ThermalFit,
  parameters: readonly Quantity[],
  setup: PartSetup,
  targetK: number | undefined,
): Record<string, Quantity | string> {
  const named = Object.fromEntries(fit.parameters.map(({ name }, j) => [name, parameters[j] as Quantity]));
  const { heatingRate, couplingRate, timeConstant: tau } = named;
  const lossRate =
    fit.model === 'approach' ? undefined : (named.lossRate ?? (tau && divide(constant(1), tau)));
  const known: Record<string, Quantity | string> = {};
  const power =
    setup.meter && multiply(constant(setup.meter.meanPowerW), add(constant(1), setup.meter.error));
  const ambient = setup.room?.mean ?? constant(0);
  if (lossRate) {
    if (setup.capacity) known.ua = multiply(lossRate, setup.capacity.total);
    if (fit.model === 'coolDown') known.lossRate = lossRate;
    const { value, standardUncertainty } = propagate(lossRate);
    const settled = value > LEAST_SIGNIFICANCE * standardUncertainty;
    const unsettled = 'the loss to the room is not known well enough from this log';
    if (heatingRate) {
      known.lossOverKappa = divide(lossRate, heatingRate);
      known.timeConstant = settled ? divide(constant(1), lossRate) : unsettled;
      if (power)
        known.finalTemperature = settled
          ? below(add(ambient, divide(multiply(heatingRate, power), lossRate)))
          : unsettled;
    }
  }
  if (heatingRate && setup.capacity) known.kappa = multiply(heatingRate, setup.capacity.total);
  if (couplingRate) known.lag = divide(constant(1), couplingRate);
  if (targetK !== undefined)
    known.timeToTarget =
      targetK > BOILS_K ? boils : targetGraph(fit, parameters, ambient, power ?? constant(0), targetK);
  return known;
}

const below = (temperature: Quantity): Quantity | string =>
  temperature.value > BOILS_K ? boils : temperature;

/** The time to a target as a function of parameters, room and power; derivatives by central differences. */
function targetGraph(
  fit: ThermalFit,
  parameters: readonly Quantity[],
  ambient: Quantity,
  power: Quantity,
  targetK: number,
): Quantity | string {
  const names = fit.parameters.map(({ name }) => name);
  const inputs = [...parameters, ambient, power];
  const evaluate = (values: readonly number[]): number => {
    const at: TargetInputs = {
      parameters: Object.fromEntries(names.map((name, j) => [name, values[j] as number])),
      ambientK: values[names.length] as number,
      powerW: values[names.length + 1] as number,
    };
    return targetTime(fit.model, at, targetK);
  };
  const values = inputs.map(({ value }) => value);
  const partials = values.map((value, j) => {
    const step = 1e-6 * Math.abs(value) || 1e-9;
    const moved = (by: number) => evaluate(values.map((each, i) => (i === j ? each + by : each)));
    return (moved(step) - moved(-step)) / (2 * step);
  });
  if (!Number.isFinite(evaluate(values)) || partials.some((each) => !Number.isFinite(each)))
    return 'the curve does not come by that temperature';
  return lift('the time to a target', evaluate, partials, ...inputs);
}
