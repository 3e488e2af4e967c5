import { integrateEnergy } from '../integrateEnergy.js';
import type { Readings } from '../Readings.js';
import { type Aliasing, aliasing } from './aliasing.js';
import { type GapDoubt, gapDoubt } from './gapDoubt.js';
import { countWords, digits, spanWords, wattWords } from './words.js';

/** What is known of the meter; half-widths of limits. */
export interface MeterLimits {
  /** As a share: 0.01 for 1 % of the reading. */
  readonly gain?: number;
  readonly offsetW?: number;
  /** The step of its power readings, where the export shows fewer or more digits than the meter resolves. */
  readonly digitW?: number;
}

/** One reason why an energy may be wrong. */
export interface EnergySource {
  readonly name: 'gain' | 'offset' | 'quantisation' | 'sampling' | 'aliasing' | 'gaps' | 'counter steps';
  /** `null` where nothing is known of it: that isn't zero. */
  readonly standardUncertaintyJ: number | null;
  readonly distribution: 'rectangular' | 'normal';
  readonly evidence: string;
}

/** An energy with the reasons why it may be wrong. */
export interface UncertainEnergy {
  readonly energyJ: number;
  readonly method: 'trapezoid' | 'step';
  readonly sources: readonly EnergySource[];
  /** Root of the sum of squares of the sources that are known. */
  readonly combinedJ: number;
  /** The sources that `combinedJ` lacks because nothing is known of them. */
  readonly notStated: readonly string[];
}

/** What `energySources` is asked for. */
export interface EnergyQuestion {
  readonly fromS: number;
  readonly toS: number;
  readonly method?: 'trapezoid' | 'step';
  readonly meter?: MeterLimits;
  /** Where to look for cycles, if not within the limits: they are the same, and found once. */
  readonly cyclesWithin?: { readonly fromS: number; readonly toS: number };
}

/** The energy by integration with all its sources; see `energyUncertainty`. */
export function energySources(readings: Readings, question: EnergyQuestion): UncertainEnergy {
  const { fromS, toS, method, meter = {} } = question;
  const integral = integrateEnergy(readings, { fromS, toS, ...(method ? { method } : {}) });
  const stepW = readings.resolution.powerW;
  const { gain, offsetW, digitW = stepW } = meter;
  const fresh = digitW !== null && stepW !== null && stepW > 0;
  const sources: EnergySource[] = [
    limitSource(
      'gain',
      gain,
      Math.abs(integral.energyJ),
      (a) => `±${digits(100 * a)} % of the energy, as stated`,
    ),
    limitSource('offset', offsetW, toS - fromS, (a) => `±${wattWords(a)} over the whole time, as stated`),
    {
      name: 'quantisation',
      standardUncertaintyJ: fresh ? (integral.quantisationUJ * digitW) / stepW : null,
      distribution: 'rectangular',
      evidence: fresh ? `readings in steps of ${wattWords(digitW)}` : 'the step of the readings is not known',
    },
    {
      name: 'sampling',
      standardUncertaintyJ: integral.samplingUJ,
      distribution: 'normal',
      evidence: `each change of power lies anywhere between two of ${countWords(integral.samples, 'reading')}`,
    },
    aliasingSource(
      integral.method === 'step' ? null : aliasing(readings, question.cyclesWithin ?? { fromS, toS }),
    ),
    gapSource(gapDoubt(readings, { fromS, toS })),
  ];
  const known = sources.flatMap(({ standardUncertaintyJ }) => standardUncertaintyJ ?? []);
  return {
    energyJ: integral.energyJ,
    method: integral.method,
    sources,
    combinedJ: Math.hypot(...known),
    notStated: sources.filter((each) => each.standardUncertaintyJ === null).map(({ name }) => name),
  };
}

function limitSource(
  name: 'gain' | 'offset',
  halfWidth: number | undefined,
  times: number,
  words: (halfWidth: number) => string,
): EnergySource {
  return {
    name,
    standardUncertaintyJ: halfWidth === undefined ? null : (halfWidth * times) / Math.sqrt(3),
    distribution: 'rectangular',
    evidence: halfWidth === undefined ? 'not stated' : words(halfWidth),
  };
}

function aliasingSource(found: Aliasing | null): EnergySource {
  return {
    name: 'aliasing',
    standardUncertaintyJ: found?.extraUJ ?? 0,
    distribution: 'normal',
    evidence:
      found?.evidence ?? 'each reading is the mean over its interval, so nothing falls between two readings',
  };
}

function gapSource({ count, totalS, longest, extraUJ, counted }: GapDoubt): EnergySource {
  const by = counted > 0 ? `, ${counted} of them held against the counter` : '';
  return {
    name: 'gaps',
    standardUncertaintyJ: extraUJ,
    distribution: 'rectangular',
    evidence: longest
      ? `${countWords(count, 'gap')} of ${digits(totalS)} s in all, the longest ${spanWords(longest)}, bridged by a straight line${by}`
      : 'the log has no gap here',
  };
}
