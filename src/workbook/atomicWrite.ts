import { closeSync, fsyncSync, mkdirSync, openSync, renameSync, rmSync, writeSync } from 'node:fs';
import { dirname, join } from 'node:path';

/** Flushes a folder's entries to disk. Not every system allows it; those that don't have no need of it. */
export function syncFolder(dir: string): void {
  let handle: number;
  try {
    handle = openSync(dir, 'r');
  } catch {
    return;
  }
  try {
    fsyncSync(handle);
  } catch {
    // EPERM or EINVAL on systems where folders can't be flushed.
  } finally {
    closeSync(handle);
  }
}

/** Makes a folder and flushes its parents, so that it is still there after a power cut. */
export function makeFolder(dir: string): void {
  const first = mkdirSync(dir, { recursive: true });
  if (first === undefined) return;
  for (let at = dir; at.length >= first.length; at = dirname(at)) syncFolder(dirname(at));
}

/** Writes all bytes or throws: the system may take fewer than asked. */
export function writeAll(handle: number, bytes: Uint8Array): void {
  for (let done = 0; done < bytes.length; ) done += writeSync(handle, bytes, done, bytes.length - done);
}

let counter = 0;

/**
 * Writes a whole file or leaves the old one as it was: temporary file beside it, flushed, renamed into place, the
 * folder flushed. A text may come in pieces, so that a long one is never held whole.
 *
 * @example
 * const file = `${emptyFolder()}/notes/today.txt`;
 * atomicWrite(file, 'stirred well\n');
 * readText(file) // => 'stirred well\n'
 */
export function atomicWrite(file: string, content: string | Uint8Array | Iterable<string>): void {
  const dir = dirname(file);
  makeFolder(dir);
  const temporary = join(dir, `.${process.pid}-${counter++}.tmp`);
  const pieces = typeof content === 'string' || content instanceof Uint8Array ? [content] : content;
  try {
    const handle = openSync(temporary, 'wx', 0o644);
    try {
      for (const piece of pieces)
        writeAll(handle, typeof piece === 'string' ? Buffer.from(piece, 'utf8') : piece);
      fsyncSync(handle);
    } finally {
      closeSync(handle);
    }
    renameSync(temporary, file);
  } catch (error) {
    rmSync(temporary, { force: true });
    throw error;
  }
  syncFolder(dir);
}
