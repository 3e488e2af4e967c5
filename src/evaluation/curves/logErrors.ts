import { problem } from '../../errors/index.js';
import { meterEnergy } from '../../instruments/index.js';
import type { Stretch } from '../../fitting/index.js';
import type { Log } from '../../logs/index.js';
import { readingOf } from '../../protocols/index.js';
import { add, constant, errorOf, type Quantity } from '../../uncertainty/index.js';
import { levelOf, type RunContext, instrumentOf, withAllowances } from '../RunContext.js';
import { relativeError } from '../methods/relativeError.js';
import { type Room, roomOf } from '../methods/roomOf.js';
import { type ThermometerEnd, type ThermometerErrors, thermometerOf } from '../methods/thermometerOf.js';
import type { PlacedLogs } from './placeLogs.js';
import type { PartName } from './types.js';

/** Temperature of the room where it stands in the workbook and nobody read it; common practice, no source. */
const SETTINGS_AMBIENT_HALF_WIDTH_K = 3;

/** Correction and relative error of a logged power. */
export interface MeterError {
  readonly factor: number;
  /** True less shown, relative; value zero. */
  readonly error: Quantity;
  /** While heating, corrected. */
  readonly meanPowerW: number;
}

/**
 * The wattmeter's errors over the heating of a log, those of the energy of the same run: one gain for all its readings. null
 * without power or heating.
 */
export function meterErrorOf(
  context: RunContext,
  { power, powerStartS }: PlacedLogs,
  heating: Stretch | null,
): MeterError | null {
  if (power === null || heating === null) return null;
  const heatingS = heating.toS - heating.fromS;
  const meanPowerW = meanPowerOf(power, powerStartS, heating);
  if (!(meanPowerW > 0)) return null;
  const id = context.run.instruments.wattmeter;
  if (id === undefined)
    throw problem('reading-missing', { run: context.run.id, what: 'wattmeter' }, { file: context.run.id });
  const meter = instrumentOf(context, id);
  const digitW = meter.powerResolution ?? power.resolution.powerW;
  const indicationJ = meanPowerW * heatingS;
  const energy = meterEnergy(context.book, meter, {
    indicationJ,
    ownErrors: [],
    meanPowerW,
    durationS: heatingS,
    level: context.run.setting,
    ...(digitW === null ? {} : { powerDigitW: digitW }),
  });
  const allowed = withAllowances(context, 'energy', energy, meter.id);
  return {
    factor: allowed.value / indicationJ,
    error: relativeError(allowed),
    meanPowerW: allowed.value / heatingS,
  };
}

/**
 * The thermometer over a part of the log: the errors of its readings at start and end of the heating, so that what T1 and T2
 * share with the log is shared; a fall shares that of T2 at its hot end.
 */
export function partThermometer(
  context: RunContext,
  part: PartName,
  coolK: number,
  hotK: number,
): ThermometerErrors {
  const levelAt = (role: 'startTemperature' | 'endTemperature', otherwise: string) => {
    const reading = readingOf(context.protocol, context.run, role);
    return reading === null ? otherwise : levelOf(context.protocol, reading);
  };
  const end = (atK: number, role: ThermometerEnd['role'], level: string): ThermometerEnd => ({
    atK,
    role,
    level,
  });
  if (part === 'warm-up')
    return thermometerOf(
      context,
      end(coolK, 'startTemperature', levelAt('startTemperature', 'start')),
      end(hotK, 'endTemperature', levelAt('endTemperature', 'end')),
    );
  // In a cool-down test the hot end is its start; after a heating it is T2, and nobody stirs on the way down.
  const whole = context.protocol.evaluates === 'cool-down';
  return thermometerOf(
    context,
    end(coolK, 'endTemperature', 'cool'),
    whole
      ? end(hotK, 'startTemperature', 'hot')
      : end(hotK, 'endTemperature', levelAt('endTemperature', 'hot')),
  );
}

/** The room as read, else as the workbook says, in words too; null where neither is there. */
export function curveRoom(context: RunContext, fromMs: number): (Room & { readonly words: string }) | null {
  const read = (role: 'ambientTemperature' | 'ambientTemperatureAfter') =>
    readingOf(context.protocol, context.run, role);
  if (read('ambientTemperature')?.instrument) {
    const twice = read('ambientTemperatureAfter') !== null;
    return {
      ...roomOf(context, fromMs),
      words: twice ? 'read before and after' : 'read once; ±1 K allowed for its drift',
    };
  }
  const { ambient } = context.workbook.settings;
  if (ambient === undefined) return null;
  const error = errorOf(
    context.book.get({
      id: `run:${context.run.id}:ambient-of-workbook`,
      name: 'temperature of the room, from the workbook and not read',
      halfWidth: SETTINGS_AMBIENT_HALF_WIDTH_K,
      scope: 'run',
      assumed: true,
    }),
  );
  const words = `from the workbook and not read; ±${SETTINGS_AMBIENT_HALF_WIDTH_K} K allowed`;
  return { mean: add(constant(ambient), error), error, ambient, words };
}

/** Mean power between two moments of the temperature log, W; as logged. */
function meanPowerOf(power: Log, startS: number, heating: Stretch): number {
  let sum = 0;
  let count = 0;
  power.timesS.forEach((t, i) => {
    const watts = power.powerW?.[i] as number;
    if (t + startS < heating.fromS || t + startS > heating.toS || Number.isNaN(watts)) return;
    sum += watts;
    count += 1;
  });
  return count > 0 ? sum / count : Number.NaN;
}
