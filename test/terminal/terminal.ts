/**
 * Runs a program at a real pseudo-terminal without native modules: by `script` of util-linux, or where that is
 * missing by Python's pty module. The program sees a terminal on stdin, stdout and stderr; the test sees what a
 * person would see.
 */
import { type ChildProcessWithoutNullStreams, spawn, spawnSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach } from 'vitest';
import { Screen } from './Screen.js';

export interface TerminalOptions {
  readonly cwd?: string;
  /** Added to the environment; a value of undefined takes a variable away. */
  readonly env?: Readonly<Record<string, string | undefined>>;
  /** Size of the terminal; 100 × 40 unless stated. */
  readonly columns?: number;
  readonly rows?: number;
}

export interface Terminal {
  /**
   * Waits for a text or a pattern in what was written since the last `type` or `send`, and returns what was found. Fails
   * after the time given, or when the program ends without it, and shows the screen.
   */
  waitFor(wanted: string | RegExp, timeoutMs?: number): Promise<string>;
  /** Types a line and presses Enter. */
  type(text: string): void;
  /** Sends keys as they are: '\x03' is Ctrl-C, '\x04' Ctrl-D, '\x1b[A' the up arrow. */
  send(keys: string): void;
  /** All that was written, as plain text, as it looks after redrawing. */
  screen(): string;
  /** What was written since the last `type` or `send`. */
  fresh(): string;
  /** All that was written, with the control characters, what is drawn over too. */
  written(): string;
  /** Exit code of the program; 128 + the number of the signal when one ended it. */
  readonly exit: Promise<number>;
  /** Ends the program and all it has started, as by a power cut unless another signal is named. */
  kill(signal?: NodeJS.Signals): Promise<number>;
}

const python = `
import os, pty, sys
status = pty.spawn(["/bin/sh", "-c", sys.argv[1]])
sys.exit(128 + os.WTERMSIG(status) if os.WIFSIGNALED(status) else os.WEXITSTATUS(status))
`;

export type Driver = 'script' | 'python3';

function works(driver: Driver): boolean {
  const args = driver === 'script' ? ['-qefc', 'true', '/dev/null'] : ['-c', 'import pty'];
  const env = { ...process.env, SHELL: '/bin/sh' };
  return spawnSync(driver, args, { stdio: ['pipe', 'ignore', 'ignore'], env }).status === 0;
}

let found: readonly Driver[] | undefined;

/** The ways to a pseudo-terminal that this machine has, the better one first; never none. */
export function driversHere(): readonly Driver[] {
  found ??= (['script', 'python3'] as const).filter(works);
  if (found.length === 0) {
    throw new Error(
      'No pseudo-terminal can be opened: install `script` ("sudo apt-get install -y bsdutils") or python3.',
    );
  }
  return found;
}

const quoted = (text: string) => `'${text.replaceAll("'", `'\\''`)}'`;

/** Terminals that a test has left running; they end with the test. */
const open = new Set<Terminal>();
afterEach(async () => {
  await Promise.all([...open].map((terminal) => terminal.kill()));
});

/** Starts a program, given as path and arguments, at a terminal of its own. It ends with the test at the latest. */
export function openTerminal(
  argv: readonly string[],
  options: TerminalOptions = {},
  driver: Driver = driversHere()[0]!,
): Terminal {
  const { columns = 100, rows = 40 } = options;
  const folder = mkdtempSync(join(tmpdir(), 'heatledger-terminal-'));
  const pidFile = join(folder, 'pid');
  // exec: the program takes the place of the shell, whose number is then its own and that of its process group.
  const size = `stty rows ${rows} cols ${columns}`;
  const command = `${size}; echo $$ > ${quoted(pidFile)}; exec ${argv.map(quoted).join(' ')}`;
  const args = driver === 'script' ? ['-qefc', command, '/dev/null'] : ['-c', python, command];
  const env: NodeJS.ProcessEnv = {
    ...process.env,
    TERM: 'xterm-256color',
    COLUMNS: String(columns),
    LINES: String(rows),
    SHELL: '/bin/sh',
    // What vitest tells its own processes is not meant for the program.
    VITEST: undefined,
    NODE_ENV: undefined,
    NO_COLOR: undefined,
    FORCE_COLOR: undefined,
    NODE_OPTIONS: undefined,
    CI: undefined,
    ...options.env,
  };
  const child = spawn(driver, args, { cwd: options.cwd ?? process.cwd(), env, stdio: 'pipe' });
  return driven(child, new Screen(columns, rows), pidFile, () =>
    rmSync(folder, { recursive: true, force: true }),
  );
}

function driven(
  child: ChildProcessWithoutNullStreams,
  screen: Screen,
  pidFile: string,
  cleanUp: () => void,
): Terminal {
  let ended = false;
  let written = '';
  const watchers = new Set<() => void>();
  const tell = () => {
    for (const watcher of [...watchers]) watcher();
  };
  for (const stream of [child.stdout, child.stderr]) {
    stream.setEncoding('utf8');
    stream.on('data', (text: string) => {
      screen.write(text);
      written += text;
      tell();
    });
  }
  // Keys sent to a program that has just ended are lost, as at a real terminal.
  child.stdin.on('error', () => {});
  const exit = new Promise<number>((done, fail) => {
    child.on('error', fail);
    child.on('close', (code) => {
      ended = true;
      open.delete(terminal);
      cleanUp();
      tell();
      done(code ?? 1);
    });
  });

  const terminal: Terminal = {
    exit,
    screen: () => screen.text(),
    fresh: () => screen.fresh(),
    written: () => written,
    type: (text) => {
      screen.setMark(true);
      child.stdin.write(`${text}\r`);
    },
    send: (keys) => {
      screen.setMark(false);
      child.stdin.write(keys);
    },
    waitFor: (wanted, timeoutMs = 30_000) =>
      new Promise<string>((done, fail) => {
        const settle = (act: () => void) => {
          watchers.delete(look);
          clearTimeout(timer);
          act();
        };
        const giveUp = (why: string) =>
          settle(() => fail(new Error(`${why} while waiting for ${wanted}. The screen:\n${screen.text()}`)));
        const look = () => {
          const text = screen.fresh();
          const match = typeof wanted === 'string' ? text.includes(wanted) && wanted : wanted.exec(text)?.[0];
          if (typeof match === 'string') settle(() => done(match));
          else if (ended) giveUp('The program ended');
        };
        const timer = setTimeout(() => giveUp(`${timeoutMs} ms passed`), timeoutMs);
        watchers.add(look);
        look();
      }),
    kill: async (signal = 'SIGKILL') => {
      const pid = await pidOf(pidFile, () => ended);
      if (pid !== undefined && !ended) {
        try {
          process.kill(-pid, signal);
        } catch (error) {
          // It may have ended by itself in the meantime.
          if ((error as NodeJS.ErrnoException).code !== 'ESRCH') throw error;
        }
      }
      return exit;
    },
  };
  open.add(terminal);
  return terminal;
}

/** Number of the program's process, which is that of its group; the shell writes it before the program starts. */
async function pidOf(pidFile: string, ended: () => boolean): Promise<number | undefined> {
  while (!ended()) {
    try {
      const pid = Number(readFileSync(pidFile, 'utf8').trim());
      if (pid > 1) return pid;
    } catch {
      // Not written yet.
    }
    await new Promise((done) => setTimeout(done, 10));
  }
  return undefined;
}
