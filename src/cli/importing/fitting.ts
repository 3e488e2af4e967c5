import { HeatledgerError, problem } from '../../errors/index.js';
import { type ExportMapping, type Log, type ReadOptions, readExport } from '../../logs/index.js';
import type { Mapping } from '../../workbook/index.js';
import type { SavedOptions } from './savedOptions.js';

/** So much of a file shows how it is written. */
export const HEAD_BYTES = 1 << 18;

/** These speak of the file itself and not of how it is mapped. */
const ofTheFile: readonly string[] = [
  'log-empty',
  'log-encoding',
  'log-binary',
  'log-file-changed',
  'log-quote-open',
  'log-csv-bad',
  'log-time-backward',
  'log-time-not-real',
  'log-time-twice',
  'log-zone-unknown',
  'log-zone-missing',
];

/** An error of the reading as one of the saved mapping, with the way on; others stay as they are. */
export function unfit(error: unknown, name: string): unknown {
  if (!(error instanceof HeatledgerError) || !error.code.startsWith('log-')) return error;
  return ofTheFile.includes(error.code) ? error : unfitFor(name, error.message, error.place);
}

function unfitFor(name: string, reason: string, place: HeatledgerError['place']): HeatledgerError {
  return problem(
    'mapping-unfit',
    { name, reason },
    place,
    `To read it without a saved mapping say --like none; to save it anew, --like none --remember ${name} --replace.`,
  );
}

/**
 * Refuses an export that says itself that it is written in another way than the mapping has it: a decimal point for a
 * comma, milliseconds for seconds, kilowatts for watts. What the export leaves open is no contradiction.
 */
export function refuseContradiction(
  head: Uint8Array,
  file: string,
  name: string,
  options: SavedOptions,
): void {
  const [own, saved] = [options.stated, options.settled].map((each) => readable(head, each));
  if (!own || !saved || sameReadings(own, saved)) return;
  const reason = differences(own.mapping, saved.mapping) || 'its numbers would be read in another way';
  throw unfitFor(name, `${reason}.`, { file, line: own.mapping.firstDataLine });
}

/** Refuses an export in which a column that is known by its number has another name than it had. */
export function refuseOtherNames(found: ExportMapping, file: string, name: string, mapping: Mapping): void {
  for (const [role, column] of Object.entries(mapping.columns)) {
    const here = found.columns.find((each) => each.role === role);
    if (column?.number === undefined || here?.index !== column.number - 1) continue;
    const header = here.header.trim();
    if (header === column.header.trim()) continue;
    const shown = (text: string) => (text === '' ? 'had no name' : `was called "${text}"`);
    const reason = `column ${column.number} ${shown(column.header)} when it was saved as ${role}, and ${header === '' ? 'has no name' : `is called "${header}"`} here.`;
    throw unfitFor(name, reason, { file, line: found.headerLine ?? found.firstDataLine });
  }
}

/** The reading of a part of a file, or null where that can't be read. */
export function readable(head: Uint8Array, options: ReadOptions): Log | null {
  try {
    return readExport(head, options);
  } catch (error) {
    if (error instanceof HeatledgerError) return null;
    throw error;
  }
}

const arrays = [
  'timesS',
  'powerW',
  'energyJ',
  'voltageV',
  'currentA',
  'powerFactor',
  'temperatureK',
] as const;

function sameReadings(a: Log, b: Log): boolean {
  if (a.startUtcMs !== b.startUtcMs) return false;
  return arrays.every((key) => {
    const [one, other] = [a[key], b[key]];
    if (one === null || other === null) return one === other;
    return one.length === other.length && one.every((value, i) => Object.is(value, other[i]));
  });
}

const signs: Record<string, string> = { '.': 'a decimal point', ',': 'a decimal comma' };

function differences(own: ExportMapping, saved: ExportMapping): string {
  const found: string[] = [];
  const tell = (what: string, here: string, there: string) => {
    if (here !== there) found.push(`${what} ${here} here and ${there} in the mapping`);
  };
  tell('its numbers have', signs[own.decimal] as string, signs[saved.decimal] as string);
  tell('its columns are parted by', JSON.stringify(own.delimiter), JSON.stringify(saved.delimiter));
  tell('its times are of the form', own.timeForm, saved.timeForm);
  for (const column of own.columns) {
    const there = saved.columns[column.index];
    if (there?.role === column.role && column.role !== 'ignored')
      tell(`"${column.header}" is in`, column.unit ?? 'no unit', there.unit ?? 'no unit');
  }
  return found.join('; ');
}
