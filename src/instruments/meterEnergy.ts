import {
  type Quantity,
  type SourceBook,
  add,
  constant,
  errorOf,
  multiply,
  scale,
} from '../uncertainty/index.js';
import type { Instrument } from '../workbook/index.js';
import { certificateError } from './certificateError.js';

export interface MeteredEnergy {
  /** Energy as the meter says, in joules. */
  readonly indicationJ: number;
  /** Errors of this way of reading it: counter steps, sampling, quantisation. In joules. */
  readonly ownErrors: readonly Quantity[];
  readonly meanPowerW: number;
  readonly durationS: number;
  /** The setting, whose readings share the errors of one level of power. */
  readonly level: string;
  /** Where the energy is an integral of power: what one digit of that power is. Left out, digits are of the counter. */
  readonly powerDigitW?: number;
}

/**
 * Energy metered over an interval as a quantity: indication, its own errors, the gain of the meter, and the errors
 * that its data sheet states in watts, over the time.
 */
export function meterEnergy(book: SourceBook, instrument: Instrument, energy: MeteredEnergy): Quantity {
  const indicated = add(constant(energy.indicationJ), ...energy.ownErrors);
  if (instrument.certificate) {
    const gain = certificateError(book, instrument, instrument.certificate, energy.meanPowerW);
    return multiply(indicated, add(constant(1), gain));
  }
  const limits = instrument.limits ?? {};
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
  const inWatts: Quantity[] = [];
  if (limits.offset !== undefined) inWatts.push(make('offset', 'common offset', limits.offset));
  if (limits.absolute !== undefined) {
    inWatts.push(make(`absolute:${energy.level}`, `limit of error, ${energy.level}`, limits.absolute));
  }
  if (limits.ofRange !== undefined && instrument.range !== undefined) {
    inWatts.push(
      make(`of-range:${energy.level}`, `limit of range, ${energy.level}`, limits.ofRange * instrument.range),
    );
  }
  const { powerDigitW } = energy;
  if (limits.digits !== undefined && limits.digits > 0 && powerDigitW !== undefined) {
    // With the size of a digit: an export may show more of them than the next.
    inWatts.push(
      make(
        `power-digits:${powerDigitW}:${energy.level}`,
        `${limits.digits} digits of the power, ${energy.level}`,
        limits.digits * powerDigitW,
      ),
    );
  }
  const inJoules: Quantity[] = inWatts.map((error) => scale(error, energy.durationS));
  if (limits.digits !== undefined && limits.digits > 0 && powerDigitW === undefined) {
    inJoules.push(
      make(
        `digits:${energy.level}`,
        `${limits.digits} digits, ${energy.level}`,
        limits.digits * instrument.resolution,
      ),
    );
  }
  const gain = limits.ofReading === undefined ? [] : [make('gain', 'limit of reading', limits.ofReading)];
  return add(multiply(indicated, add(constant(1), ...gain)), ...inJoules);
}

/** Error of one reading of an energy counter by its steps, in joules. */
export function counterStep(
  book: SourceBook,
  instrument: { readonly id: string; readonly name: string; readonly assumed: boolean },
  stepJ: number,
  reading: { readonly run: string; readonly which: string },
): Quantity {
  return errorOf(
    book.get({
      id: `run:${reading.run}:${reading.which}:step`,
      name: `${instrument.name}: steps of the energy counter`,
      halfWidth: stepJ / 2,
      scope: 'reading',
      assumed: instrument.assumed,
      instrument: instrument.id,
    }),
  );
}
