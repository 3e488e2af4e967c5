import { noDecimalSign } from './decimalSign.js';
import type { ExportMapping } from './types.js';

/**
 * Whether the export shows which decimal sign it uses, or it was stated. Where neither is so a point was taken, which
 * says nothing about the next export of the same meter.
 *
 * @example
 * const bytes = (power) => new TextEncoder().encode(`t [s];P [W]\n0;${power}\n10;${power}\n`);
 * showsDecimal(readExport(bytes('900,5')).mapping) // => true
 * showsDecimal(readExport(bytes('900')).mapping) // => false
 */
export function showsDecimal(mapping: Pick<ExportMapping, 'decimalEvidence'>): boolean {
  return mapping.decimalEvidence !== noDecimalSign;
}
