/**
 * Help for benches: two jobs are run in turn, so that a machine that slows down slows both, and their medians are
 * compared. A bench prints a table and, as its last line, one JSON object with `ratio` and `holds`.
 */
import { spawnSync } from 'node:child_process';

/** @param {readonly number[]} values @returns {number} */
export function median(values) {
  if (values.length === 0) throw new Error('A median needs at least one value.');
  const sorted = [...values].sort((a, b) => a - b);
  const middle = sorted.length >> 1;
  const upper = sorted[middle] ?? Number.NaN;
  const lower = sorted[middle - 1] ?? Number.NaN;
  return sorted.length % 2 ? upper : (lower + upper) / 2;
}

/**
 * Runs the jobs in turn, A B B A A B …, after one round that is not counted.
 * @param {Readonly<Record<string, () => unknown>>} jobs by name; a job may be asynchronous
 * @param {number} rounds
 * @param {() => number} [clock] milliseconds
 * @returns {Promise<Record<string, number[]>>} milliseconds of every run
 */
export async function alternate(jobs, rounds, clock = () => performance.now()) {
  /** @type {Record<string, number[]>} */
  const times = Object.fromEntries(Object.keys(jobs).map((name) => [name, []]));
  const order = Object.entries(jobs);
  for (let round = -1; round < rounds; round += 1) {
    for (const [name, job] of order) {
      const start = clock();
      await job();
      const took = clock() - start;
      if (round >= 0) times[name]?.push(took);
    }
    order.reverse();
  }
  return times;
}

/**
 * Median, fastest and slowest run of every job, as lines of text.
 * @param {Readonly<Record<string, readonly number[]>>} times
 */
export function table(times) {
  const width = Math.max(...Object.keys(times).map((name) => name.length), 4);
  const cells = (/** @type {number[]} */ values) =>
    values.map((value) => value.toFixed(1).padStart(9)).join(' ');
  const head = `${'job'.padEnd(width)} ${['median', 'fastest', 'slowest'].map((each) => each.padStart(9)).join(' ')}  ms`;
  const rows = Object.entries(times).map(
    ([name, values]) =>
      `${name.padEnd(width)} ${cells([median(values), Math.min(...values), Math.max(...values)])}  (${values.length} runs)`,
  );
  return [head, ...rows].join('\n');
}

/**
 * The verdict: `ratio` of what was measured to what is allowed, which holds at 1 or below.
 * @param {number} measured @param {number} allowed
 * @returns {{ ratio: number, holds: boolean }}
 */
export function verdict(measured, allowed) {
  const ratio = measured / allowed;
  // Written so that an unknown ratio does not hold.
  return { ratio: Number(ratio.toFixed(4)), holds: ratio <= 1 };
}

/**
 * Prints the table and, last, the verdict with whatever else belongs to it; sets exit code 1 when it does not hold.
 * @param {Readonly<Record<string, readonly number[]>>} times
 * @param {{ ratio: number, holds: boolean }} outcome
 * @param {Readonly<Record<string, unknown>>} [more]
 */
export function conclude(times, outcome, more = {}) {
  process.stdout.write(`${table(times)}\n${JSON.stringify({ ...more, ...outcome })}\n`);
  if (!outcome.holds) process.exitCode = 1;
}

/**
 * Runs Node with these arguments and fails when it fails: the time of a crash is no result.
 * @param {string[]} args
 */
export function runNode(args) {
  const result = spawnSync(process.execPath, args, { stdio: ['ignore', 'ignore', 'pipe'], encoding: 'utf8' });
  if (result.status !== 0)
    throw new Error(`node ${args.join(' ')} ended with ${result.status}: ${result.stderr}`);
}
