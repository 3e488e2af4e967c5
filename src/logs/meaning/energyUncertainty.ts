import type { Readings } from '../Readings.js';
import { readingsOf } from '../readingsOf.js';
import type { Log } from '../types.js';
import { type MeterLimits, type UncertainEnergy, energySources } from './energySources.js';

/**
 * The energy by integration and its sources of uncertainty: gain and offset of the meter as stated, the step of its
 * readings, the moment of each switching, cycles that the readings may have missed, and gaps that were bridged.
 *
 * Formulas: half-width a of a limit gives a/√3; gain a·E/√3, offset a·t/√3 (JCGM 100, 4.3.7).
 * Units: seconds after the first sample, joules, watts; `gain` is a share.
 * Errors: those of `integrateEnergy`.
 *
 * @example
 * const log = readExport(new TextEncoder().encode('t [s],P [W]\n0,900\n10,900\n20,900\n'));
 * const { sources } = energyUncertainty(log, { fromS: 0, toS: 20, meter: { gain: 0.01 } });
 * sources[0].standardUncertaintyJ // => 103.923
 * sources[1].evidence // => "not stated"
 */
export function energyUncertainty(
  log: Log | Readings,
  options: {
    readonly fromS: number;
    readonly toS: number;
    readonly method?: 'trapezoid' | 'step';
    readonly meter?: MeterLimits;
  },
): UncertainEnergy {
  return energySources(readingsOf(log), options);
}
