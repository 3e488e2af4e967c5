import type { HeaterFromFills } from '../../fitting/index.js';
import type { Quantity } from '../../uncertainty/index.js';
import type { KnownTransfer, TestedRange } from './types.js';

/**
 * What two or more fills tell of a heater, ready for `evaluateFigure`: κ, C_b and the UA of each fill, with the water of the
 * fills in the order in which `twoFills` had them. `range` is that of all the runs (`testedRange`), `from` words such as
 * "the runs at two fills".
 *
 * @example
 * const exact = (value) => ({ operation: 'constant', value, inputs: [], partials: [] });
 * const heater = { kappa: exact(0.9), bodyHeatCapacityJPerK: exact(800), ua: [exact(1.5), null, exact(2)] };
 * const known = transferFromFills(heater, [2, 4, 6], exact(500), {}, 'the runs at three fills');
 * known.ua.map(({ waterKg }) => waterKg) // => [2, 6]
 */
export function transferFromFills(
  heater: Pick<HeaterFromFills, 'kappa' | 'bodyHeatCapacityJPerK' | 'ua'>,
  waterKg: readonly number[],
  vesselHeatCapacityJPerK: Quantity,
  range: TestedRange,
  from: string,
): KnownTransfer {
  return {
    kappa: heater.kappa,
    bodyHeatCapacityJPerK: heater.bodyHeatCapacityJPerK,
    vesselHeatCapacityJPerK,
    ua: heater.ua.flatMap((ua, i) => (ua === null ? [] : [{ waterKg: waterKg[i]!, uaWPerK: ua }])),
    range,
    from,
  };
}
