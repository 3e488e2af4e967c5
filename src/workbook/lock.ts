import { readFileSync, readdirSync, renameSync, rmSync, writeFileSync } from 'node:fs';
import { hostname } from 'node:os';
import { basename, dirname, join } from 'node:path';
import { problem } from '../errors/index.js';

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

/** Tries before a living writer is reported; two that come at the same moment both step back once or twice. */
const TRIES = 5;

let count = 0;

/**
 * Takes the writer's lock of a run. Readers never wait for it. A lock that a dead process of this machine held is
 * taken over with a word; a living one is an error that says who and since when.
 *
 * Every writer sets up a file of its own beside the others and only then looks for them, so that of two at least one
 * sees the other and steps back. No file is ever shared: that of a dead process can be removed by anybody without the
 * danger of removing one that has just been taken.
 */
export function takeLock(file: string, run: string): Lock {
  const mine: Holder = {
    pid: process.pid,
    host: hostname(),
    since: new Date().toISOString(),
    started: startOf(process.pid),
  };
  // A name that no other process ever has, not even one that gets our number after us.
  const named = [mine.host, mine.pid, mine.started ?? mine.since, count++].join('-');
  const own = `${file}.${named.replace(/[^A-Za-z0-9-]/g, '')}`;
  let tookOver: string | null = null;
  for (let attempt = 1; ; attempt++) {
    set(own, mine);
    let living: Holder | null = null;
    for (const other of othersOf(file, own)) {
      const holder = holderOf(other);
      if (holder === 'gone') continue;
      if (holder !== null && isAlive(holder)) living = holder;
      else {
        rmSync(other, { force: true });
        tookOver = 'The program was ended while this run was open; going on from the last reading kept.';
      }
    }
    if (living === null) return { tookOver, release: () => rmSync(own, { force: true }) };
    rmSync(own, { force: true });
    if (attempt === TRIES) throw heldBy(living, mine, run, dirname(file));
    pause(5 + 20 * Math.random());
  }
}

function heldBy(living: Holder, mine: Holder, run: string, folder: string) {
  const where = living.host === mine.host ? '' : ` on ${living.host}`;
  return problem(
    'run-locked',
    { run, by: `process ${living.pid}${where}`, since: living.since },
    { file: folder },
    'Close the other terminal, or work on another run: several runs may be open at once.',
  );
}

/** Written whole beside it, then renamed into place: a lock is never seen half-written. */
function set(own: string, mine: Holder): void {
  const whole = join(dirname(own), `.${basename(own)}.new`);
  writeFileSync(whole, JSON.stringify(mine));
  renameSync(whole, own);
}

function othersOf(file: string, own: string): string[] {
  return readdirSync(dirname(file))
    .filter((name) => name.startsWith(`${basename(file)}.`))
    .map((name) => join(dirname(file), name))
    .filter((each) => each !== own);
}

/** Waits without giving the turn away: taking a lock is one step for the caller. */
function pause(ms: number): void {
  Atomics.wait(new Int32Array(new SharedArrayBuffer(4)), 0, 0, ms);
}

/** Who set up a lock; null where that can't be read any more, `gone` where the file has just been removed. */
function holderOf(file: string): Holder | null | 'gone' {
  try {
    const raw = JSON.parse(readFileSync(file, 'utf8')) as Partial<Holder>;
    if (typeof raw.pid !== 'number' || typeof raw.host !== 'string' || typeof raw.since !== 'string')
      return null;
    return { pid: raw.pid, host: raw.host, since: raw.since, started: raw.started ?? null };
  } catch (error) {
    return (error as NodeJS.ErrnoException).code === 'ENOENT' ? 'gone' : null;
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
