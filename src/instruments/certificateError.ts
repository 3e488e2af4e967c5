import { type Quantity, type SourceBook, add, constant, errorOf, scale } from '../uncertainty/index.js';
import type { Certificate, Instrument } from '../workbook/index.js';

/**
 * Correction of a certificate at a reading, with its errors. Between two points both correction and error are
 * interpolated; the errors of the points are independent of each other and the same in every reading that uses them,
 * so that two readings close together share most of theirs. Beyond the ends the last point holds, and another error
 * of the size of its expanded uncertainty is added.
 *
 * The result is in the unit of the certificate's corrections: K, kg or Pa; a ratio for a wattmeter.
 */
export function certificateError(
  book: SourceBook,
  instrument: Instrument,
  certificate: Certificate,
  at: number,
): Quantity {
  const { points, coverageFactor } = certificate;
  const errorAt = (index: number): Quantity => {
    const point = points[index] as Certificate['points'][number];
    const source = book.get({
      id: `instrument:${instrument.id}:certificate:${index + 1}`,
      name: `${instrument.name}: certificate, point ${index + 1}`,
      standardUncertainty: point.expandedUncertainty / coverageFactor,
      scope: 'instrument',
      instrument: instrument.id,
    });
    return add(constant(point.correction), errorOf(source));
  };
  const upper = points.findIndex((point) => point.at >= at);
  const first = points[0] as Certificate['points'][number];
  const last = points[points.length - 1] as Certificate['points'][number];
  if (at < first.at) return add(errorAt(0), beyond(book, instrument, first.expandedUncertainty, 'below'));
  if (at > last.at)
    return add(errorAt(points.length - 1), beyond(book, instrument, last.expandedUncertainty, 'above'));
  if (upper === 0) return errorAt(0);
  const low = points[upper - 1] as Certificate['points'][number];
  const high = points[upper] as Certificate['points'][number];
  const weight = (at - low.at) / (high.at - low.at);
  return add(scale(errorAt(upper - 1), 1 - weight), scale(errorAt(upper), weight));
}

function beyond(
  book: SourceBook,
  instrument: Instrument,
  halfWidth: number,
  side: 'below' | 'above',
): Quantity {
  return errorOf(
    book.get({
      id: `instrument:${instrument.id}:${side}-certificate`,
      name: `${instrument.name}: read ${side} the certificate's range`,
      halfWidth,
      scope: 'instrument',
      assumed: true,
      instrument: instrument.id,
    }),
  );
}
