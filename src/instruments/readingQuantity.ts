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

/** Weighed in parts ("2104+2098 g"): each part has its own steps, and the limit counts for each. */
function partsOf(reading: ReadingRecord): number {
  return reading.typed.split(/[+]/).filter((term) => /\d/.test(term)).length || 1;
}

/**
 * A reading as a quantity: indication + correction + the errors of its instrument. Temperatures in kelvin, masses
 * in kilograms, pressures in pascal. For energy see meterEnergy.
 */
export function readingQuantity(
  book: SourceBook,
  instrument: Instrument,
  reading: ReadingRecord,
  context: ReadingContext,
): Quantity {
  const inCelsius = instrument.kind === 'thermometer' ? reading.si - CELSIUS_ZERO_K : reading.si;
  const parts = partsOf(reading);
  const calibration = instrument.certificate
    ? [certificateError(book, instrument, instrument.certificate, reading.si)]
    : limitErrors(book, instrument, inCelsius, context.level, instrument.resolution);
  const fresh = [
    stepError(book, instrument, reading, context),
    ...(instrument.kind === 'scale' ? [repeatError(book, instrument, reading, context)] : []),
  ];
  return add(
    constant(reading.si),
    ...calibration.map((each) => (parts === 1 ? each : scale(each, parts))),
    ...fresh.map((each) => (parts === 1 ? each : scale(each, Math.sqrt(parts)))),
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
