/**
 * instruments: error sources of a reading from a certificate or from data-sheet limits, the energy of a meter, and
 * when the next check is due.
 */
export { assumedInstruments } from './assumedInstruments.js';
export { describeBasis, describeLimits, describeResolution } from './describeInstrument.js';
export { type DueDate, dueDate } from './dueDate.js';
export { type MeteredEnergy, counterStep, meterEnergy } from './meterEnergy.js';
export { type ReadingContext, readingQuantity } from './readingQuantity.js';
