import { formatQuantity } from '../units/index.js';
import { type Instrument, measures } from '../workbook/index.js';

/**
 * Where an instrument's errors are known from, in words: certificate, data sheet, or assumed.
 *
 * @example
 * describeBasis({ kind: 'scale', assumed: true, limits: { absolute: 0.005 } }) // => 'assumed ± 5 g (common practice, no source)'
 */
export function describeBasis(instrument: Instrument): string {
  if (instrument.certificate) {
    const { number, date, points } = instrument.certificate;
    return `certificate ${number} of ${date}, ${points.length} ${points.length === 1 ? 'point' : 'points'}`;
  }
  const text = describeLimits(instrument);
  return instrument.assumed ? `assumed ${text} (common practice, no source)` : `data sheet ${text}`;
}

/**
 * The limits of an instrument in one line, in the unit its kind is usually read in.
 *
 * @example
 * describeLimits({ kind: 'scale', limits: { ofReading: 0.01, absolute: 0.002 } }) // => '± 1 % of reading ± 2 g'
 */
export function describeLimits(instrument: Instrument): string {
  const limits = instrument.limits;
  if (!limits) return 'no limits stated';
  const [kind, unit] = measures[instrument.kind].error;
  const inUnit = (si: number) => formatQuantity(si, kind, unit);
  const percent = (ratio: number) => formatQuantity(ratio, 'ratio', '%');
  const parts: string[] = [];
  if (limits.ofReading !== undefined) parts.push(`± ${percent(limits.ofReading)} of reading`);
  if (limits.ofRange !== undefined) parts.push(`± ${percent(limits.ofRange)} of range`);
  if (limits.digits !== undefined) parts.push(`± ${limits.digits} digits`);
  if (limits.absolute !== undefined) parts.push(`± ${inUnit(limits.absolute)}`);
  if (limits.offset !== undefined) parts.push(`± ${inUnit(limits.offset)}, the same at every reading`);
  return parts.join(' ');
}

/**
 * The smallest step of an instrument in its usual unit; that of a wattmeter is its counter's.
 *
 * @example
 * describeResolution({ kind: 'wattmeter', resolution: 36000 }) // => '0.01 kWh steps'
 */
export function describeResolution(instrument: Instrument): string {
  const [kind, unit] = measures[instrument.kind].step;
  return `${formatQuantity(instrument.resolution, kind, unit)} steps`;
}
