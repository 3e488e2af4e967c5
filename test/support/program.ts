import { spawn } from 'node:child_process';
import { join } from 'node:path';
import { emptyFolder, top } from './folders.js';

/** The program as it was built; the tests never build it. */
export const program = join(top, 'dist', 'cli', 'main.js');

export interface Ended {
  readonly code: number;
  readonly stdout: string;
  readonly stderr: string;
}

/**
 * The environment of a person with a home folder of their own and nothing else set: the same clock, language and width on every
 * machine, and nothing of what the test runner tells its own processes.
 */
export function environment(home: string): Record<string, string | undefined> {
  return {
    HOME: home,
    TZ: 'UTC',
    LANG: 'C.UTF-8',
    LC_ALL: undefined,
    NODE_OPTIONS: undefined,
    NODE_ENV: undefined,
    VITEST: undefined,
  };
}

/** Runs one command line without a terminal, in an empty folder unless another is named, to its end. */
export function heatledger(
  args: readonly string[],
  where: { readonly cwd?: string; readonly home?: string; readonly node?: readonly string[] } = {},
): Promise<Ended> {
  const cwd = where.cwd ?? emptyFolder();
  const env = { ...process.env, ...environment(where.home ?? cwd) };
  return new Promise((done, fail) => {
    const child = spawn(process.execPath, [...(where.node ?? []), program, ...args], {
      cwd,
      env,
      stdio: ['ignore', 'pipe', 'pipe'],
    });
    let [stdout, stderr] = ['', ''];
    child.stdout.setEncoding('utf8').on('data', (text: string) => {
      stdout += text;
    });
    child.stderr.setEncoding('utf8').on('data', (text: string) => {
      stderr += text;
    });
    child.on('error', fail);
    child.on('close', (code) => done({ code: code ?? -1, stdout, stderr }));
  });
}

/** The same, read as JSON, for commands that succeed. */
export async function heatledgerJson<T>(
  args: readonly string[],
  where: Parameters<typeof heatledger>[1] = {},
): Promise<T> {
  const ended = await heatledger([...args, '--json'], where);
  if (ended.code !== 0)
    throw new Error(`heatledger ${args.join(' ')} ended with ${ended.code}: ${ended.stdout}${ended.stderr}`);
  return JSON.parse(ended.stdout) as T;
}
