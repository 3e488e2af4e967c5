/**
 * logs: CSV exports of wattmeters and thermometer loggers. Finds out how an export is written and says so with the
 * evidence, reads it to SI, finds the heating interval, and integrates its energy. Also the door for writing CSV.
 */
export { type CounterEnergy, counterEnergy } from './counterEnergy.js';
export { type CounterComparison, counterAgainstPower } from './meaning/counterAgainstPower.js';
export { type DutyCycle, type DutyCycleFound, dutyCycle } from './meaning/dutyCycle.js';
export type { EnergySource, MeterLimits, UncertainEnergy } from './meaning/energySources.js';
export { energyUncertainty } from './meaning/energyUncertainty.js';
export type { OtherTemperature } from './meaning/placedTemperature.js';
export { type Phase, type PhaseLimits, type PhaseName, type Phases, phases } from './meaning/phases.js';
export { type AlignedLogs, alignLogs } from './meaning/alignLogs.js';
export type { StatedRanges } from './meaning/doubts/levelDoubts.js';
export { logDoubts } from './meaning/logDoubts.js';
export { type ClockAlignment, timeInA } from './meaning/timeInA.js';
export { describeLog } from './describeLog.js';
export { LogFile } from './file/LogFile.js';
export type { OpenOptions, Progress } from './file/OpenOptions.js';
export { openExport } from './file/openExport.js';
export { type IntegratedEnergy, integrateEnergy } from './integrateEnergy.js';
export { logCsv } from './logCsv.js';
export { type LogSummary, logSummary } from './logSummary.js';
export { columnRoles, quantityRoles, timeForms } from './names.js';
export { onOffEdges } from './onOffEdges.js';
export type { Readings } from './Readings.js';
export type { Rows } from './Rows.js';
export { readExport } from './readExport.js';
export { showsDecimal } from './showsDecimal.js';
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
