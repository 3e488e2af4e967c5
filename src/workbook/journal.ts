import { createHash } from 'node:crypto';
import { closeSync, fsyncSync, openSync, readFileSync, truncateSync } from 'node:fs';
import { dirname } from 'node:path';
import { problem } from '../errors/index.js';
import { atomicWrite, makeFolder, syncFolder, writeAll } from './atomicWrite.js';
import { plainIssue } from './plainIssue.js';
import { type JournalEntry, type NewEntry, journalEntrySchema } from './schemas/journalEntry.js';

const NO_LINE_BEFORE = '0'.repeat(64);

export interface Journal {
  readonly entries: readonly JournalEntry[];
  /** SHA-256 of the last whole line, the link for the next. */
  readonly lastDigest: string;
  /** Bytes of the whole lines. */
  readonly bytes: number;
  /** A last line that the disk did not get whole; never acknowledged, so nothing that was kept is in it. */
  readonly torn: string | null;
}

/**
 * SHA-256 in hex.
 *
 * @example
 * // FIPS 180-4, the one-block example
 * sha256('abc') // => 'ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad'
 */
export function sha256(bytes: string | Uint8Array): string {
  return createHash('sha256').update(bytes).digest('hex');
}

/**
 * Reads a journal: each line checked by schema, number and link to the line before. A torn last line is set apart;
 * anything else broken is an error that names the line. Reading changes nothing.
 */
export function readJournal(file: string): Journal {
  let bytes: Buffer;
  try {
    bytes = readFileSync(file);
  } catch {
    throw problem('file-missing', { file }, { file });
  }
  const end = bytes.lastIndexOf(0x0a) + 1;
  const torn = end < bytes.length ? bytes.subarray(end).toString('utf8') : null;
  const entries: JournalEntry[] = [];
  let lastDigest = NO_LINE_BEFORE;
  let start = 0;
  for (let line = 1; start < end; line++) {
    const stop = bytes.indexOf(0x0a, start);
    const text = bytes.subarray(start, stop);
    const entry = parseLine(text.toString('utf8'), file, line);
    if (entry.seq !== line)
      throw problem(
        'journal-broken',
        { reason: `it carries the number ${entry.seq} where ${line} is expected` },
        { file, line },
      );
    if (entry.prev !== lastDigest) {
      throw problem(
        'journal-broken',
        { reason: 'it does not follow from the line before, so one of the two was changed' },
        { file, line },
      );
    }
    entries.push(entry);
    lastDigest = sha256(text);
    start = stop + 1;
  }
  return { entries, lastDigest, bytes: end, torn };
}

function parseLine(text: string, file: string, line: number): JournalEntry {
  let raw: unknown;
  try {
    raw = JSON.parse(text);
  } catch {
    throw problem('journal-broken', { reason: 'it is not JSON' }, { file, line });
  }
  const checked = journalEntrySchema.safeParse(raw);
  if (checked.success) return checked.data;
  const issue = checked.error.issues[0];
  const key = issue?.path.map(String).join('.');
  throw problem(
    'journal-broken',
    { reason: issue ? plainIssue(issue, null) : 'its form is unknown' },
    { file, line, ...(key ? { key } : {}) },
  );
}

/**
 * Appends one entry and returns only after the disk has it: the file flushed, then its folder. What is returned is
 * the journal with the new line.
 */
export function appendEntry(file: string, journal: Journal, entry: NewEntry): Journal {
  const full = { seq: journal.entries.length + 1, ...entry, prev: journal.lastDigest } as JournalEntry;
  const checked = journalEntrySchema.parse(full);
  const line = Buffer.from(JSON.stringify(checked), 'utf8');
  makeFolder(dirname(file));
  const handle = openSync(file, 'a', 0o644);
  try {
    writeAll(handle, Buffer.concat([line, Buffer.from('\n')]));
    fsyncSync(handle);
  } catch (error) {
    // A disk that took half a line must not leave it in the way of the next.
    truncateSync(file, journal.bytes);
    throw error;
  } finally {
    closeSync(handle);
  }
  syncFolder(dirname(file));
  return {
    entries: [...journal.entries, checked],
    lastDigest: sha256(line),
    bytes: journal.bytes + line.length + 1,
    torn: null,
  };
}

/** Puts a torn last line aside, beside the journal, and cuts it off; only a writer that holds the lock may. */
export function setTornAside(file: string, journal: Journal): Journal {
  if (journal.torn === null) return journal;
  atomicWrite(`${file}.torn-${journal.entries.length + 1}`, journal.torn);
  truncateSync(file, journal.bytes);
  return { ...journal, torn: null };
}

export const emptyJournal: Journal = { entries: [], lastDigest: NO_LINE_BEFORE, bytes: 0, torn: null };
