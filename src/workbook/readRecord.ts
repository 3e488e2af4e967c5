import { readFileSync, statSync } from 'node:fs';
import { LineCounter, parseDocument, stringify } from 'yaml';
import { z } from 'zod';
import { problem } from '../errors/index.js';
import { plainIssue } from './plainIssue.js';
import { SCHEMA_VERSION } from './schemas/fields.js';

/** Far above any record a person writes; keeps a wrong file from filling the memory. */
const LARGEST_RECORD_BYTES = 4_000_000;

/**
 * Text of a small file, with a sentence when it isn't there, isn't text or is far too big.
 *
 * @example
 * const file = `${emptyFolder()}/notes.txt`;
 * atomicWrite(file, '\uFEFFstirred well');
 * readText(file) // => 'stirred well'
 * readText(`${file}.gone`) // throws 'file-missing'
 */
export function readText(file: string): string {
  let size: number;
  let plain: boolean;
  try {
    const found = statSync(file);
    plain = found.isFile();
    size = found.size;
  } catch {
    throw problem('file-missing', { file }, { file });
  }
  if (!plain) throw problem('file-unreadable', { reason: 'it is no plain file' }, { file });
  if (size > LARGEST_RECORD_BYTES)
    throw problem('file-too-large', { bytes: size, most: LARGEST_RECORD_BYTES }, { file });
  let bytes: Buffer;
  try {
    bytes = readFileSync(file);
  } catch (error) {
    throw problem('file-unreadable', { reason: (error as Error).message }, { file });
  }
  if (bytes.includes(0)) throw problem('file-not-text', {}, { file });
  return bytes.toString('utf8').replace(/^\uFEFF/, '');
}

/** A record and where its parts stand in the file. */
export interface RecordWithLines<S extends z.ZodType> {
  readonly record: z.output<S>;
  /** Line of the value at a path of keys, counted from 1. */
  readonly lineOf: (path: readonly (string | number)[]) => number | undefined;
}

/**
 * Reads YAML text by a schema. Every error names file, line and key; a newer schema version is refused with a
 * sentence of its own.
 *
 * @example
 * const { record, lineOf } = parseRecordWithLines('# the pot\n1871 g', quantityField('mass', 'g', 'mass'), 'pot.yaml');
 * record // => 1.871
 * lineOf([]) // => 2
 */
export function parseRecordWithLines<S extends z.ZodType>(
  text: string,
  schema: S,
  file: string,
): RecordWithLines<S> {
  const lines = new LineCounter();
  const document = parseDocument(text, {
    lineCounter: lines,
    prettyErrors: false,
    uniqueKeys: true,
    maxAliasCount: 50,
  } as never);
  const broken = document.errors[0];
  if (broken) {
    const at = lines.linePos(broken.pos[0]);
    throw problem(
      'record-not-yaml',
      { reason: yamlWords[broken.code] ?? firstLine(broken.message) },
      { file, line: at.line, column: at.col },
    );
  }
  let raw: unknown;
  try {
    raw = document.toJS({ maxAliasCount: 50 });
  } catch (error) {
    throw problem('record-not-yaml', { reason: aliasWords((error as Error).message) }, { file });
  }
  const version = (raw as { schema?: unknown } | null)?.schema;
  if (typeof version === 'number' && version > SCHEMA_VERSION) {
    const line = lineAt(document, lines, ['schema']);
    throw problem(
      'schema-newer',
      { got: version, known: SCHEMA_VERSION },
      { file, ...(line === undefined ? {} : { line }), key: 'schema' },
    );
  }
  const checked = schema.safeParse(raw);
  if (checked.success) {
    return { record: checked.data, lineOf: (path) => lineAt(document, lines, path) };
  }
  throw complaint(deepest(checked.error.issues), raw, document, lines, file);
}

function complaint(issue: Issue, raw: unknown, document: Document, lines: LineCounter, file: string) {
  const value = valueAt(raw, issue.path);
  const reason = plainIssue(issue, value);
  // A key that nobody knows is itself what is wrong, not the group it stands in.
  const stray = issue.code === 'unrecognized_keys' ? issue.keys[0] : undefined;
  const path = [...issue.path, ...(stray === undefined ? [] : [stray])];
  const node = nearestNode(document, path as (string | number)[], stray !== undefined);
  const at = node === undefined ? undefined : lines.linePos(node);
  const key = path.map(String).join('.');
  return problem(
    'record-invalid',
    { reason: capital(reason), got: shown(stray === undefined ? value : valueAt(raw, path)) },
    { file, ...(at ? { line: at.line, column: at.col } : {}), ...(key ? { key } : {}) },
  );
}

