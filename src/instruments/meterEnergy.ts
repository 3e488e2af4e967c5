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
 * Energy metered over an interval as a quantity, in joules: (indication + its own errors)·(1 + gain), and the errors that
 * its data sheet states in watts, over the time. With a certificate the gain is its correction at the mean power.
 * Sources come from `book`, which is a SourceBook: readings of one meter share them.
 *
 * @example
 * const book = { get: (spec) => spec };
 * const meter = { id: 'meter-1', name: 'meter', assumed: false, resolution: 3600, limits: { ofReading: 0.01 } };
 * const metered = { indicationJ: 1.2e6, ownErrors: [], meanPowerW: 600, durationS: 2000, level: 'full' };
 * meterEnergy(book, meter, metered).value // => 1200000
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

/**
 * Error of one reading of an energy counter by its steps, in joules: rectangular, half a step either way, fresh in each
 * reading (`which` tells those of a run apart).
 *
 * @example
 * const book = { get: (spec) => spec };
 * const meter = { id: 'meter-1', name: 'meter', assumed: false };
 * counterStep(book, meter, 36000, { run: 'run-1', which: 'energy-after' }).source.halfWidth // => 18000
 */
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
