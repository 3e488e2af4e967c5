import { problem } from '../errors/index.js';

export interface RotaInputs {
  readonly heaters: readonly string[];
  /** Plug-in meters, each with a bench and a person. */
  readonly meters: number;
  /** Length of the day, seconds. */
  readonly daySeconds: number;
  /** One test with handling, seconds. */
  readonly testSeconds: number;
  /** From the end of a test until the body is at rest again, seconds. */
  readonly coolSeconds: number;
  /** Order of the heaters, and of who is repeated first. */
  readonly order: readonly number[];
}

export interface RotaSlot {
  /** Counted from 1. */
  readonly meter: number;
  readonly heater: string;
  /** Counted from 1: the first, second ... run of this heater. */
  readonly run: number;
  readonly startS: number;
  readonly endS: number;
}

export interface Rota {
  readonly slots: readonly RotaSlot[];
  /** Heaters that no slot was left for. */
  readonly left: readonly string[];
  /** Heaters with at least two runs: their scatter is borrowed for the others. */
  readonly repeated: readonly string[];
}

/**
 * A day's rota: every heater once, in random order; then repeats of those that have cooled longest, round the meters,
 * as long as a whole test fits. A meter never waits while some heater is at rest.
 *
 * Throws `rota-bad` where nothing fits.
 *
 * @example
 * const rota = dayRota({ heaters: ['a', 'b'], meters: 1, daySeconds: 7200, testSeconds: 3000, coolSeconds: 9000, order: [1, 0] });
 * rota.slots.map((slot) => slot.heater) // => ["b", "a"]
 */
export function dayRota(inputs: RotaInputs): Rota {
  const { heaters, meters, daySeconds, testSeconds, coolSeconds, order } = inputs;
  if (heaters.length === 0 || !(meters >= 1))
    throw problem('rota-bad', { reason: 'there must be a heater and a meter' });
  if (testSeconds > daySeconds) {
    const minutes = (seconds: number) => `${Math.round(seconds / 60)} min`;
    throw problem('rota-bad', {
      reason: `one test takes ${minutes(testSeconds)}, the day has ${minutes(daySeconds)}`,
    });
  }
  const restFrom = heaters.map(() => 0);
  const runs = heaters.map(() => 0);
  const freeFrom = Array.from({ length: meters }, () => 0);
  const slots: RotaSlot[] = [];
  for (;;) {
    const pick = next(restFrom, runs, freeFrom, order);
    if (pick.startS + testSeconds > daySeconds) break;
    const endS = pick.startS + testSeconds;
    const run = (runs[pick.heater] as number) + 1;
    runs[pick.heater] = run;
    restFrom[pick.heater] = endS + coolSeconds;
    freeFrom[pick.meter] = endS;
    slots.push({
      meter: pick.meter + 1,
      heater: heaters[pick.heater] as string,
      run,
      startS: pick.startS,
      endS,
    });
  }
  slots.sort((a, b) => a.startS - b.startS || a.meter - b.meter);
  return {
    slots,
    left: heaters.filter((_, i) => runs[i] === 0),
    repeated: heaters.filter((_, i) => (runs[i] as number) >= 2),
  };
}

/** The heater and meter that can start first: the least tested before others, then in the drawn order. */
function next(
  restFrom: readonly number[],
  runs: readonly number[],
  freeFrom: readonly number[],
  order: readonly number[],
): { heater: number; meter: number; startS: number } {
  const meter = freeFrom.indexOf(Math.min(...freeFrom));
  const free = freeFrom[meter] as number;
  const startOf = (heater: number) => Math.max(free, restFrom[heater] as number);
  const fewest = Math.min(...runs);
  const untested = order.filter((heater) => runs[heater] === fewest && fewest === 0);
  const candidates = untested.length > 0 ? untested : order;
  const heater = candidates.reduce((best, each) => {
    const gain = startOf(each) - startOf(best);
    return gain < 0 || (gain === 0 && (runs[each] as number) < (runs[best] as number)) ? each : best;
  });
  return { heater, meter, startS: startOf(heater) };
}
