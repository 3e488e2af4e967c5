import { readLog } from './readLog.js';
import type { Log, ReadOptions } from './types.js';

/**
 * Reads the CSV export of a wattmeter or thermometer logger: finds delimiter, decimal sign, header, units, time form
 * and columns, and brings everything to SI. What could be read in two ways is an error that names the option
 * which settles it; what was left out or put right is in `warnings`.
 *
 * Units: seconds, watts, joules, volts, amperes, kelvin. A missing cell is NaN.
 * Errors: the `log-...` codes, with file, line and value.
 *
 * @example
 * const log = readExport(new TextEncoder().encode('time_s;P [kW];T1/°F\n0;0,9;50\n10;0,9;59\n'));
 * log.timesS[1] // => 10
 * log.powerW[0] // => 900
 * log.temperatureK[1] - 273.15 // => 15
 */
export function readExport(bytes: Uint8Array, options: ReadOptions = {}): Log {
  return readLog(bytes, options);
}
