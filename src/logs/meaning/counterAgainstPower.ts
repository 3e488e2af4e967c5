import { counterEnergy } from '../counterEnergy.js';
import type { Block } from '../outline/Block.js';
import type { Readings } from '../Readings.js';
import { readingsOf } from '../readingsOf.js';
import type { Log } from '../types.js';
import { type EnergyQuestion, energySources } from './energySources.js';
import { type Parting, whereTheyPart } from './whereTheyPart.js';
import { digits, spanWords, whWords } from './words.js';

/** The integral of the power held against the counter of the same meter. */
export interface CounterComparison {
  readonly integralJ: number;
  readonly counterJ: number;
  /** Integral less counter. */
  readonly differenceJ: number;
  /** Of the difference; the gain of the meter has cancelled. */
  readonly standardUncertaintyJ: number;
  /** |difference| over twice its standard uncertainty; up to 1 they agree. */
  readonly ratio: number;
  readonly verdict: 'agree' | 'doubtful' | 'contradict';
  /** The stretch in which the difference grows; `null` unless they contradict. */
  readonly parting: Parting | null;
  readonly words: string;
}

/**
 * Compares the integral of the power with what the counter of the same meter counted, from its last reading at or
 * before `fromS` to the first at or after `toS`. Both see the same true power, so gain and offset cancel; what is
 * left are the steps of both, the sampling of the power, gaps, and that a counter is shown up to one interval late.
 * They agree up to two standard uncertainties, are doubtful up to three, and contradict each other beyond.
 *
 * Formula: u² = s²/6 + u²(quantisation, sampling, aliasing, gaps) + Σ(P·Δt)²/12 at both ends; s is the counter's
 * step (JCGM 100, 4.3.7). Units: seconds after the first sample, joules. `null` where one of the two is missing.
 * Errors: those of `integrateEnergy` and `counterEnergy`.
 *
 * @example
 * const text = 't [s],P [W],E [Wh]\n0,900,0.0\n20,900,5.0\n40,900,10.0\n60,900,15.0\n';
 * const log = readExport(new TextEncoder().encode(text));
 * counterAgainstPower(log, { fromS: 0, toS: 60 }).verdict // => "agree"
 */
export function counterAgainstPower(
  log: Log | Readings,
  limits: Pick<EnergyQuestion, 'fromS' | 'toS' | 'cyclesWithin'>,
): CounterComparison | null {
  const readings = readingsOf(log);
  if (!readings.has.power || !readings.has.energy) return null;
  const around = {
    fromS: counterTime(readings, limits.fromS, 'before') ?? limits.fromS,
    toS: counterTime(readings, limits.toS, 'after') ?? limits.toS,
  };
  const counter = counterEnergy(readings, around);
  if (!counter) return null;
  const integral = energySources(readings, { ...around, cyclesWithin: limits.cyclesWithin ?? limits });
  const lateJ = Math.hypot(endEnergyJ(readings, around.fromS), endEnergyJ(readings, around.toS));
  const differenceJ = integral.energyJ - counter.energyJ;
  const standardUncertaintyJ = Math.hypot(
    counter.resolutionJ / Math.sqrt(6),
    integral.combinedJ,
    lateJ / Math.sqrt(12),
  );
  const ratio = Math.abs(differenceJ) / (2 * standardUncertaintyJ);
  const verdict = ratio <= 1 ? 'agree' : ratio <= 1.5 ? 'doubtful' : 'contradict';
  const parting = verdict === 'contradict' ? whereTheyPart(readings, around, differenceJ) : null;
  const found = {
    integralJ: integral.energyJ,
    counterJ: counter.energyJ,
    differenceJ,
    standardUncertaintyJ,
    ratio,
    verdict,
    parting,
  } as const;
  return { ...found, words: wordsOf(found, around) };
}

/** Time of the last counter reading at or before a moment, or of the first at or after it. */
function counterTime(readings: Readings, atS: number, which: 'before' | 'after'): number | null {
  const { blocks } = readings.outline;
  const filled = (block: Block) => block.counter !== null && block.counter.known > 0;
  const block =
    which === 'before'
      ? blocks.findLast((each) => filled(each) && each.counter!.firstS <= atS)
      : blocks.find((each) => filled(each) && each.counter!.lastS >= atS);
  if (!block) return null;
  const { timesS, energyJ } = readings.rowsOf(block);
  const fits = (time: number, i: number) =>
    !Number.isNaN(energyJ![i]!) && (which === 'before' ? time <= atS : time >= atS);
  return (which === 'before' ? timesS.findLast(fits) : timesS.find(fits)) ?? null;
}

/** Energy of one median interval at the power of a moment: a counter may be shown that late. */
function endEnergyJ(readings: Readings, atS: number): number {
  const { blocks, intervals } = readings.outline;
  const block = blocks.find(({ power }) => power!.known > 0 && power!.lastS >= atS);
  if (!block) return 0;
  const { timesS, powerW } = readings.rowsOf(block);
  const row = timesS.findIndex((time, i) => time >= atS && !Number.isNaN(powerW![i]!));
  return (powerW![row] ?? 0) * intervals.median();
}

function wordsOf(
  found: Omit<CounterComparison, 'words'>,
  limits: { readonly fromS: number; readonly toS: number },
): string {
  const { integralJ, counterJ, differenceJ, standardUncertaintyJ, verdict, parting } = found;
  const both = `The integral of the power is ${whWords(integralJ, 6)}, the counter rose by ${whWords(counterJ, 6)}`;
  const apart = `they differ by ${whWords(Math.abs(differenceJ), 3)}, where ${whWords(2 * standardUncertaintyJ, 2)} can be explained`;
  if (verdict === 'agree') return `${both}: they agree.`;
  if (verdict === 'doubtful') return `${both}: ${apart}, which happens by chance now and then.`;
  return `${both}: ${apart}.${parting ? ` ${partingWords(parting, limits, counterJ)}` : ''}`;
}

function partingWords(
  { fromS, toS, differenceJ }: Parting,
  limits: { readonly fromS: number; readonly toS: number },
  counterJ: number,
): string {
  // A counter that never rose has no percentage.
  if (toS - fromS > 0.8 * (limits.toS - limits.fromS) && counterJ > 0)
    return `They part all along: the counter counts ${digits(Math.abs(100 * (differenceJ / counterJ)), 2)} % too ${differenceJ > 0 ? 'little' : 'much'} or the power is ${differenceJ > 0 ? 'too high' : 'too low'}.`;
  return `They part by ${whWords(Math.abs(differenceJ), 3)} ${spanWords({ fromS, toS })}.`;
}
