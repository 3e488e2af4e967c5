import { existsSync, readdirSync } from 'node:fs';
import { problem } from '../errors/index.js';
import { paths } from './paths.js';
import { parseRecord, parseRecordWithLines, readText, yamlText } from './readRecord.js';
import { type Mapping, mappingSchema } from './schemas/mapping.js';

/**
 * Names of the saved mappings of exports, in order.
 *
 * @example
 * listMappings(emptyFolder()) // => []
 */
export function listMappings(dir: string): string[] {
  const folder = paths.mappings(dir);
  if (!existsSync(folder)) return [];
  return readdirSync(folder)
    .filter((name) => name.endsWith('.yaml') && !name.startsWith('.'))
    .map((name) => name.slice(0, -'.yaml'.length))
    .sort();
}

/**
 * A saved mapping by its name. Errors: `mapping-unknown` with the names there are, and those of a bad record.
 *
 * @example
 * readMapping(emptyFolder(), 'meter-1') // throws 'mapping-unknown'
 */
export function readMapping(dir: string, name: string): Mapping {
  const known = listMappings(dir);
  const file = paths.mapping(dir, name);
  if (!known.includes(name)) {
    throw problem(
      'mapping-unknown',
      { got: name, known: known.join(', ') || 'none yet' },
      { file: paths.mappings(dir) },
      'Save one with: heatledger import FILE --look --remember NAME',
    );
  }
  const { record, lineOf } = parseRecordWithLines(readText(file), mappingSchema, file);
  if (record.id === name) return record;
  const line = lineOf(['id']);
  const place = { file, ...(line === undefined ? {} : { line }), key: 'id' };
  throw problem('record-misnamed', { got: record.id, expected: name }, place);
}

/**
 * A mapping as a person writes it, read by its schema as it would be from a file. Errors: those of a bad record.
 *
 * @example
 * checkedMapping({ schema: 1, id: 'meter-1', columns: {}, stated: { interval: '1 min' } }).stated // => { interval: 60 }
 */
export function checkedMapping(raw: Readonly<Record<string, unknown>>): Mapping {
  return parseRecord(yamlText(raw), mappingSchema, 'mapping');
}
