import type { CommonArgs } from '../Outcome.js';
import { ProgressLine } from '../ProgressLine.js';

/** Runs a long work with a line of progress on stderr, which is gone when the work is done or has failed. */
export async function progressFor<T>(
  args: CommonArgs,
  work: (line: ProgressLine) => T | Promise<T>,
): Promise<T> {
  // A program that reads our JSON has no use for it, even where stderr is still a terminal.
  const isWanted = args.json !== true || process.stdout.isTTY === true;
  const line = new ProgressLine(isWanted ? process.stderr : { write: () => true });
  try {
    return await work(line);
  } finally {
    line.clear();
  }
}
