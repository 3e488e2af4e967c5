import { existsSync, readdirSync } from 'node:fs';
import { basename, join } from 'node:path';
import { z } from 'zod';
import { problem } from '../errors/index.js';
import { atomicWrite } from './atomicWrite.js';
import { isWorkbook, paths } from './paths.js';
import { parseRecord, parseRecordWithLines, readRecord, readText, yamlText } from './readRecord.js';
import { type Heater, heaterSchema } from './schemas/heater.js';
import { type Instrument, instrumentSchema } from './schemas/instrument.js';
import { journalEntrySchema } from './schemas/journalEntry.js';
import { type Mapping, mappingSchema } from './schemas/mapping.js';
import { type WorkbookFile, workbookSchema } from './schemas/workbookFile.js';

/** A lab's records as they lie on disk, read and checked. */
export interface Workbook {
  readonly dir: string;
  readonly settings: WorkbookFile;
  readonly instruments: ReadonlyMap<string, Instrument>;
  readonly heaters: ReadonlyMap<string, Heater>;
}

/**
 * Reads a workbook: settings, instruments and heaters, each checked by its schema. Runs are read one by one where
 * they are needed. Changes nothing on disk.
 *
 * @example
 * openWorkbook(emptyFolder()) // throws 'workbook-missing'
 */
export function openWorkbook(dir: string): Workbook {
  if (!isWorkbook(dir)) {
    throw problem(
      'workbook-missing',
      { dir },
      { file: dir },
      'Name one with --workbook DIR, or begin one with: heatledger test',
    );
  }
  return {
    dir,
    settings: readRecord(paths.settings(dir), workbookSchema),
    instruments: readAll(paths.instruments(dir), instrumentSchema),
    heaters: readAll(paths.heaters(dir), heaterSchema),
  };
}

function readAll<S extends z.ZodType<{ id: string }>>(folder: string, schema: S): Map<string, z.output<S>> {
  const records = new Map<string, z.output<S>>();
  if (!existsSync(folder)) return records;
  for (const name of readdirSync(folder)
    .filter((each) => /\.ya?ml$/.test(each))
    .sort()) {
    const file = join(folder, name);
    const { record, lineOf } = parseRecordWithLines(readText(file), schema, file);
    const expected = basename(name).replace(/\.ya?ml$/, '');
    if (record.id !== expected) {
      const line = lineOf(['id']);
      const place = { file, ...(line === undefined ? {} : { line }), key: 'id' };
      throw problem('record-misnamed', { got: record.id, expected }, place);
    }
    records.set(record.id, record);
  }
  return records;
}

const schemas = {
  workbook: workbookSchema,
  instrument: instrumentSchema,
  heater: heaterSchema,
  mapping: mappingSchema,
  'journal-entry': journalEntrySchema,
} as const;

/**
 * JSON Schema of each kind of record, as a person writes it, for editors.
 *
 * @example
 * Object.keys(jsonSchemas()) // => ['workbook', 'instrument', 'heater', 'mapping', 'journal-entry']
 */
export function jsonSchemas(): Record<string, unknown> {
  const entries = Object.entries(schemas).map(([name, schema]) => [
    name,
    z.toJSONSchema(schema, { io: 'input', unrepresentable: 'any' }),
  ]);
  return Object.fromEntries(entries) as Record<string, unknown>;
}

/** A record as a person writes it: quantities as text with their units. */
export type RawRecord = Record<string, unknown>;

/**
 * Makes a workbook folder with its settings; refuses to touch one that is there.
 *
 * @example
 * const settings = { schema: 1, name: 'bench', zone: 'UTC', altitude: '1150 m', hands: [{ id: 'me', name: 'me' }] };
 * createWorkbook(emptyFolder(), settings).settings.altitude // => 1150
 * createWorkbook(emptyFolder(), { ...settings, zone: 'Middle/Earth' }) // throws 'record-invalid'
 */
export function createWorkbook(
  dir: string,
  settings: RawRecord,
  moreSchemas: Readonly<Record<string, unknown>> = {},
): Workbook {
  if (isWorkbook(dir)) throw problem('workbook-exists', { dir }, { file: dir });
  // Checked before anything is made: bad settings leave no folder behind.
  parseRecord(yamlText(settings), workbookSchema, paths.settings(dir));
  for (const [name, schema] of Object.entries({ ...jsonSchemas(), ...moreSchemas })) {
    atomicWrite(join(paths.schemas(dir), `${name}.schema.json`), `${JSON.stringify(schema, null, 2)}\n`);
  }
  writeRecord(paths.settings(dir), settings, workbookSchema, './schemas/workbook.schema.json');
  return openWorkbook(dir);
}

/**
 * Adds or replaces an instrument; checked before a byte is written.
 *
 * @example
 * const raw = { schema: 1, id: 'scale', kind: 'scale', name: 'Scale', resolution: '1 g', limits: { absolute: '5 g' } };
 * saveInstrument(emptyFolder(), raw).limits // => { absolute: 0.005 }
 * saveInstrument(emptyFolder(), { ...raw, limits: {} }) // throws 'record-invalid'
 */
export function saveInstrument(dir: string, raw: RawRecord): Instrument {
  const file = join(paths.instruments(dir), `${String(raw.id)}.yaml`);
  return writeRecord(file, raw, instrumentSchema, '../schemas/instrument.schema.json');
}

/**
 * Adds or replaces a heater; checked before a byte is written.
 *
 * @example
 * const raw = { schema: 1, id: 'vat-warmer', name: 'Vat warmer', settings: [{ id: 'full' }] };
 * saveHeater(emptyFolder(), raw).settings[0] // => { id: 'full', control: 'unknown' }
 */
export function saveHeater(dir: string, raw: RawRecord): Heater {
  const file = join(paths.heaters(dir), `${String(raw.id)}.yaml`);
  return writeRecord(file, raw, heaterSchema, '../schemas/heater.schema.json');
}

/**
 * Adds or replaces a mapping of exports; checked before a byte is written.
 *
 * @example
 * const raw = { schema: 1, id: 'meter-1', columns: { power: { header: 'P [W]' } }, stated: { interval: '10 s' } };
 * saveMapping(emptyFolder(), raw).stated // => { interval: 10 }
 * saveMapping(emptyFolder(), { ...raw, columns: { powre: { header: 'P [W]' } } }) // throws 'record-invalid'
 */
export function saveMapping(dir: string, raw: RawRecord): Mapping {
  const file = paths.mapping(dir, String(raw.id));
  const saved = writeRecord(file, raw, mappingSchema, '../schemas/mapping.schema.json');
  const schema = join(paths.schemas(dir), 'mapping.schema.json');
  // A workbook may be older than mappings are.
  if (!existsSync(schema)) atomicWrite(schema, `${JSON.stringify(jsonSchemas().mapping, null, 2)}\n`);
  return saved;
}

function writeRecord<S extends z.ZodType>(
  file: string,
  raw: RawRecord,
  schema: S,
  schemaPath: string,
): z.output<S> {
  const text = `# yaml-language-server: $schema=${schemaPath}\n${yamlText(raw)}`;
  const record = parseRecord(text, schema, file);
  atomicWrite(file, text);
  return record;
}
