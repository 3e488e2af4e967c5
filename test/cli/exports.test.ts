import { readFileSync, readdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { copyOf, emptyFolder, top, treeOf } from '../support/folders.js';
import { runLine, runLineJson } from '../support/inProcess.js';
import { heatledger } from '../support/program.js';

interface Look {
  readonly rows: number;
  readonly durationS: number;
  readonly energyWh: number | null;
  readonly meanPowerW: number | null;
  readonly columns: Readonly<Record<string, { readonly header: string; readonly unit: string }>>;
  readonly warnings: readonly string[];
}

const folder = join(top, 'samples/exports');
const names = readdirSync(folder).sort();
const textOf = (name: string) => readFileSync(join(folder, name), 'utf8');
const look = (file: string) => runLineJson<Look>(['import', file, '--look', '--zone', 'Europe/Vienna']);

describe('import --look', () => {
  it('is tried on every export of the samples', () => expect(names).toHaveLength(18));

  it.each(names)('%s: rows, duration, energy, mean power, columns, warnings', async (name) => {
    const seen = await look(join(folder, name));
    const keys = ['rows', 'durationS', 'energyWh', 'meanPowerW', 'counterEnergyWh', 'columns', 'warnings'];
    expect(Object.keys(seen)).toEqual(expect.arrayContaining(keys));
    // Counted here by itself: lines that begin with a digit are data.
    expect(seen.rows).toBe(
      textOf(name)
        .split(/\r?\n/)
        .filter((line) => /^\d/.test(line)).length,
    );
    expect(seen.columns.time).toBeDefined();
    if (name.endsWith('-power.csv')) {
      expect(seen.columns).toMatchObject({ power: { unit: expect.stringMatching(/^k?W$/) } });
      expect(seen.energyWh).toBeGreaterThan(300);
      expect(seen.meanPowerW).toBeGreaterThan(200);
    } else {
      expect(seen.columns).toMatchObject({ temperature: { unit: '°C' } });
      expect([seen.energyWh, seen.meanPowerW]).toEqual([null, null]);
    }
  });

  it('says to a person what was recognised, and that nothing was kept', async () => {
    const home = emptyFolder();
    const file = join(folder, 'vat-warmer-gentle-01-power.csv');
    const { code, stdout } = await heatledger(['import', file, '--look', '--zone', 'Europe/Vienna'], {
      home,
    });
    expect(code).toBe(0);
    expect(stdout).toMatch(/columns parted by semicolons, decimal comma/);
    expect(stdout).toMatch(/dates with the day first/);
    expect(stdout).toMatch(/Power in W: .*Leistung/);
    expect(stdout).toMatch(/energy from switch-on to switch-off 0\.\d{4} kWh, mean power/);
    expect(stdout).toMatch(/Nothing was kept \(--look\)\./);
    expect(treeOf(home)).toEqual({});
  });

  it('asks for the zone of a clock that has none', async () => {
    const { code, stderr } = await runLine([
      'import',
      join(folder, 'vat-warmer-gentle-01-power.csv'),
      '--look',
    ]);
    expect(code).toBe(1);
    expect(stderr).toMatch(/without a time zone[\s\S]*--zone/);
  });
});

/** Where the power stands in the three dialects of the samples, and how its numbers are written. */
const dialects = [
  { name: 'vat-warmer-full-01', parted: '\t', column: 1, comma: false },
  { name: 'vat-warmer-medium-01', parted: ',', column: 1, comma: false },
  { name: 'vat-warmer-gentle-01', parted: ';', column: 1, comma: true },
];

/** The export with every power ten per cent higher, and nothing else touched. */
function scaled({ name, parted, column, comma }: (typeof dialects)[number]): string {
  const lines = textOf(`${name}-power.csv`).split('\n');
  const changed = lines.map((line) => {
    if (!/^\d/.test(line)) return line;
    const cells = line.split(parted);
    const power = Number((cells[column] as string).replace(',', '.')) * 1.1;
    cells[column] = power.toFixed(7).replace('.', comma ? ',' : '.');
    return cells.join(parted);
  });
  const file = join(emptyFolder(), `${name}-power.csv`);
  writeFileSync(file, changed.join('\n'));
  return file;
}

describe('an export with its power ten per cent higher', () => {
  it.each(dialects)('$name has ten per cent more energy', async (dialect) => {
    const [before, after] = [
      await look(join(folder, `${dialect.name}-power.csv`)),
      await look(scaled(dialect)),
    ];
    // Seven decimals of a power of hundreds of watts, or of tenths of a kilowatt, leave less than 1e-6 of it.
    expect((after.energyWh as number) / (before.energyWh as number)).toBeCloseTo(1.1, 6);
    expect(after.rows).toBe(before.rows);
  });

  it('is refused against the bench, and takes its run out where it is kept all the same', async () => {
    const workbook = copyOf('samples/dairy');
    const line = ['import', scaled(dialects[0] as (typeof dialects)[number]), '--run', 'vat-warmer-full-01'];
    const before = treeOf(workbook);
    const refused = await runLine([...line, '--workbook', workbook]);
    expect(refused.code).toBe(1);
    // 0.3586 kWh by the log of the sample, 6.224 - 5.866 = 0.358 kWh by its counter.
    expect(refused.stderr).toMatch(
      /the log gives 0\.394\d kWh, the counter as typed at the bench 0\.3580 kWh/,
    );
    expect(treeOf(workbook)).toEqual(before);

    const kept = await runLine([...line, '--disagreeing', '--workbook', workbook]);
    expect(kept.code).toBe(0);
    expect(kept.stderr).toMatch(/0\.394\d kWh.*0\.3580 kWh/);
    const result = await heatledger(['result', '--setting', 'full', '--workbook', workbook]);
    expect(result.code).toBe(1);
    expect(result.stderr).toMatch(/Run vat-warmer-full-01 is refused: .* 0\.394\d kWh.* 0\.3580 kWh/);
    expect(result.stdout).toMatch(/two runs/);
    type Result = {
      figures: { runs: { run: string }[] }[];
      refused: { run: string; error: { code: string } }[];
    };
    const json = await runLine(['result', '--setting', 'full', '--json', '--workbook', workbook]);
    expect(json.code).toBe(1);
    const { figures, refused: out } = JSON.parse(json.stdout) as Result;
    expect(figures[0]?.runs.map((each) => each.run)).toEqual(['vat-warmer-full-02', 'vat-warmer-full-03']);
    expect(out).toMatchObject([{ run: 'vat-warmer-full-01', error: { code: 'energy-disagrees' } }]);

    // The right export in its place lets the run count again.
    const right = ['import', join(folder, 'vat-warmer-full-01-power.csv'), '--run', 'vat-warmer-full-01'];
    expect((await runLine([...right, '--workbook', workbook])).stdout).toMatch(
      /It stands in for vat-warmer-full-01/,
    );
    expect((await runLine(['result', '--setting', 'full', '--workbook', workbook])).code).toBe(0);
  });
});

describe('import into a run', () => {
  it('keeps the file byte for byte and compares its energies', async () => {
    const workbook = copyOf('samples/dairy');
    const name = 'vat-warmer-medium-01-power.csv';
    type Kept = Look & {
      run: string;
      role: string;
      file: string;
      sha256: string;
      energy: Record<string, number>;
    };
    const kept = await runLineJson<Kept>([
      ...['import', join(folder, name), '--run', 'vat-warmer-medium-01', '--workbook', workbook],
    ]);
    expect(kept).toMatchObject({ run: 'vat-warmer-medium-01', role: 'powerLog' });
    expect(readFileSync(join(workbook, 'runs/vat-warmer-medium-01', kept.file))).toEqual(
      readFileSync(join(folder, name)),
    );
    const { loggedJ, typedJ, counterJ } = kept.energy as {
      loggedJ: number;
      typedJ: number;
      counterJ: number;
    };
    expect(loggedJ / 3600).toBeCloseTo(kept.energyWh as number, 6);
    // The meter shows its counter in steps of 0.001 kWh at the bench and of 0.00001 kWh in the export.
    expect(Math.abs(typedJ - loggedJ)).toBeLessThan(2 * 3600);
    expect(Math.abs(counterJ - loggedJ)).toBeLessThan(0.01 * loggedJ);
  });
});
