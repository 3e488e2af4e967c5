import { closeSync, fsyncSync, linkSync, openSync, readFileSync, renameSync, rmSync } from 'node:fs';
import { hostname } from 'node:os';
import { problem } from '../errors/index.js';
import { writeAll } from './atomicWrite.js';

export interface Lock {
  /** A sentence when a lock of a dead process was taken over, else null. */
  readonly tookOver: string | null;
  release(): void;
}

interface Holder {
  readonly pid: number;
  readonly host: string;
  readonly since: string;
  /** Start time of the process where the system tells it: a process number may come round again. */
  readonly started: string | null;
}

/**
 * Takes the writer's lock of a run. Readers never wait for it. A lock that a dead process of this machine held is
 * taken over with a word; a living one is an error that says who and since when.
 */
export function takeLock(file: string, run: string): Lock {
  const mine: Holder = {
    pid: process.pid,
    host: hostname(),
    since: new Date().toISOString(),
    started: startOf(process.pid),
  };
  let tookOver: string | null = null;
  for (let attempt = 0; attempt < 5; attempt++) {
    if (create(file, mine)) return { tookOver, release: () => release(file, mine) };
    const holder = holderOf(file);
    if (holder !== null && isAlive(holder)) {
      const where = holder.host === mine.host ? '' : ` on ${holder.host}`;
      throw problem(
        'run-locked',
        { run, by: `process ${holder.pid}${where}`, since: holder.since },
        { file },
        'Close the other terminal, or work on another run: several runs may be open at once.',
      );
    }
    // Renamed first, so that of two processes that find it dead only one removes it.
    if (removeStale(file)) {
      tookOver = 'The program was ended while this run was open; going on from the last reading kept.';
    }
  }
  throw problem('run-locked', { run, by: 'another process', since: 'just now' }, { file });
}

/** Written whole beside it, then linked into place: a lock is never seen half-written. */
function create(file: string, mine: Holder): boolean {
  const whole = `${file}.${mine.pid}.new`;
  const handle = openSync(whole, 'w', 0o644);
  try {
    writeAll(handle, Buffer.from(JSON.stringify(mine)));
    fsyncSync(handle);
  } finally {
    closeSync(handle);
  }
  try {
    linkSync(whole, file);
    return true;
  } catch (error) {
    if ((error as NodeJS.ErrnoException).code === 'EEXIST') return false;
    throw error;
  } finally {
    rmSync(whole, { force: true });
  }
}

/** Removes a dead process's lock; false when another process was quicker. */
function removeStale(file: string): boolean {
  const aside = `${file}.${process.pid}.stale`;
  try {
    renameSync(file, aside);
  } catch (error) {
    if ((error as NodeJS.ErrnoException).code === 'ENOENT') return false;
    throw error;
  }
  const holder = holderOf(aside);
  if (holder !== null && isAlive(holder)) {
    // Between the look and the rename somebody else took it over: give it back.
    renameSync(aside, file);
    return false;
  }
  rmSync(aside, { force: true });
  return true;
}

function release(file: string, mine: Holder): void {
  const holder = holderOf(file);
  if (holder?.pid === mine.pid && holder.since === mine.since) rmSync(file, { force: true });
}

function holderOf(file: string): Holder | null {
  try {
    const raw = JSON.parse(readFileSync(file, 'utf8')) as Partial<Holder>;
    if (typeof raw.pid !== 'number' || typeof raw.host !== 'string' || typeof raw.since !== 'string')
      return null;
    return { pid: raw.pid, host: raw.host, since: raw.since, started: raw.started ?? null };
  } catch {
    return null;
  }
}

function isAlive(holder: Holder): boolean {
  // Of a process on another machine nothing is known: it counts as alive.
  if (holder.host !== hostname()) return true;
  try {
    process.kill(holder.pid, 0);
  } catch (error) {
    if ((error as NodeJS.ErrnoException).code === 'ESRCH') return false;
  }
  const started = startOf(holder.pid);
  return started === null || holder.started === null || started === holder.started;
}

/** Field 22 of /proc/PID/stat; null on systems without it. */
function startOf(pid: number): string | null {
  try {
    const stat = readFileSync(`/proc/${pid}/stat`, 'utf8');
    return stat.slice(stat.lastIndexOf(')') + 2).split(' ')[19] ?? null;
  } catch {
    return null;
  }
}
