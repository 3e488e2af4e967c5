import { type Quantity, type SourceBook, add, constant, errorOf, scale } from '../uncertainty/index.js';
import type { Instrument, ReadingRecord } from '../workbook/index.js';
import { certificateError } from './certificateError.js';
import { limitErrors } from './limitErrors.js';

const CELSIUS_ZERO_K = 273.15;

/** Part of a scale's stated limit by which two weighings of the same load may differ; common practice, no source. */
const SCALE_REPEAT_OF_LIMIT = 0.2;

export interface ReadingContext {
  readonly run: string;
  /** Readings of one level share the level errors of an instrument, over all runs. */
  readonly level: string;
}

/**
 * How many parts a reading was typed in ("2104+2098 g"): each has its own steps, and the instrument's limit counts
 * for each that was added.
 */
function partsOf(reading: ReadingRecord): { readonly all: number; readonly added: number } {
  // The sign of an exponent (1e+3) stands between no parts.
  const terms = reading.typed
    .replace(/e[+-]/gi, 'e')
    .split(/(?=[+−-])/)
    .filter((term) => /\d/.test(term));
  const added = terms.filter((term) => !/^\s*[−-]/.test(term));
  return { all: Math.max(1, terms.length), added: Math.max(1, added.length) };
}

/**
 * A reading as a quantity: indication + correction + the errors of its instrument. Temperatures in kelvin, masses
 * in kilograms, pressures in pascal. For energy see meterEnergy. Sources come from `book`, which is a SourceBook: readings
 * at one level share the instrument's errors there.
 *
 * @example
 * const book = { get: (spec) => spec };
 * const points = [{ at: 273.15, correction: 0.04, expandedUncertainty: 0.1 }];
 * const probe = { id: 'p', kind: 'thermometer', name: 'probe', resolution: 0.1, certificate: { points, coverageFactor: 2 } };
 * readingQuantity(book, probe, { si: 273.15, seq: 1, typed: '0.0' }, { run: 'r', level: 'ice' }).value // => 273.19
 */
export function readingQuantity(
  book: SourceBook,
  instrument: Instrument,
  reading: ReadingRecord,
  context: ReadingContext,
): Quantity {
  const parts = partsOf(reading);
  // What the instrument itself showed: the parts of a sum are taken as equal.
  const shown = reading.si / parts.added;
  const inUnitOfLimits = instrument.kind === 'thermometer' ? shown - CELSIUS_ZERO_K : shown;
  const calibration = instrument.certificate
    ? [certificateError(book, instrument, instrument.certificate, shown)]
    : limitErrors(book, instrument, inUnitOfLimits, context.level, instrument.resolution);
  const fresh = [
    stepError(book, instrument, reading, context),
    ...(instrument.kind === 'scale' ? [repeatError(book, instrument, reading, context)] : []),
  ];
  return add(
    constant(reading.si),
    ...calibration.map((each) => (parts.added === 1 ? each : scale(each, parts.added))),
    ...fresh.map((each) => (parts.all === 1 ? each : scale(each, Math.sqrt(parts.all)))),
  );
}

function stepError(
  book: SourceBook,
  instrument: Instrument,
  reading: ReadingRecord,
  context: ReadingContext,
): Quantity {
  const halfWidth = instrument.resolution / 2;
  return errorOf(
    book.get({
      id: `run:${context.run}:${reading.seq}:step`,
      name: `${instrument.name}: steps of the display, ${context.level}`,
      halfWidth,
      scope: 'reading',
      assumed: instrument.assumed,
      instrument: instrument.id,
    }),
  );
}

function repeatError(
  book: SourceBook,
  instrument: Instrument,
  reading: ReadingRecord,
  context: ReadingContext,
): Quantity {
  const limit = instrument.limits?.absolute ?? 0;
  return errorOf(
    book.get({
      id: `run:${context.run}:${reading.seq}:repeat`,
      name: `${instrument.name}: same load weighed twice`,
      halfWidth: Math.max(instrument.resolution / 2, SCALE_REPEAT_OF_LIMIT * limit),
      scope: 'reading',
      assumed: true,
      instrument: instrument.id,
    }),
  );
}
