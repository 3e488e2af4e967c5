import { type LossCorrection, type Stretch, regnaultPfaundler } from '../../fitting/index.js';
import type { QuietPeriods } from './quietPeriods.js';

/** The rise without loss to the room, and how it hangs on what is in doubt. */
export interface LossFreeRise {
  readonly plainRiseK: number;
  readonly correctedRiseK: number;
  /** By the mass of vapour, K/kg, and by the drifts before and after, K/(K/s). */
  readonly byVapourKg: number;
  readonly byForeDrift: number;
  readonly byAfterDrift: number;
  /** Without vapour: k in 1/s with its standard uncertainty from the scatter, T∞ in K. */
  readonly coolingRate: readonly [value: number, u: number];
  readonly convergenceK: number;
  readonly scatterK: number;
  readonly degreesOfFreedom: number;
}

/** A mass of vapour at which its influence is taken where none was weighed, kg. */
const TRIAL_KG = 0.001;

/**
 * Loss correction after Regnault and Pfaundler with the vapour taken out of both drifts: it is booked by weighing, and k
 * must not hold it once more. `coolingKPerS` is the fall that a kilogram of vapour makes at a temperature.
 */
export function lossFreeRise(
  periods: QuietPeriods,
  vapourKg: number,
  coolingKPerS: (temperatureK: number) => number,
): LossFreeRise | { readonly why: string } {
  const trialKg = Math.abs(vapourKg) > TRIAL_KG ? vapourKg : TRIAL_KG;
  const plain = corrected(periods, periods.temperaturesK);
  const dry = corrected(
    periods,
    withoutVapour(periods, (kelvin) => trialKg * coolingKPerS(kelvin)),
  );
  if (plain === null || dry === null)
    return { why: 'The temperature drifts before and after the heating in the same way.' };
  const byVapourKg = (dry.correction - plain.correction) / trialKg;
  const correction = plain.correction + byVapourKg * vapourKg;
  const lengthS = periods.afterPeriod.fromS - periods.forePeriod.toS;
  // Mean of T − T_f between the periods over T_a − T_f: how the drifts share in the correction.
  const share = meanPosition(periods, plain.rise);
  return {
    plainRiseK: plain.rise,
    correctedRiseK: plain.rise + correction,
    byVapourKg,
    byForeDrift: -(1 - share) * lengthS,
    byAfterDrift: -share * lengthS,
    coolingRate: [dry.found.coolingRate.value!, dry.found.coolingRate.standardUncertainty ?? Number.NaN],
    convergenceK: dry.found.convergence.value!,
    scatterK: Math.max(
      plain.found.correctedRise.standardUncertainty ?? Number.NaN,
      dry.found.correctedRise.standardUncertainty ?? Number.NaN,
    ),
    degreesOfFreedom: dry.found.degreesOfFreedom,
  };
}

function corrected(
  { timesS, forePeriod, afterPeriod, switchOffS, lagS }: QuietPeriods,
  temperaturesK: readonly number[],
): { readonly found: LossCorrection; readonly rise: number; readonly correction: number } | null {
  const temperature = { timesS, temperaturesK };
  // The periods were chosen with this lag; a rounding must not refuse them.
  const found = regnaultPfaundler({
    temperature,
    forePeriod,
    afterPeriod,
    switchOffS,
    lagS: lagS * (1 - 1e-9),
  });
  const [rise, free] = [found.plainRise.value, found.correctedRise.value];
  return rise === null || free === null ? null : { found, rise, correction: free - rise };
}

/** The readings with the fall by vapour given back within each period, about its middle: the drifts change, the means don't. */
function withoutVapour(
  { timesS, temperaturesK, forePeriod, afterPeriod }: QuietPeriods,
  fallKPerS: (temperatureK: number) => number,
): number[] {
  const given = [forePeriod, afterPeriod].map((period) => {
    const within = temperaturesK.filter((_, i) => isIn(period, timesS[i]!));
    const mean = within.reduce((sum, kelvin) => sum + kelvin, 0) / within.length;
    return { period, fall: within.length > 0 ? fallKPerS(mean) : 0 };
  });
  return temperaturesK.map((kelvin, i) => {
    const at = given.find(({ period }) => isIn(period, timesS[i]!));
    return at ? kelvin + at.fall * (timesS[i]! - (at.period.fromS + at.period.toS) / 2) : kelvin;
  });
}

const isIn = ({ fromS, toS }: Stretch, timeS: number) => timeS >= fromS && timeS <= toS;

function meanPosition({ timesS, temperaturesK, forePeriod, afterPeriod }: QuietPeriods, riseK: number) {
  const [fromS, toS] = [forePeriod.toS, afterPeriod.fromS];
  let area = 0;
  let span = 0;
  let first: number | null = null;
  for (let i = 1; i < timesS.length; i += 1) {
    if (timesS[i - 1]! < fromS || timesS[i]! > toS) continue;
    first ??= temperaturesK[i - 1]!;
    const width = timesS[i]! - timesS[i - 1]!;
    span += width;
    area += (width * (temperaturesK[i]! + temperaturesK[i - 1]!)) / 2;
  }
  return span > 0 && first !== null ? (area / span - first) / riseK : 0.5;
}
