import { type Quantity, add, constant, errorOf } from '../uncertainty/index.js';
import { formatQuantity } from '../units/index.js';
import { pressureAtAltitudePa } from '../water/index.js';
import { type RunContext, roleQuantity } from './RunContext.js';

/** Weather moves the pressure by about this much; common practice, no source. */
const WEATHER_PA = 2000;
/** Where no altitude is stated either: from the sea to the high plains; common practice, no source. */
const UNKNOWN_ALTITUDE_M = 300;
const UNKNOWN_PA = 6000;

/** Pressure of the run from the barometer, else from the workbook's pressure or altitude, and where it came from. */
export function pressureOf(context: RunContext): { readonly quantity: Quantity; readonly from: string } {
  const read = roleQuantity(context, 'pressure');
  if (read) return { quantity: read, from: 'barometer' };
  const { pressure, altitude } = context.workbook.settings;
  const assumed = (pa: number, halfWidth: number, name: string): Quantity =>
    add(
      constant(pa),
      errorOf(context.book.get({ id: 'lab:pressure', name, halfWidth, scope: 'lab', assumed: true })),
    );
  if (pressure !== undefined) {
    return {
      quantity: assumed(pressure, WEATHER_PA, 'weather: air pressure'),
      from: 'pressure of the workbook',
    };
  }
  if (altitude !== undefined) {
    const from = `standard atmosphere at ${formatQuantity(altitude, 'length', 'm', 0)}`;
    return { quantity: assumed(pressureAtAltitudePa(altitude), WEATHER_PA, 'weather: air pressure'), from };
  }
  return {
    quantity: assumed(pressureAtAltitudePa(UNKNOWN_ALTITUDE_M), UNKNOWN_PA, 'air pressure not known'),
    from: `assumed, as at ${UNKNOWN_ALTITUDE_M} m`,
  };
}
