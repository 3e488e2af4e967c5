/**
 * workbook: the folder on disk that holds all of one lab's records. Schemas of its files, ids and paths, the journal
 * of each run, its lock, and whole-file writes that either happen or don't.
 */
export { atomicWrite, makeFolder } from './atomicWrite.js';
export { checkId, idFrom } from './ids.js';
export { sha256 } from './journal.js';
export { checkedMapping, listMappings, readMapping } from './mappings.js';
export { findWorkbook, isWorkbook, paths } from './paths.js';
export { parseRecord, parseRecordWithLines, readRawRecord, readText } from './readRecord.js';
export type { AttachmentRecord, ExclusionRecord, ReadingRecord, RunRecord } from './RunRecord.js';
export { runFrom } from './RunRecord.js';
export { RunWriter, listRuns, nextRunId, readAttachment, readRun, readRunProtocol } from './runs.js';
export { idField, positiveField, quantityField, schemaVersion, textField } from './schemas/fields.js';
export type { Heater } from './schemas/heater.js';
export {
  type Certificate,
  type Instrument,
  type InstrumentKind,
  instrumentKinds,
  measures,
} from './schemas/instrument.js';
export type { JournalEntry, NewEntry } from './schemas/journalEntry.js';
export type { Mapping } from './schemas/mapping.js';
export type { WorkbookFile } from './schemas/workbookFile.js';
export {
  type RawRecord,
  type Workbook,
  createWorkbook,
  jsonSchemas,
  openWorkbook,
  saveHeater,
  saveInstrument,
  saveMapping,
} from './Workbook.js';
