import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';
import { runLine, runLineJson } from '../support/inProcess.js';

const exports_ = fileURLToPath(new URL('../../samples/exports/', import.meta.url));
const power = join(exports_, 'vat-warmer-gentle-01-power.csv');
const temperature = join(exports_, 'vat-warmer-gentle-01-temperature.csv');
const line = (...more: string[]) => ['import', power, '--look', '--zone', 'Europe/Vienna', ...more];

interface Look {
  energyWh: number;
  energyStandardUncertaintyWh: number;
  phases: { name: string; fromS: number; toS: number; evidence: string }[];
  beside?: { offsetS: number; offsetUS: number; driftPpm: number | null };
}

describe('limits that a person states', () => {
  it('stand above those that the log shows', async () => {
    const found = await runLineJson<Look>(line());
    const stated = await runLineJson<Look>(line('--heating', '150s..80min'));
    const heating = stated.phases.find(({ name }) => name === 'heating');
    expect([heating?.fromS, heating?.toS]).toEqual([150, 4800]);
    expect(heating?.evidence).toMatch(/stated/);
    expect(stated.energyWh).toBeLessThan(found.energyWh);
  });
  it.each([
    ['5', /from\.\.to/],
    ['5..x', /no number/],
    ['50min..10min', /follow each other/],
    ['0s..3h', /within the log/],
  ])('%s is refused', async (text, message) => {
    const { code, stderr } = await runLine(line('--heating', text));
    expect(code).toBe(1);
    expect(stderr).toMatch(message);
  });
});

describe('another export beside', () => {
  it('says how the two clocks stand, with its doubt', async () => {
    const same = await runLineJson<Look>(line('--beside', power));
    expect(Math.abs(same.beside!.offsetS)).toBeLessThan(1e-6);
    // One reading a second on either side: a switching lies anywhere within two seconds of offset.
    expect(same.beside!.offsetUS).toBeGreaterThan(0.1);
    expect(same.beside!.offsetUS).toBeLessThan(1);
    const { stdout } = await runLine(line('--beside', temperature));
    expect(stdout).toMatch(/plus .* ± .* s is time here/);
    expect(stdout).toMatch(/drift between the two clocks .* s an hour/);
  });
  it('says what the log alone leaves open', async () => {
    const { energyStandardUncertaintyWh: u } = await runLineJson<Look>(line());
    expect(u).toBeGreaterThan(0);
    expect((await runLine(line())).stdout).toMatch(
      /the log alone leaves ± 0\.\d+ Wh open; the meter's own limits come on top/,
    );
  });
});
