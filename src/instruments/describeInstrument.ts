import { formatQuantity } from '../units/index.js';
import { type Instrument, measures } from '../workbook/index.js';

/** Where an instrument's errors are known from, in words: certificate, data sheet, or assumed. */
export function describeBasis(instrument: Instrument): string {
  if (instrument.certificate) {
    const { number, date, points } = instrument.certificate;
    return `certificate ${number} of ${date}, ${points.length} ${points.length === 1 ? 'point' : 'points'}`;
  }
  const text = describeLimits(instrument);
  return instrument.assumed ? `assumed ${text} (common practice, no source)` : `data sheet ${text}`;
}

/** "± 1 % of reading ± 2 g": the limits of an instrument in one line. */
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

/** "1 g steps": the resolution in its usual unit. */
export function describeResolution(instrument: Instrument): string {
  const [kind, unit] = measures[instrument.kind].step;
  return `${formatQuantity(instrument.resolution, kind, unit)} steps`;
}
