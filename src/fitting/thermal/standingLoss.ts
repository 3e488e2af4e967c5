import { problem } from '../../errors/index.js';
import { checkSeries } from './checkSeries.js';
import { holdMeans } from './holdMeans.js';
import { checkAmbient, checkPower, coldestK } from './prepareData.js';
import type { Stretch, TemperatureSeries, ThermalData } from './types.js';

/** What a hold tells. */
export interface StandingLoss {
  /** Mean power at the meter over whole cycles of the thermostat, W. */
  readonly heldPowerW: number;
  /** Mean of load less room, K. */
  readonly excessK: number;
  /** Held power for each kelvin: UA/κ, W/K. */
  readonly lossOverKappa: number;
  /** From the scatter between cycles, or between blocks where nothing cycles; null with less than three of them. */
  readonly standardUncertainty: number | null;
  readonly degreesOfFreedom: number | null;
  /** What went into a load that grew warmer meanwhile, W; null where its heat capacity over κ isn't stated. */
  readonly driftW: number | null;
  /** Energy in a day at this excess, J. */
  readonly energyPerDayJ: number;
  readonly usedS: Stretch;
  /** Whole cycles of the thermostat; 0 where nothing cycles. */
  readonly cycles: number;
}

/** The load grows warmer or colder meanwhile by no more than this part of its excess where C/κ isn't stated (common practice, no source). */
const mostDrift = 0.02;

/**
 * Loss at a held temperature: UA/κ = (P − C/κ·dT/dt)/(T − Ta), means over whole cycles of the thermostat in a stretch of the
 * log. Times κ it is UA. `heatCapacityOverKappaJPerK` (C/κ, from a fit 1/heatingRate) corrects for a load that drifts;
 * without it a drift of more than 2 % of the excess is refused.
 *
 * @throws `fit-power-missing`, `fit-ambient-missing`, `hold-bad`, and what bad series throw
 * @example
 * const timesS = Array.from({ length: 121 }, (_, i) => 30 * i);
 * const powerW = timesS.map((t) => (t % 300 < 90 ? 400 : 0));
 * const temperature = { timesS, temperaturesK: timesS.map(() => 353.15) };
 * const power = { timesS, powerW, between: 'step' };
 * standingLoss({ temperature, power, ambient: 293.15 }).lossOverKappa // => 2.0000
 */
export function standingLoss(
  data: ThermalData,
  options: { readonly stretch?: Stretch; readonly heatCapacityOverKappaJPerK?: number } = {},
): StandingLoss {
  const { temperature, power, ambient } = data;
  checkSeries('temperature', temperature.timesS, temperature.temperaturesK, coldestK, 'K');
  checkPower(power);
  const checked = checkAmbient(ambient);
  const room =
    typeof checked === 'number' ? { timesS: [0], temperaturesK: [checked] } : (ambient as TemperatureSeries);
  const means = holdMeans(temperature, power!, room, options.stretch);
  const excessK = means.temperatureK - means.ambientK;
  if (!(excessK > 1))
    throw problem('hold-bad', { got: `the load is ${excessK.toFixed(2)} K above the room` });
  if (!(means.powerW > 0)) throw problem('hold-bad', { got: `its mean power is ${means.powerW} W` });
  const overKappa = options.heatCapacityOverKappaJPerK;
  const { fromS, toS } = means.usedS;
  const driftK = means.driftKPerS * (toS - fromS);
  if (overKappa === undefined && Math.abs(driftK) > mostDrift * excessK)
    throw problem(
      'hold-bad',
      { got: `the load drifted by ${driftK.toFixed(2)} K while it was held` },
      {},
      'State C/κ from a fit, and the drift is corrected for.',
    );
  const driftW = overKappa === undefined ? null : overKappa * means.driftKPerS;
  const held = means.powerW - (driftW ?? 0);
  return {
    heldPowerW: means.powerW,
    excessK,
    lossOverKappa: held / excessK,
    standardUncertainty: means.standardErrorW === null ? null : means.standardErrorW / excessK,
    degreesOfFreedom: means.degreesOfFreedom,
    driftW,
    energyPerDayJ: held * 86_400,
    usedS: means.usedS,
    cycles: means.cycles,
  };
}

/**
 * Standing loss in a day, referred to another excess over the room: E·ΔT_ref/(T − Ta), 45 K where left out, as for a
 * store at 65 °C in a room at 20 °C. Source: IEC 60379:1987, clause 14, from memory.
 *
 * @throws `hold-bad` unless the store is warmer than the room
 * @example
 * standingLossAt({ energyJ: 1.32 * 3.6e6, storeK: 336.15, ambientK: 294.15 }) / 3.6e6 // => 1.414286
 */
export function standingLossAt(loss: {
  readonly energyJ: number;
  readonly storeK: number;
  readonly ambientK: number;
  readonly referenceExcessK?: number;
}): number {
  const { energyJ, storeK, ambientK, referenceExcessK = 45 } = loss;
  if (!(storeK > ambientK))
    throw problem('hold-bad', { got: `the store is at ${storeK} K in a room at ${ambientK} K` });
  return (energyJ * referenceExcessK) / (storeK - ambientK);
}
