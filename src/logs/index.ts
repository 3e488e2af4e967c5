/**
 * logs: CSV exports of wattmeters and thermometer loggers. Finds out how an export is written and says so with the
 * evidence, reads it to SI, finds the heating interval, and integrates its energy. Also the door for writing CSV.
 */
export { type CounterEnergy, counterEnergy } from './counterEnergy.js';
export { describeLog } from './describeLog.js';
export { type IntegratedEnergy, integrateEnergy } from './integrateEnergy.js';
export { type LogSummary, logSummary } from './logSummary.js';
export { onOffEdges } from './onOffEdges.js';
export { readExport } from './readExport.js';
export type {
  ColumnReading,
  ColumnRole,
  ExportMapping,
  Gap,
  HeatingEdges,
  Log,
  QuantityRole,
  ReadOptions,
  TimeForm,
} from './types.js';
export { writeTidyCsv } from './writeTidyCsv.js';
