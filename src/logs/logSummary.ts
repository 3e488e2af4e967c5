import { HeatledgerError } from '../errors/index.js';
import { counterEnergy } from './counterEnergy.js';
import { integrateEnergy } from './integrateEnergy.js';
import { onOffEdges } from './onOffEdges.js';
import type { Log } from './types.js';

/** What an export comes to, in a form for programs. */
export interface LogSummary {
  readonly rows: number;
  readonly durationS: number;
  /** Over the heating interval; `null` where there is neither power nor counter, or no heating. */
  readonly energyWh: number | null;
  readonly meanPowerW: number | null;
  /** The columns that are read, by role. */
  readonly columns: Readonly<
    Record<string, { header: string; unit: string | null; column: number; evidence: string }>
  >;
  readonly warnings: readonly string[];
}

/**
 * Rows, duration, energy and mean power of the heating interval, and which column was taken for what. The energy
 * is the integral of the power, or the counter's difference where there is no power. A log without heating has a
 * warning in place of an energy.
 *
 * Units: seconds, watt-hours, watts; `column` counts from 1.
 *
 * @example
 * const log = readExport(new TextEncoder().encode('t [s],P [W]\n0,900\n1800,900\n3600,900\n'));
 * logSummary(log).energyWh // => 900
 * logSummary(log).columns.power.unit // => "W"
 */
export function logSummary(log: Log): LogSummary {
  const warnings = [...log.warnings];
  const energy = energyOf(log, warnings);
  const used = log.mapping.columns.filter(({ role }) => role !== 'ignored');
  return {
    rows: log.rows,
    durationS: log.timesS[log.rows - 1]!,
    energyWh: energy ? energy.energyJ / 3600 : null,
    meanPowerW: energy ? energy.meanPowerW : null,
    columns: Object.fromEntries(
      used.map(({ role, header, unit, index, evidence }) => [
        role,
        { header, unit, column: index + 1, evidence },
      ]),
    ),
    warnings,
  };
}

function energyOf(log: Log, warnings: string[]): { energyJ: number; meanPowerW: number } | null {
  if (!log.powerW && !log.energyJ) return null;
  try {
    const { onS: fromS, offS: toS, startsOn, endsOn } = onOffEdges(log);
    if (startsOn)
      warnings.push('The log begins while the heater is on already; what came before is not in the energy.');
    if (endsOn)
      warnings.push('The log ends while the heater is still on; what came after is not in the energy.');
    if (log.powerW) return integrateEnergy(log, { fromS, toS });
    const counted = counterEnergy(log, { fromS, toS });
    return counted && { energyJ: counted.energyJ, meanPowerW: counted.energyJ / (toS - fromS) };
  } catch (error) {
    if (!(error instanceof HeatledgerError)) throw error;
    warnings.push(error.hint ? `${error.message} ${error.hint}` : error.message);
    return null;
  }
}
