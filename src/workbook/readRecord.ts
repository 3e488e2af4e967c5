import { readFileSync, statSync } from 'node:fs';
import { LineCounter, parseDocument, stringify } from 'yaml';
import { z } from 'zod';
import { problem } from '../errors/index.js';
import { SCHEMA_VERSION } from './schemas/fields.js';

/** Far above any record a person writes; keeps a wrong file from filling the memory. */
const LARGEST_RECORD_BYTES = 4_000_000;

/** Text of a small file, with a sentence when it isn't there, isn't text or is far too big. */
export function readText(file: string): string {
  let size: number;
  try {
    size = statSync(file).size;
  } catch {
    throw problem('file-missing', { file }, { file });
  }
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
      { reason: firstLine(broken.message) },
      { file, line: at.line, column: at.col },
    );
  }
  let raw: unknown;
  try {
    raw = document.toJS({ maxAliasCount: 50 });
  } catch (error) {
    throw problem('record-not-yaml', { reason: firstLine((error as Error).message) }, { file });
  }
  const version = (raw as { schema?: unknown } | null)?.schema;
  if (typeof version === 'number' && version > SCHEMA_VERSION) {
    throw problem('schema-newer', { got: version, known: SCHEMA_VERSION }, { file, key: 'schema' });
  }
  const checked = schema.safeParse(raw);
  if (checked.success) {
    const lineOf = (path: readonly (string | number)[]) => {
      const at = nearestNode(document, [...path]);
      return at === undefined ? undefined : lines.linePos(at).line;
    };
    return { record: checked.data, lineOf };
  }
  const issue = deepest(checked.error.issues);
  const key = issue.path.map(String).join('.');
  const node = nearestNode(document, issue.path as (string | number)[]);
  const at = node === undefined ? undefined : lines.linePos(node);
  throw problem(
    'record-invalid',
    { reason: issue.message, got: shown(raw, issue.path as (string | number)[]) },
    { file, ...(at ? { line: at.line, column: at.col } : {}), ...(key ? { key } : {}) },
  );
}

/** The same, when only the record matters. */
export function parseRecord<S extends z.ZodType>(text: string, schema: S, file: string): z.output<S> {
  return parseRecordWithLines(text, schema, file).record;
}

/** Reads a record file by its schema. */
export function readRecord<S extends z.ZodType>(file: string, schema: S): z.output<S> {
  return parseRecord(readText(file), schema, file);
}

function firstLine(text: string): string {
  return (text.split('\n')[0] ?? text).replace(/[.:]$/, '');
}

interface Issue {
  readonly path: PropertyKey[];
  readonly message: string;
}

/** Of a union's complaints the first that got furthest into the file is the one that helps. */
function deepest(issues: readonly Issue[]): Issue {
  const all = issues.flatMap((issue) => {
    const inner = (issue as { errors?: Issue[][] }).errors ?? [];
    const found = inner.flat().map((each) => ({ ...each, path: [...issue.path, ...each.path] }));
    return found.length > 0 ? found : [issue];
  });
  return all[0] as Issue;
}

function shown(raw: unknown, path: readonly (string | number)[]): string {
  let value: unknown = raw;
  for (const key of path) value = (value as Record<string, unknown> | undefined)?.[key as string];
  if (value === undefined) return 'nothing';
  const text = typeof value === 'string' ? `"${value}"` : JSON.stringify(value);
  return text.length > 80 ? `${text.slice(0, 77)}...` : text;
}

function nearestNode(
  document: ReturnType<typeof parseDocument>,
  path: (string | number)[],
): number | undefined {
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

/** A record file as a person wrote it, before any schema: the schema is applied when it is saved. */
export function readRawRecord(file: string): Record<string, unknown> {
  const shape = z.record(z.string(), z.unknown());
  return parseRecord(readText(file), shape, file);
}
