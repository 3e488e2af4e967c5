import { problem } from '../../errors/index.js';
import { saturationPressurePa } from '../../water/index.js';
import type { OpenVessel } from './openCoolDownProblem.js';
import type { Prepared } from './Prepared.js';
import { vapourCurve } from './vapourCurve.js';

/** What is known of the vapour of an open vessel that cools. */
export interface VapourLoss {
  /** Mass that left between the first and the last reading, from a third weighing, kg. */
  readonly lostKg: number;
  /** Relative humidity of the room, 0 to 1. */
  readonly relativeHumidity: number;
}

/**
 * The vessel of a log: g from the mass that left, g = m/∫(p_sat(T) − φ·p_sat(Ta)) dt over the logged temperatures, and
 * with it g/C for a heat capacity of load and vessel.
 */
export function openVessel(data: Prepared, vapour: VapourLoss, heatCapacityJPerK: number): OpenVessel {
  const { lostKg, relativeHumidity } = vapour;
  if (!(lostKg >= 0 && lostKg < Number.POSITIVE_INFINITY))
    throw problem('fit-input-bad', {
      what: 'The mass of the vapour',
      expected: '0 kg or more',
      got: `${lostKg} kg`,
    });
  if (!(relativeHumidity >= 0 && relativeHumidity <= 1))
    throw problem('humidity-range', { got: String(relativeHumidity) });
  if (!(heatCapacityJPerK > 0 && heatCapacityJPerK < Number.POSITIVE_INFINITY))
    throw problem('fit-input-bad', {
      what: 'The heat capacity of load and vessel, which an open vessel needs,',
      expected: 'above 0 J/K',
      got: `${heatCapacityJPerK} J/K`,
    });
  const roomPa = (ambientK: number) => relativeHumidity * saturationPressurePa(ambientK);
  const pascalSeconds = drivingForce(data, roomPa);
  if (!(pascalSeconds > 0))
    throw problem('fit-input-bad', {
      what: 'The vapour pressure of the load',
      expected: 'above that of the room, or nothing evaporates',
      got: `a mean difference of ${pascalSeconds / data.used.toS} Pa`,
    });
  return {
    curve: vapourCurve(data.temperaturesK),
    rate: lostKg / pascalSeconds / heatCapacityJPerK,
    roomPa,
  };
}

/** ∫(p_sat(T) − φ·p_sat(Ta)) dt over the readings, Pa·s. */
function drivingForce(data: Prepared, roomPa: (ambientK: number) => number): number {
  const { timesS, temperaturesK, timeline } = data;
  const line = timeline!;
  const room = new Float64Array(timesS.length).fill(roomPa(line.referenceK));
  line.ambientToK?.forEach((ambient, i) => {
    const reading = line.reading === null ? i + 1 : line.reading[i]!;
    if (reading >= 0) room[reading] = roomPa(line.referenceK + ambient);
  });
  const excess = temperaturesK.map((t, i) => saturationPressurePa(t) - room[i]!);
  let sum = 0;
  for (let i = 1; i < excess.length; i += 1)
    sum += ((timesS[i]! - timesS[i - 1]!) * (excess[i]! + excess[i - 1]!)) / 2;
  return sum;
}
