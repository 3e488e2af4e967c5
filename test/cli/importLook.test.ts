import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { corpusFiles, lineOf } from '../support/corpusReadings.js';
import { emptyFolder } from '../support/folders.js';
import { runLine, runLineJson } from '../support/inProcess.js';

describe('import --look', () => {
  it.each(corpusFiles)('$name: says how it was read, and why', async ({ path, options }) => {
    const { code, stdout } = await runLine(['import', path, '--look', ...lineOf(options)]);
    expect(code).toBe(0);
    const lines = stdout.trimEnd().split('\n');
    expect(lines[0]).toMatch(/ text, (columns parted by|one column).*, decimal (point|comma) \(.+\)\.$/);
    expect(lines[1]).toMatch(/^(Header on line|No header line).*: \d+ rows? over .* s/);
    expect(lines[2]).toMatch(/^Time: .*(read as|counted).*\(.+\)\.$/);
    // At least one quantity with its evidence.
    expect(stdout).toMatch(
      /^(Power|Energy counter|Voltage|Current|Temperature|Power factor)( in .+)?: (header says|column \d|stated by)/m,
    );
    expect(stdout).toMatch(/^\d+ rows? over \d+:\d\d(:\d\d)?$/m);
    expect(stdout).not.toMatch(/undefined|NaN|null|\[object/);
    expect(lines.at(-1)).toBe('Nothing was kept (--look).');
  });

  const withOptions = corpusFiles.filter(({ options }) => Object.keys(options).length > 0);
  it('has files that need an option', () => expect(withOptions.length).toBeGreaterThan(5));

  it.each(withOptions)('$name: without what settles it ends with 1 and says what would', async (file) => {
    const { code, stdout, stderr } = await runLine(['import', file.path, '--look']);
    expect([code, stdout]).toEqual([1, '']);
    expect(stderr).toContain(file.name);
    // One of the options that the file needs is named.
    const needed = lineOf(file.options).filter((each) => each.startsWith('--'));
    expect(
      needed.some((option) => stderr.includes(option)),
      stderr,
    ).toBe(true);
  });
});

describe('import --look of a file that is not read into memory', () => {
  // 8 MB is the limit; 250,000 rows of 40 bytes are above it.
  const rows = 250_000;
  function large(): string {
    const lines = Array.from({ length: rows }, (_, i) => {
      const at = new Date(Date.UTC(2026, 2, 1) + i * 1000).toISOString();
      const on = i >= 1000 && i < 201_000;
      // 900 W from the 1000th second to the 201,000th; the counter in steps of 0.01 Wh.
      const countedWh = 0.25 * Math.min(Math.max(0, i - 1000), 200_000);
      return `${at},${on ? '900.0' : '0.4'},${countedWh.toFixed(2)}`;
    });
    const file = join(emptyFolder(), 'large.csv');
    writeFileSync(file, `Time,P [W],E [Wh]\n${lines.join('\n')}\n`);
    return file;
  }

  it('says the same as of a small one, and nothing of its progress where there is no terminal', async () => {
    const file = large();
    const { code, stdout, stderr } = await runLine(['import', file, '--look']);
    expect(code, stderr).toBe(0);
    expect(stdout).toMatch(/data from line 2: 250000 rows over 249999 s, from 2026-03-01T00:00:00\.000Z/);
    // 900 W over 200,000 s are 50 kWh.
    expect(stdout).toMatch(/energy from switch-on to switch-off 50\.0000 kWh, mean power 900\.0 W/);
    expect(stdout).toMatch(/by the counter of the meter 50\.0000 kWh/);
    expect(stdout).toMatch(/standby 0\.4 W\nphases: fore-period 0:00 to 16:40, heating 16:40 to 55:50:00, /);
    expect(stdout).toMatch(/\nno gap between the readings\n/);
    expect([stderr.includes('\r'), stderr.includes('\x1b')]).toEqual([false, false]);
  });

  it('is the same as data, and as CSV', async () => {
    const file = large();
    const out = join(emptyFolder(), 'out.csv');
    type Look = { rows: number; durationS: number; energyWh: number; counterEnergyWh: number; start: string };
    const seen = await runLineJson<Look>(['import', file, '--look', '--csv', out]);
    expect(seen).toMatchObject({ rows, durationS: rows - 1, start: '2026-03-01T00:00:00.000Z' });
    expect(seen.energyWh).toBeCloseTo(50_000, 6);
    expect(seen.counterEnergyWh).toBeCloseTo(50_000, 6);
    const back = await runLineJson<Look>(['import', out, '--look']);
    expect(back).toMatchObject({ rows, durationS: rows - 1, start: seen.start, energyWh: seen.energyWh });
  });
});
