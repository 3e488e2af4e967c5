import { HeatledgerError } from '../../errors/index.js';
import type { ThermalData } from '../../fitting/index.js';
import { add, constant, type Propagated, propagate, type Quantity } from '../../uncertainty/index.js';
import { bodyOfHeater } from '../losses/lossOfHeater.js';
import { loadOf } from '../methods/loadOf.js';
import type { ThermometerErrors } from '../methods/thermometerOf.js';
import type { RunContext } from '../RunContext.js';
import { type MeterError, partThermometer, type curveRoom } from './logErrors.js';
import type { PlacedLogs } from './placeLogs.js';
import { powerBetween } from './powerBetween.js';
import type { PlainPart } from './partsOf.js';

/** Heat capacity of what warms and cools together. */
export interface PartCapacity {
  readonly total: Quantity;
  readonly result: Propagated;
  readonly load: ReturnType<typeof loadOf>;
  /** In words, what it holds; ends a sentence. */
  readonly words: string;
  /** How far it may be off where nobody measured the heater body. */
  readonly bodyAssumed: boolean;
}

/** What a part is made ready from. */
export interface PartInputs {
  readonly part: PlainPart;
  readonly room: ReturnType<typeof curveRoom>;
  readonly meter: MeterError | null;
  /** Begin and end of the heating. */
  readonly switchings: readonly number[];
}

/** Everything a part needs to be fitted, all times in seconds after the first sample of the temperature log. */
export interface PartSetup extends PartInputs {
  readonly data: ThermalData;
  /** First reading of the temperature in the part. */
  readonly firstS: number;
  readonly lastS: number;
  readonly thermometer: ThermometerErrors;
  readonly capacity: PartCapacity | null;
  readonly capacityMissing: string | null;
}

/** Temperatures of a part, corrected, with power and room beside them. null where the part holds no readings. */
export function partSetup(
  context: RunContext,
  placed: PlacedLogs,
  { part, meter, room, switchings }: PartInputs,
): PartSetup | null {
  const { temperature, power, powerStartS } = placed;
  const within = temperature.timesS.map((t, i) =>
    t >= part.stretch.fromS && t <= part.stretch.toS ? i : -1,
  );
  const rows = Array.from(within).filter((i) => i >= 0 && !Number.isNaN(temperature.temperatureK?.[i]));
  if (rows.length < 2) return null;
  const shown = rows.map((i) => temperature.temperatureK?.[i] as number);
  const coolK = shown.reduce((a, b) => Math.min(a, b));
  const hotK = shown.reduce((a, b) => Math.max(a, b));
  const thermometer = partThermometer(context, part.name, coolK, hotK);
  const timesS = Float64Array.from(rows, (i) => temperature.timesS[i] as number);
  const found = capacityOf(context, part.name, coolK, hotK, room?.mean.value ?? coolK);
  return {
    part,
    switchings,
    data: {
      temperature: { timesS, temperaturesK: Float64Array.from(shown, thermometer.corrected) },
      ...(power && meter
        ? { power: powerBetween(power, powerStartS, meter.factor, timesS, switchings) }
        : {}),
      ...(room === null ? {} : { ambient: room.ambient }),
    },
    firstS: timesS[0] as number,
    lastS: timesS.at(-1) as number,
    thermometer,
    meter,
    room,
    capacity: 'why' in found ? null : found,
    capacityMissing: 'why' in found ? found.why : null,
  };
}

/**
 * Water, vessel and heater body. While it heats the whole body warms with the load; on the way down it stands between load
 * and room, and `loadOf` takes a share.
 */
function capacityOf(
  context: RunContext,
  part: PlainPart['name'],
  coolK: number,
  hotK: number,
  ambientK: number,
): PartCapacity | { readonly why: string } {
  try {
    const load = loadOf(context, coolK, hotK, ambientK, null);
    const whole = part === 'warm-up' ? bodyOfHeater(context) : null;
    const body = whole ?? load.body;
    const total = add(load.water, load.vessel ?? constant(0), body);
    const bodyAssumed = context.heater.bodyHeatCapacity === undefined;
    const vessel = load.vessel ? 'water, vessel' : 'water, without the vessel';
    const half = Math.sqrt(3) * propagate(body).standardUncertainty;
    const kJ = (joules: number) => Number((joules / 1000).toPrecision(2));
    const bodyWords = bodyAssumed
      ? `a heater body of ${kJ(Math.max(0, body.value - half))} to ${kJ(body.value + half)} kJ/K, which is assumed`
      : 'the heater body as its record says';
    return { total, result: propagate(total), load, words: `${vessel} and ${bodyWords}`, bodyAssumed };
  } catch (error) {
    if (error instanceof HeatledgerError) return { why: error.message };
    throw error;
  }
}
