import { problem } from '../../errors/index.js';
import type { Log } from '../../logs/index.js';
import type { Stretch, ThermalData } from './types.js';

/** Data for a fit, and what was left out of them. */
export interface ThermalDataOfLog {
  readonly data: ThermalData;
  readonly notes: readonly string[];
}

/**
 * Temperature and power of a log, or of two logs on one clock, ready to be fitted: rows whose cell is unknown are left out and
 * counted. `stretch` (seconds after the log's first sample) limits the temperatures, not the power; such stretches come from `phases`.
 *
 * @throws `log-lacks` where there is no temperature
 * @example
 * const log = { timesS: [0, 10, 20, 30], powerW: [0, 900, 900, 900], temperatureK: [293, 293.1, NaN, 293.5] };
 * const { data, notes } = thermalDataOf(log, { ambient: 293.15 });
 * [data.temperature.timesS.length, data.power.timesS.length, notes.length] // => [3, 4, 1]
 */
export function thermalDataOf(
  log: Pick<Log, 'timesS' | 'powerW' | 'temperatureK'>,
  options: {
    readonly ambient?: ThermalData['ambient'];
    readonly stretch?: Stretch;
    /** Another log with the temperature, and its first sample in seconds after this log's. */
    readonly temperatureLog?: { readonly log: Pick<Log, 'timesS' | 'temperatureK'>; readonly startS: number };
  } = {},
): ThermalDataOfLog {
  const { ambient, stretch, temperatureLog } = options;
  const other = temperatureLog?.log ?? log;
  if (!other.temperatureK) throw problem('log-lacks', { what: 'the temperature' });
  const notes: string[] = [];
  const startS = temperatureLog?.startS ?? 0;
  const within = (t: number) => stretch === undefined || (t >= stretch.fromS && t <= stretch.toS);
  const temperature = known('temperature', other.timesS, other.temperatureK, startS, within, notes);
  const power = log.powerW ? known('power', log.timesS, log.powerW, 0, () => true, notes) : null;
  return {
    data: {
      temperature: { timesS: temperature.timesS, temperaturesK: temperature.values },
      ...(power && power.timesS.length > 0 ? { power: { timesS: power.timesS, powerW: power.values } } : {}),
      ...(ambient === undefined ? {} : { ambient }),
    },
    notes,
  };
}

function known(
  what: string,
  timesS: Float64Array,
  values: Float64Array,
  startS: number,
  within: (t: number) => boolean,
  notes: string[],
) {
  const rows = Array.from(timesS, (_, i) => i).filter((i) => within(timesS[i]! + startS));
  const kept = rows.filter((i) => !Number.isNaN(values[i]!));
  const unknown = rows.length - kept.length;
  if (unknown > 0) notes.push(`${unknown} ${unknown === 1 ? 'row' : 'rows'} without ${what} left out`);
  return {
    timesS: Float64Array.from(kept, (i) => timesS[i]! + startS),
    values: Float64Array.from(kept, (i) => values[i]!),
  };
}
