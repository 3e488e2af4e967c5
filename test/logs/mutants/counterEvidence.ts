import type { Evidence } from './Evidence.js';
import { median } from './median.js';
import type { PlainRows } from './plainRows.js';

/** A counter that falls, or rises by another energy than that of the power, beyond four standard uncertainties of both. */
export function counterEvidence({ timesS, powerW, energyJ }: PlainRows): Evidence[] {
  if (!energyJ) return [];
  const counted = energyJ.filter((joules) => !Number.isNaN(joules));
  if (counted.some((joules, i) => i > 0 && joules < counted[i - 1]!)) return ['counter falls'];
  if (!powerW) return [];
  const rows = [...timesS.keys()].filter((i) => !Number.isNaN(powerW[i]!) && !Number.isNaN(energyJ[i]!));
  const [first, last] = [rows[0], rows.at(-1)];
  if (first === undefined || last === undefined) return [];
  const stepJ = Math.min(...differences(counted));
  if (!Number.isFinite(stepJ)) return [];
  let [energy, doubt, length] = [0, 0, 0];
  const lengths: number[] = [];
  for (const [at, i] of rows.entries()) {
    const before = rows[at - 1];
    if (before === undefined) continue;
    const seconds = timesS[i]! - timesS[before]!;
    if (!(seconds > 0)) return [];
    energy += (seconds * (powerW[i]! + powerW[before]!)) / 2;
    doubt += (seconds * (powerW[i]! - powerW[before]!)) ** 2 / 12;
    length += seconds;
    lengths.push(seconds);
  }
  const stepW = Math.min(...differences(powerW.filter((watts) => !Number.isNaN(watts))));
  const late = Math.max(...powerW.filter((watts) => !Number.isNaN(watts))) * median(lengths);
  const u = Math.hypot(
    Math.sqrt(doubt),
    stepJ / Math.sqrt(6),
    Number.isFinite(stepW) ? (stepW * length) / Math.sqrt(12) : 0,
    late / Math.sqrt(12),
  );
  const apart = Math.abs(energy - (energyJ[last]! - energyJ[first]!));
  return apart > 4 * u ? ['counter against power'] : [];
}

/** The steps between the different values there are. */
function differences(values: readonly number[]): number[] {
  const sorted = [...new Set(values)].sort((a, b) => a - b);
  return sorted.slice(1).map((value, i) => value - sorted[i]!);
}
