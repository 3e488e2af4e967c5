import { spawnSync } from 'node:child_process';
import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';
import { alternate, median, runNode, table, verdict } from './bench.mjs';

describe('the help for benches', () => {
  it('takes the median of an odd and an even number of values', () => {
    expect(median([10, 1, 2])).toBe(2);
    expect(median([10, 1, 2, 4])).toBe(3);
    expect(() => median([])).toThrow(/at least one/);
  });

  it('runs the jobs in turn and leaves out the first round', async () => {
    const order: string[] = [];
    let now = 0;
    const job = (name: string, ms: number) => async () => {
      order.push(name);
      now += ms;
    };
    const times = await alternate({ a: job('a', 5), b: job('b', 7) }, 2, () => now);
    expect(order.join('')).toBe('abbaab');
    expect(times).toEqual({ a: [5, 5], b: [7, 7] });
  });

  it('holds at the bar, not above it, and not when nothing is known', () => {
    expect(verdict(150, 150)).toEqual({ ratio: 1, holds: true });
    expect(verdict(151, 150).holds).toBe(false);
    expect(verdict(Number.NaN, 150).holds).toBe(false);
  });

  it('shows median, fastest and slowest', () => {
    expect(table({ a: [3, 1, 2] }).split('\n')[1]).toMatch(/^a\s+2\.0\s+1\.0\s+3\.0 {2}\(3 runs\)$/);
  });

  it('does not take a crash for a quick run', () => {
    expect(() => runNode(['-e', 'process.exit(4)'])).toThrow(/ended with 4/);
  });

  it.each([
    [0.5, 0],
    [1.5, 1],
  ])('ends with one line of JSON and the exit code of the verdict (%d)', (measured, code) => {
    const module = fileURLToPath(new URL('bench.mjs', import.meta.url));
    const script = `import(process.argv[1]).then((b) => b.conclude({ a: [1] }, b.verdict(${measured}, 1), { bench: 'x' }))`;
    const result = spawnSync(process.execPath, ['-e', script, module], { encoding: 'utf8' });
    expect(result.status).toBe(code);
    expect(JSON.parse(result.stdout.trim().split('\n').at(-1) ?? '')).toEqual({
      bench: 'x',
      ratio: measured,
      holds: code === 0,
    });
  });
});
