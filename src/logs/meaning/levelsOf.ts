import { type PowerLevels, powerLevels } from '../powerLevels.js';
import type { Readings } from '../Readings.js';

const known = new WeakMap<Readings, { readonly levels: PowerLevels | null }>();

/** The on level, standby and the threshold of a log, found once; `null` where it shows no heating. */
export function levelsOf(readings: Readings): PowerLevels | null {
  const before = known.get(readings);
  if (before) return before.levels;
  const levels = powerLevels(readings.outline.powers);
  known.set(readings, { levels });
  return levels;
}
