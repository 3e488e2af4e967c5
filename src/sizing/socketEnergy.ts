import { problem } from '../errors/index.js';
import { enthalpy } from '../water/index.js';

/** What is to be heated. Temperatures in kelvin. */
export interface Load {
  readonly massKg: number;
  readonly startK: number;
  readonly endK: number;
  /** J/(kg K); null means water. */
  readonly specificHeat: number | null;
}

/** What the figure says about one future heating. */
export interface HeaterEfficiency {
  readonly value: number;
  readonly prediction: readonly [number, number];
}

export interface SocketEnergy {
  /** Heat into the load, joules. */
  readonly heatJ: number;
  /** Energy at the socket, joules, with the interval of one future heating. */
  readonly energyJ: { readonly value: number; readonly interval: readonly [number, number] };
  /** How the doubt of the load was taken, in words. */
  readonly assumption: string;
}

/** Doubt of a load as a half-width over its heat: mass as filled, specific heat as typed; common practice, no source. */
const WATER_HALF_WIDTH = 0.01;
const STATED_HALF_WIDTH = 0.05;
const ATMOSPHERE_PA = 101_325;

/**
 * Energy at the socket for a load: heat over efficiency, with the prediction interval of the figure and the doubt of
 * the load taken together in quadrature on either side. Never without an interval.
 *
 * Throws `load-bad` for a mass, rise or specific heat that isn't above zero and finite, `efficiency-bad` for one that is not
 * above 0 or is above 1 by more than a figure's doubt may put it there (1.05), `prediction-open` where the prediction
 * reaches down to nothing, and `water-not-liquid` for water that would boil at the sea.
 *
 * @example
 * const load = { massKg: 10, startK: 283.15, endK: 333.15, specificHeat: 4000 };
 * socketEnergy(load, { value: 0.5, prediction: [0.48, 0.52] }).energyJ.value // => 4000000
 */
export function socketEnergy(load: Load, efficiency: HeaterEfficiency): SocketEnergy {
  const { massKg, startK, endK, specificHeat } = load;
  if (!(massKg > 0 && massKg < Number.POSITIVE_INFINITY))
    throw problem('load-bad', { what: 'mass', got: `${massKg} kg` }, { key: '--mass' });
  if (!(endK > startK)) {
    throw problem(
      'load-bad',
      { what: 'rise from start to end', got: `${(endK - startK).toFixed(2)} K` },
      { key: '--end' },
    );
  }
  if (specificHeat !== null && !(specificHeat > 0 && specificHeat < Number.POSITIVE_INFINITY)) {
    throw problem(
      'load-bad',
      { what: 'specific heat', got: String(specificHeat) },
      { key: '--specific-heat' },
    );
  }
  const [low, high] = efficiency.prediction;
  if (!(efficiency.value > 0 && efficiency.value <= 1.05)) {
    throw problem('efficiency-bad', { got: efficiency.value.toFixed(3) });
  }
  if (!(low > 0)) throw problem('prediction-open', { low: low.toFixed(3) });
  const perKg =
    specificHeat === null
      ? enthalpy(endK, ATMOSPHERE_PA) - enthalpy(startK, ATMOSPHERE_PA)
      : specificHeat * (endK - startK);
  const heatJ = massKg * perKg;
  const energyJ = heatJ / efficiency.value;
  const load95 = specificHeat === null ? WATER_HALF_WIDTH : STATED_HALF_WIDTH;
  const below = Math.hypot(1 - efficiency.value / high, load95);
  const above = Math.hypot(efficiency.value / low - 1, load95);
  return {
    heatJ,
    energyJ: { value: energyJ, interval: [energyJ * (1 - below), energyJ * (1 + above)] },
    assumption: `the load taken as known to ± ${load95 * 100} % (common practice, no source)`,
  };
}
