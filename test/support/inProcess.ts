import { runCommand } from '../../src/cli/index.js';
import { emptyFolder } from './folders.js';
import type { Ended } from './program.js';

type Write = typeof process.stdout.write;

/**
 * Runs one command line in this process, as the program would without a terminal, and catches what it prints. Much
 * quicker than a process of its own: for the many lines whose words and files are tested, not their process.
 */
export async function runLine(args: readonly string[]): Promise<Ended> {
  const text = { stdout: '', stderr: '' };
  const before = { stdout: process.stdout.write, stderr: process.stderr.write, HOME: process.env.HOME };
  const listeners = process.stdout.listeners('error');
  const caught = (name: 'stdout' | 'stderr'): Write =>
    ((chunk: string | Uint8Array) => {
      text[name] += typeof chunk === 'string' ? chunk : Buffer.from(chunk).toString();
      return true;
    }) as Write;
  // A workbook that is not named must not be found in the home of whoever runs the tests.
  process.env.HOME = emptyFolder();
  process.stdout.write = caught('stdout');
  process.stderr.write = caught('stderr');
  try {
    return { code: await runCommand(args, '0.0.0'), ...text };
  } finally {
    process.stdout.write = before.stdout;
    process.stderr.write = before.stderr;
    process.env.HOME = before.HOME;
    for (const added of process.stdout.listeners('error'))
      if (!listeners.includes(added)) process.stdout.off('error', added as () => void);
  }
}

/** The same, read as JSON, for lines that succeed. */
export async function runLineJson<T>(args: readonly string[]): Promise<T> {
  const ended = await runLine([...args, '--json']);
  if (ended.code !== 0)
    throw new Error(`heatledger ${args.join(' ')} ended with ${ended.code}: ${ended.stdout}${ended.stderr}`);
  return JSON.parse(ended.stdout) as T;
}
