import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';
import type { LogFile, openExport } from '../../src/logs/index.js';
import { randomFrom } from './generated.js';

// Threads run compiled code only, so the built package is tried here.
const dist = new URL('../../dist/logs/index.js', import.meta.url).href;
const logs = (await import(/* @vite-ignore */ dist)) as { openExport: typeof openExport };

const folder = mkdtempSync(join(tmpdir(), 'heatledger-threads-'));
afterAll(() => rmSync(folder, { recursive: true, force: true }));
const seed = 20_261_127;
const rows = 60_000;

/** Some 3 MB of a made-up export: several chunks, over midnight, with the rows given as unusual where they are due. */
function largeExport(unusual: (row: number) => string | null, newline = '\n'): Uint8Array {
  const random = randomFrom(seed);
  const lines = ['time;P [W];E [Wh];note'];
  let wattHours = 0;
  for (let row = 0; row < rows; row++) {
    const time = new Date(Date.UTC(2026, 2, 12, 20) + 1000 * row).toISOString();
    const watts = row > 5000 && row < 50_000 ? 899 + 2 * random() : 1.2;
    wattHours += watts / 3600;
    lines.push(unusual(row) ?? `${time};${watts.toFixed(2)};${wattHours.toFixed(3)};ok`);
  }
  return new TextEncoder().encode(`${lines.join(newline)}${newline}`);
}

const cases: Record<string, Uint8Array> = {
  'plain rows': largeExport(() => null),
  'CR LF': largeExport(() => null, '\r\n'),
  'an empty line and a repeated header now and then': largeExport((row) =>
    row % 7919 === 7000 ? '' : row % 11_003 === 9000 ? 'time;P [W];E [Wh];note' : null,
  ),
  'a note in quotes that runs over many lines, across the ends of chunks': largeExport((row) => {
    const quoted = row % 17_000 >= 9000 && row % 17_000 < 9300;
    if (!quoted) return null;
    const time = new Date(Date.UTC(2026, 2, 12, 20) + 1000 * row).toISOString();
    return `${time};1.2;0;"${'a long note\n'.repeat(60)}2026-03-12T00:00:00Z;1;2;3"`;
  }),
  'no line feed at the end': largeExport((row) =>
    row === rows - 1 ? '2026-03-13T12:39:59.000Z;1.2;1' : null,
  ).subarray(0, -1),
};

/** All that a reading comes to; the blocks may be cut at other rows. */
function summed(log: LogFile) {
  const sums = { trapezoidJ: 0, countedJ: 0, known: 0, changes: 0 };
  const rowsRead: number[] = [];
  for (const block of log.outline.blocks) {
    sums.trapezoidJ += block.power!.trapezoidJ;
    sums.countedJ += block.counter!.countedJ;
    sums.known += block.power!.known;
    sums.changes += block.power!.changes;
    rowsRead.push(...log.rowsOf(block).powerW!);
  }
  const { mapping, rows: count, warnings, resolution, startUtcMs, durationS } = log;
  const { energies, ...counts } = {
    energies: [sums.trapezoidJ, sums.countedJ],
    known: sums.known,
    changes: sums.changes,
  };
  return { mapping, count, warnings, resolution, startUtcMs, durationS, counts, energies, rowsRead };
}

describe('threads beside the reading one', () => {
  it.each(Object.entries(cases))(
    '%s: the same with none, one, two and three',
    async (name, bytes) => {
      const path = join(folder, 'large.csv');
      writeFileSync(path, bytes);
      const open = async (helpers: number) =>
        (await logs.openExport(path, { inMemoryBytes: 0, helpers, fileName: name })) as LogFile;
      const alone = summed(await open(0));
      expect(alone.count).toBeGreaterThan(50_000);
      for (const helpers of [1, 2, 3]) {
        const { energies, ...exact } = summed(await open(helpers));
        const { energies: wanted, ...others } = alone;
        expect(exact).toEqual(others);
        // The sums are taken in blocks of other sizes: the last of 15 digits may differ.
        for (const [i, energy] of energies.entries())
          expect(Math.abs(energy / wanted[i]! - 1)).toBeLessThan(1e-12);
      }
    },
    60_000,
  );
});
