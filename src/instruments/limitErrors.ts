import { type Quantity, type SourceBook, errorOf, scale } from '../uncertainty/index.js';
import type { Instrument } from '../workbook/index.js';

/**
 * Errors of a reading from data-sheet limits, each rectangular (JCGM 100 4.3.7: nothing but the limits is known).
 *
 * - `ofReading`: one gain error for all readings of the instrument.
 * - `offset`: one error for all readings; it cancels in differences.
 * - `absolute`, `ofRange`, `digits`: the limit holds at every reading, but a data sheet says nothing about how the
 *   errors at two levels go together. They are taken as independent between levels and the same in all readings
 *   of one level, so that repeats at one level don't shrink them.
 *
 * `reading` is in the unit a per cent of reading is counted in (°C for a thermometer).
 */
export function limitErrors(
  book: SourceBook,
  instrument: Instrument,
  reading: number,
  level: string,
  step: number,
): Quantity[] {
  const limits = instrument.limits;
  if (!limits) return [];
  const make = (what: string, name: string, halfWidth: number): Quantity =>
    errorOf(
      book.get({
        id: `instrument:${instrument.id}:${what}`,
        name: `${instrument.name}: ${name}`,
        halfWidth,
        scope: 'instrument',
        assumed: instrument.assumed,
        instrument: instrument.id,
      }),
    );
  const errors: Quantity[] = [];
  if (limits.ofReading !== undefined) {
    errors.push(scale(make('gain', 'limit of reading', limits.ofReading), reading));
  }
  if (limits.offset !== undefined) errors.push(make('offset', 'common offset', limits.offset));
  if (limits.absolute !== undefined) {
    errors.push(make(`absolute:${level}`, `limit of error, ${level}`, limits.absolute));
  }
  if (limits.ofRange !== undefined && instrument.range !== undefined) {
    // The range of a thermometer is counted from 0 °C, as its data sheet counts it.
    const span = instrument.kind === 'thermometer' ? instrument.range - 273.15 : instrument.range;
    errors.push(make(`of-range:${level}`, `limit of range, ${level}`, limits.ofRange * span));
  }
  if (limits.digits !== undefined && limits.digits > 0) {
    errors.push(make(`digits:${level}`, `${limits.digits} digits, ${level}`, limits.digits * step));
  }
  return errors;
}
