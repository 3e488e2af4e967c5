import { problem } from '../../errors/index.js';
import { type Blocks, blocksOf } from './blocksOf.js';
import { checkSeries } from './checkSeries.js';
import { heatingOf } from './heatingOf.js';
import { type Checked, mergeTimes, shifted } from './mergeTimes.js';
import type { Needs, Prepared } from './Prepared.js';
import type { ThermalData, ThermalFitOptions } from './types.js';
import { usualIntervalS } from './usualIntervalS.js';

/** Lowest temperature that can be meant in kelvin: −73 °C; below it somebody gave °C. */
export const coldestK = 200;

/** Checks the data once and brings them into the form that models are evaluated on. */
export function prepareData(data: ThermalData, options: ThermalFitOptions, needs: Needs): Prepared {
  const { temperature, power, ambient } = checkData(data, needs);
  const originS = temperature.timesS[0]!;
  const notes: string[] = [];
  const [from, to] = commonReadings(temperature.timesS, power, ambient, notes);
  const timesS = shifted(temperature.timesS, originS).subarray(from, to);
  const temperaturesK = temperature.values.subarray(from, to);
  const blocks = blocksOf(timesS, temperaturesK, options);
  checkEnough(temperaturesK, blocks, needs);
  const heating = power ? heatingOf(power.timesS, power.values, originS) : null;
  const { blockOf } = blocks;
  let first = 0;
  let last = blockOf.length - 1;
  while (blockOf[first]! < 0) first += 1;
  while (blockOf[last]! < 0) last -= 1;
  const readings = Math.round(blocks.share.reduce((sum, share) => sum + 1 / share, 0));
  return {
    timesS,
    temperaturesK,
    ...blocks,
    timeline: ambient === null ? null : mergeTimes(timesS, blockOf, power, ambient, originS),
    heating: heating?.stretch ?? null,
    heatingPowerW: heating?.meanW ?? null,
    stepK: smallestStepK(temperaturesK),
    used: {
      readings,
      leftOut: temperature.timesS.length - readings,
      fromS: timesS[first]!,
      toS: timesS[last]!,
      notes,
    },
  };
}

/** The series that a model needs, checked. */
function checkData({ temperature, power, ambient }: ThermalData, needs: Needs) {
  const checked = checkSeries('temperature', temperature.timesS, temperature.temperaturesK, coldestK, 'K');
  return {
    temperature: checked,
    power: needs.power ? checkPower(power) : null,
    ambient: needs.ambient ? checkAmbient(ambient) : null,
  };
}

/** The power, or a problem where there is none. */
export function checkPower(power: ThermalData['power']): Checked {
  if (!power)
    throw problem('fit-power-missing', {}, {}, 'Without a power fit coolDown to the part without heating.');
  const checked = checkSeries('power', power.timesS, power.powerW, -Number.MAX_VALUE, 'W');
  return { ...checked, step: power.between === 'step' };
}

/** The room's temperature, or a problem where there is none. */
export function checkAmbient(ambient: ThermalData['ambient']): number | Checked {
  if (ambient === undefined)
    throw problem(
      'fit-ambient-missing',
      {},
      {},
      'Log it, or read it once; `approach` fits where a curve goes without it.',
    );
  if (typeof ambient !== 'number')
    return checkSeries('ambient temperature', ambient.timesS, ambient.temperaturesK, coldestK, 'K');
  checkSeries('ambient temperature', [0], [ambient], coldestK, 'K');
  return ambient;
}

/** First and last (exclusive) of the readings for which everything else is known too. */
function commonReadings(
  timesS: Float64Array,
  power: Checked | null,
  ambient: number | Checked | null,
  notes: string[],
): [number, number] {
  const series = [
    ...(power ? [{ what: 'power', timesS: power.timesS, heldS: 0 }] : []),
    ...(ambient !== null && typeof ambient === 'object'
      ? [{ what: 'ambient temperature', timesS: ambient.timesS, heldS: usualIntervalS(ambient.timesS) }]
      : []),
  ];
  let from = 0;
  let to = timesS.length;
  for (const { what, timesS: other, heldS } of series) {
    const fromS = other[0]! - heldS;
    const toS = other[other.length - 1]! + heldS;
    const before = to - from;
    while (from < to && timesS[from]! < fromS) from += 1;
    while (to > from && timesS[to - 1]! > toS) to -= 1;
    const lost = before - (to - from);
    if (lost > 0)
      notes.push(`${lost} readings of the temperature lie outside the log of the ${what} and are left out`);
    if (to > from) continue;
    const [startS, endS] = [timesS[0]!, timesS[timesS.length - 1]!];
    throw problem('fit-no-overlap', { what, fromS, toS, startS, endS });
  }
  return [from, to];
}

function checkEnough(temperaturesK: Float64Array, blocks: Blocks, { parameters }: Needs): void {
  const count = blocks.observedK.length;
  if (count <= parameters)
    throw problem(
      'fit-too-few-blocks',
      { parameters, needed: parameters + 1, got: count, blockS: blocks.blockS },
      {},
      'Log for longer, or choose shorter blocks (their errors are then less independent).',
    );
  const first = temperaturesK[0]!;
  for (let i = 1; i < temperaturesK.length; i += 1) if (temperaturesK[i] !== first) return;
  throw problem('fit-constant', { readings: temperaturesK.length, got: `${first} K` });
}

function smallestStepK(values: Float64Array): number {
  let least = Number.POSITIVE_INFINITY;
  for (let i = 1; i < values.length; i += 1) {
    const step = Math.abs(values[i]! - values[i - 1]!);
    // Steps far below any thermometer's are rounding of the conversion to kelvin.
    if (step > 1e-6 && step < least) least = step;
  }
  return Number.isFinite(least) ? least : 0;
}
