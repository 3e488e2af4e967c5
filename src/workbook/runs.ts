import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { basename, join } from 'node:path';
import { problem } from '../errors/index.js';
import { atomicWrite, makeFolder } from './atomicWrite.js';
import { type Journal, appendEntry, emptyJournal, readJournal, setTornAside, sha256 } from './journal.js';
import { type Lock, takeLock } from './lock.js';
import { paths } from './paths.js';
import { readText } from './readRecord.js';
import { type RunRecord, runFrom } from './RunRecord.js';
import type { NewEntry } from './schemas/journalEntry.js';

/**
 * Ids of all runs, in order of their names.
 *
 * @example
 * listRuns(emptyFolder()) // => []
 */
export function listRuns(dir: string): string[] {
  const folder = paths.runs(dir);
  if (!existsSync(folder)) return [];
  return readdirSync(folder, { withFileTypes: true })
    .filter((entry) => entry.isDirectory() && existsSync(join(folder, entry.name, 'journal.jsonl')))
    .map((entry) => entry.name)
    .sort();
}

/**
 * A run as it stands, and a sentence when its last line was torn. Changes nothing on disk.
 *
 * @example
 * readRun(emptyFolder(), 'vat-warmer-full-01') // throws 'run-unknown'
 */
export function readRun(
  dir: string,
  id: string,
): { readonly run: RunRecord; readonly warnings: readonly string[] } {
  const file = paths.journal(dir, id);
  if (!existsSync(file)) {
    throw problem(
      'run-unknown',
      { got: id, known: listRuns(dir).slice(-8).join(', ') || 'none yet' },
      { file: paths.runs(dir) },
    );
  }
  const journal = readJournal(file);
  return { run: foldOrFail(journal, file, id), warnings: tornWarning(journal, id) };
}

function foldOrFail(journal: Journal, file: string, id: string): RunRecord {
  const run = runFrom(journal.entries);
  if (run === null) throw problem('journal-broken', { reason: 'it does not begin a run' }, { file, line: 1 });
  if (run.id !== id)
    throw problem('run-misnamed', { got: run.id, expected: id }, { file, line: 1, key: 'run' });
  return run;
}

function tornWarning(journal: Journal, id: string): string[] {
  if (journal.torn === null) return [];
  return [
    `The last line of run ${id} was cut off while it was written. It had not been kept; all lines before it are whole.`,
  ];
}

/**
 * Text of the protocol as it was when the run began.
 *
 * @example
 * readRunProtocol(emptyFolder(), 'vat-warmer-full-01') // throws 'file-missing'
 */
export function readRunProtocol(dir: string, id: string): string {
  return readText(paths.runProtocol(dir, id));
}

/**
 * The next free id of a heater and setting: `vat-warmer-gentle-03`.
 *
 * @example
 * nextRunId(emptyFolder(), 'vat-warmer', 'full') // => 'vat-warmer-full-01'
 */
export function nextRunId(dir: string, heater: string, setting: string): string {
  const known = new Set(listRuns(dir));
  for (let number = 1; ; number++) {
    const id = `${heater}-${setting}-${String(number).padStart(2, '0')}`;
    // The folder too: a run that was begun and never got its first line still holds the number.
    if (!known.has(id) && !existsSync(paths.run(dir, id))) return id;
  }
}

/** The one writer of a run. Every append is on disk when it returns. */
export class RunWriter {
  private constructor(
    private readonly dir: string,
    readonly id: string,
    private journal: Journal,
    private readonly lock: Lock,
    readonly remarks: readonly string[],
  ) {}

  /** Opens an existing run; sets a torn last line aside and says so. */
  static open(dir: string, id: string): RunWriter {
    const file = paths.journal(dir, id);
    if (!existsSync(file)) readRun(dir, id);
    const lock = takeLock(paths.lock(dir, id), id);
    try {
      const found = readJournal(file);
      const remarks = [...(lock.tookOver ? [lock.tookOver] : []), ...tornWarning(found, id)];
      foldOrFail(found, file, id);
      return new RunWriter(dir, id, setTornAside(file, found), lock, remarks);
    } catch (error) {
      lock.release();
      throw error;
    }
  }

  /** Begins a new run, with the text of its protocol beside the journal. */
  static begin(dir: string, entry: Extract<NewEntry, { event: 'begin' }>, protocolText: string): RunWriter {
    const file = paths.journal(dir, entry.run);
    if (existsSync(file)) throw problem('run-exists', { got: entry.run }, { file });
    makeFolder(paths.run(dir, entry.run));
    const lock = takeLock(paths.lock(dir, entry.run), entry.run);
    try {
      if (existsSync(file)) throw problem('run-exists', { got: entry.run }, { file });
      atomicWrite(paths.runProtocol(dir, entry.run), protocolText);
      return new RunWriter(dir, entry.run, appendEntry(file, emptyJournal, entry), lock, []);
    } catch (error) {
      lock.release();
      throw error;
    }
  }

  get run(): RunRecord {
    return foldOrFail(this.journal, paths.journal(this.dir, this.id), this.id);
  }

  append(entry: NewEntry): RunRecord {
    this.journal = appendEntry(paths.journal(this.dir, this.id), this.journal, entry);
    return this.run;
  }

  /**
   * Keeps an export byte for byte in the run's folder and returns its place and digest; the entry that names it is
   * appended by the caller, so a copy without an entry is nothing but a spare file.
   */
  storeExport(name: string, bytes: Uint8Array): { readonly file: string; readonly sha256: string } {
    const digest = sha256(bytes);
    const plain =
      basename(name)
        .replace(/[^A-Za-z0-9._-]+/g, '-')
        .replace(/^\.+/, '')
        .slice(-80) || 'export.csv';
    const file = `exports/${digest.slice(0, 12)}-${plain}`;
    atomicWrite(join(paths.run(this.dir, this.id), file), bytes);
    return { file, sha256: digest };
  }

  close(): void {
    this.lock.release();
  }
}

/**
 * Bytes of an export kept with a run, checked against the digest of its entry.
 *
 * @example
 * readAttachment(emptyFolder(), 'vat-warmer-full-01', 'exports/meter.csv', sha256('')) // throws 'file-missing'
 */
export function readAttachment(dir: string, run: string, file: string, digest: string): Uint8Array {
  const whole = join(paths.run(dir, run), 'exports', basename(file));
  let bytes: Buffer;
  try {
    bytes = readFileSync(whole);
  } catch {
    throw problem('file-missing', { file: whole }, { file: whole });
  }
  if (sha256(bytes) !== digest) throw problem('attachment-changed', { run }, { file: whole });
  return bytes;
}
