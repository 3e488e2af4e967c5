import { HeatledgerError } from '../errors/index.js';
import { counterEnergy } from './counterEnergy.js';
import { integrateEnergy } from './integrateEnergy.js';
import { type DutyCycle, dutyCycle } from './meaning/dutyCycle.js';
import { logDoubts } from './meaning/logDoubts.js';
import { type LogGaps, logGaps } from './meaning/logGaps.js';
import { energySources } from './meaning/energySources.js';
import { type Phase, type PhaseLimits, phases } from './meaning/phases.js';
import type { OtherTemperature } from './meaning/placedTemperature.js';
import { onOffEdges } from './onOffEdges.js';
import type { Readings } from './Readings.js';
import { readingsOf } from './readingsOf.js';
import type { HeatingEdges, Log } from './types.js';

/** What an export comes to, in a form for programs. */
export interface LogSummary {
  readonly rows: number;
  readonly durationS: number;
  /** Over the heating interval; `null` where there is neither power nor counter, or no heating. */
  readonly energyWh: number | null;
  readonly meanPowerW: number | null;
  /**
   * What the log alone leaves open in its integral: steps, moments of switching, gaps, cycles that may have been missed.
   * The meter's own limits, which a log doesn't tell, come on top. `null` where the energy is the counter's.
   */
  readonly energyStandardUncertaintyWh: number | null;
  /** By the counter, from its last reading before the heating to the first after it; `null` where it has none. */
  readonly counterEnergyWh: number | null;
  /** Median power below the threshold; `null` where the log shows none. */
  readonly standbyW: number | null;
  readonly phases: readonly Phase[];
  /** Gaps between known powers in the whole log. */
  readonly gaps: LogGaps;
  /** `null` where the heater doesn't cycle. */
  readonly dutyCycle: DutyCycle | null;
  /** The columns that are read, by role. */
  readonly columns: Readonly<
    Record<string, { header: string; unit: string | null; column: number; evidence: string }>
  >;
  readonly warnings: readonly string[];
}

/**
 * Rows, duration, energy and mean power of the heating interval, phases, gaps, duty cycle, and which column was taken
 * for what. The energy is the integral of the power, or the counter's difference where there is no power. What gives
 * reason for doubt is among the warnings. A log without heating has a warning in place of an energy. Limits that a
 * person states stand above those that the log shows; a temperature may come from another log.
 *
 * Units: seconds, watt-hours, watts; `column` counts from 1.
 *
 * @example
 * const log = readExport(new TextEncoder().encode('t [s],P [W]\n0,900\n1800,900\n3600,900\n'));
 * logSummary(log).energyWh // => 900
 * logSummary(log).columns.power.unit // => "W"
 */
export function logSummary(
  log: Log | Readings,
  more: { readonly limits?: PhaseLimits; readonly temperatureLog?: OtherTemperature } = {},
): LogSummary {
  const readings = readingsOf(log);
  const warnings = [...readings.warnings];
  // Stated limits that can't be are an error, and no warning.
  const found = phases(readings, more);
  const edges = orWarning(() => edgesOf(readings, warnings), warnings);
  const { heatingFromS, heatingToS } = more.limits ?? {};
  const limits = edges && { fromS: heatingFromS ?? edges.onS, toS: heatingToS ?? edges.offS };
  const energy = limits && orWarning(() => energyOf(readings, limits), warnings);
  const counted = edges && limits && orNull(() => counterOf(readings, edges, limits));
  const doubt = limits && readings.has.power ? orNull(() => energySources(readings, limits)) : null;
  const used = readings.mapping.columns.filter(({ role }) => role !== 'ignored');
  return {
    rows: readings.rows,
    durationS: readings.outline.endS,
    energyWh: energy ? energy.energyJ / 3600 : null,
    meanPowerW: energy ? energy.meanPowerW : null,
    energyStandardUncertaintyWh: doubt ? doubt.combinedJ / 3600 : null,
    counterEnergyWh: counted ? counted.energyJ / 3600 : null,
    standbyW: edges?.standbyW ?? null,
    phases: found.phases,
    gaps: logGaps(readings),
    dutyCycle: energy && limits ? dutyCycle(readings, limits).dutyCycle : null,
    columns: Object.fromEntries(
      used.map(({ role, header, unit, index, evidence }) => [
        role,
        { header, unit, column: index + 1, evidence },
      ]),
    ),
    warnings: [...warnings, ...logDoubts(readings)],
  };
}

function edgesOf(readings: Readings, warnings: string[]): HeatingEdges | null {
  const { has, mapping } = readings;
  // A thermometer has no energy; what has volts or amps alone was meant to have one.
  const electrical = mapping.columns.some(({ role }) => role === 'voltage' || role === 'current');
  if (!has.power && !has.energy && !electrical) return null;
  const edges = onOffEdges(readings);
  if (edges.startsOn)
    warnings.push('The log begins while the heater is on already; what came before is not in the energy.');
  if (edges.endsOn)
    warnings.push('The log ends while the heater is still on; what came after is not in the energy.');
  return edges;
}

function energyOf(readings: Readings, limits: { readonly fromS: number; readonly toS: number }) {
  if (readings.has.power) return integrateEnergy(readings, limits);
  const found = counterEnergy(readings, limits);
  return found && { energyJ: found.energyJ, meanPowerW: found.energyJ / (limits.toS - limits.fromS) };
}

/** Around the brackets, since the counter shows a switching at the reading after it; within stated limits as they are. */
function counterOf(
  readings: Readings,
  { onS, offS, onBracketS, offBracketS }: HeatingEdges,
  { fromS, toS }: { readonly fromS: number; readonly toS: number },
) {
  return counterEnergy(readings, {
    fromS: fromS === onS ? onBracketS[0] : fromS,
    toS: toS === offS ? offBracketS[1] : toS,
  });
}

function orWarning<T>(find: () => T, warnings: string[]): T | null {
  try {
    return find();
  } catch (error) {
    if (!(error instanceof HeatledgerError)) throw error;
    warnings.push(error.hint ? `${error.message} ${error.hint}` : error.message);
    return null;
  }
}

/** What goes wrong with a counter is among the doubts. */
function orNull<T>(find: () => T): T | null {
  return orWarning(find, []);
}