function lineAt(document: Document, lines: LineCounter, path: readonly (string | number)[]) {
  const at = nearestNode(document, [...path]);
  return at === undefined ? undefined : lines.linePos(at).line;
}

/**
 * The same, when only the record matters.
 *
 * @example
 * parseRecord('vat-warmer', idField, 'heater.yaml') // => 'vat-warmer'
 * parseRecord('Vat warmer', idField, 'heater.yaml') // throws 'record-invalid'
 */
export function parseRecord<S extends z.ZodType>(text: string, schema: S, file: string): z.output<S> {
  return parseRecordWithLines(text, schema, file).record;
}

/** Reads a record file by its schema. */
export function readRecord<S extends z.ZodType>(file: string, schema: S): z.output<S> {
  return parseRecord(readText(file), schema, file);
}

type Document = ReturnType<typeof parseDocument>;
type Issue = z.core.$ZodIssue;

/** What is most often wrong with a YAML text, in words for people who write it by hand. */
const yamlWords: Readonly<Record<string, string>> = {
  DUPLICATE_KEY: 'this key stands here a second time',
  MULTIPLE_DOCS: 'a second document begins here; one to a file is expected',
  TAB_AS_INDENT: 'this line is indented by a tab; blanks are expected',
  MISSING_CHAR: 'a closing quotation mark or bracket is missing',
};

function aliasWords(message: string): string {
  return message.startsWith('Excessive alias')
    ? 'it repeats itself by aliases (*name) far more often than any record needs'
    : firstLine(message);
}

function firstLine(text: string): string {
  if (text.startsWith('Maximum call stack')) return 'its lists and groups are nested far too deeply';
  return (text.split('\n')[0] ?? text).replace(/[.:]$/, '');
}

const capital = (text: string) => text.charAt(0).toUpperCase() + text.slice(1);

/** Of a union's complaints the first is the one that helps. */
function deepest(issues: readonly Issue[]): Issue {
  const issue = issues[0] as Issue;
  if (issue.code !== 'invalid_union') return issue;
  const inner = issue.errors.flat().find((each) => each.path.length > 0);
  return inner ? deepest([{ ...inner, path: [...issue.path, ...inner.path] } as Issue]) : issue;
}

function valueAt(raw: unknown, path: readonly PropertyKey[]): unknown {
  let value: unknown = raw;
  for (const key of path) {
    const inside = typeof value === 'object' && value !== null && Object.hasOwn(value, key);
    value = inside ? (value as Record<PropertyKey, unknown>)[key] : undefined;
  }
  return value;
}

function shown(value: unknown): string {
  if (value === undefined || value === null) return 'nothing';
  const text = typeof value === 'string' ? `"${value}"` : JSON.stringify(value);
  if (text.length <= 80) return text;
  if (Array.isArray(value)) return `a list of ${value.length}`;
  return typeof value === 'object' ? 'a group of keys' : `${text.slice(0, 77)}...`;
}

/** Where a path begins in the text, or the nearest part of it that is there; with `ofKey` the key and not its value. */
function nearestNode(document: Document, path: (string | number)[], ofKey = false): number | undefined {
  if (ofKey) {
    const group = document.getIn(path.slice(0, -1), true) as { items?: unknown };
    const pairs = (Array.isArray(group?.items) ? group.items : []) as {
      key?: { value?: unknown; range?: number[] };
    }[];
    const found = pairs.find((pair) => pair.key?.value === path.at(-1))?.key?.range?.[0];
    if (found !== undefined) return found;
  }
  for (let depth = path.length; depth >= 0; depth--) {
    const node = document.getIn(path.slice(0, depth), true) as
      | { range?: [number, number, number] }
      | undefined;
    if (node?.range) return node.range[0];
  }
  return undefined;
}

/** A record as YAML text; what it says, readRecord reads back. */
export function yamlText(record: unknown): string {
  return stringify(record);
}

/**
 * A record file as a person wrote it, before any schema: the schema is applied when it is saved.
 *
 * @example
 * const file = `${emptyFolder()}/scale.yaml`;
 * atomicWrite(file, 'id: scale\nresolution: 1 g\n');
 * readRawRecord(file) // => { id: 'scale', resolution: '1 g' }
 */
export function readRawRecord(file: string): Record<string, unknown> {
  const shape = z.record(z.string(), z.unknown());
  return parseRecord(readText(file), shape, file);
}
