import type { ThermalData } from '../../fitting/index.js';
import type { Log } from '../../logs/index.js';

/** Where a power log is finer than this part of the temperature's interval, its means between readings are taken. */
const MUCH_FINER = 1 / 3;

/**
 * The known rows of a logged power times a factor, on the clock of the temperature; `startS` is its first sample there. A log
 * that is much finer than the temperature's is given as its means between two readings of the temperature and the switchings:
 * the energy by each of them is the same, when within seconds it came is not seen, and a fit is ten times as fast.
 */
export function powerBetween(
  log: Log,
  startS: number,
  factor: number,
  temperatureS: Float64Array,
  switchings: readonly number[],
): NonNullable<ThermalData['power']> {
  const rows = Array.from(log.timesS.keys()).filter((i) => !Number.isNaN(log.powerW?.[i]));
  const timesS = Float64Array.from(rows, (i) => (log.timesS[i] as number) + startS);
  const powerW = Float64Array.from(rows, (i) => factor * (log.powerW?.[i] as number));
  const nodes = nodesOf(timesS, temperatureS, switchings);
  const within = timesS.filter((t) => t >= (nodes[0] ?? 0) && t <= (nodes.at(-1) ?? 0)).length;
  if (nodes.length < 3 || nodes.length > MUCH_FINER * within) return { timesS, powerW };
  const energyJ = energyAt(timesS, powerW, nodes);
  const means = nodes.map((_, k) => {
    const from = Math.min(k, nodes.length - 2);
    return (energyJ[from + 1]! - energyJ[from]!) / (nodes[from + 1]! - nodes[from]!);
  });
  return { timesS: nodes, powerW: means, between: 'step' };
}

/** So much longer at either end, so that a clock may be moved a little, s. */
const ROOM_S = 60;

/** Readings of the temperature and switchings that the power log covers, in order, its ends among them. */
function nodesOf(timesS: Float64Array, temperatureS: Float64Array, switchings: readonly number[]): number[] {
  const fromS = Math.max(timesS[0] ?? 0, (temperatureS[0] ?? 0) - ROOM_S);
  const toS = Math.min(timesS.at(-1) ?? 0, (temperatureS.at(-1) ?? 0) + ROOM_S);
  const all = [fromS, ...temperatureS, ...switchings, toS].filter((t) => t >= fromS && t <= toS);
  return [...new Set(all)].sort((a, b) => a - b);
}

/** Energy from the first sample to each node, straight lines between the samples. */
function energyAt(timesS: Float64Array, powerW: Float64Array, nodes: readonly number[]): number[] {
  let i = 0;
  let sum = 0;
  return nodes.map((node) => {
    while (i + 1 < timesS.length && timesS[i + 1]! <= node) {
      sum += ((powerW[i]! + powerW[i + 1]!) / 2) * (timesS[i + 1]! - timesS[i]!);
      i += 1;
    }
    if (i + 1 >= timesS.length) return sum;
    const part = (node - timesS[i]!) / (timesS[i + 1]! - timesS[i]!);
    const at = powerW[i]! + part * (powerW[i + 1]! - powerW[i]!);
    return sum + ((powerW[i]! + at) / 2) * (node - timesS[i]!);
  });
}
