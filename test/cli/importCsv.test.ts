import { existsSync, linkSync, readFileSync, readdirSync, symlinkSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { copyOf, emptyFolder, top, treeOf } from '../support/folders.js';
import { runLine, runLineJson } from '../support/inProcess.js';

const sample = join(top, 'samples/exports/vat-warmer-full-01-power.csv');
const text = 't [s];P [kW]\n0;0,9\n10;0,9\n';

/** A folder with a small export. */
function folderWith(): { folder: string; file: string; out: string } {
  const folder = emptyFolder();
  const file = join(folder, 'meter.csv');
  writeFileSync(file, text);
  return { folder, file, out: join(folder, 'out.csv') };
}

describe('import FILE --csv OUT', () => {
  it('writes the readings, keeps nothing else, and says what', async () => {
    const { folder, file, out } = folderWith();
    const { code, stdout } = await runLine(['import', file, '--csv', out]);
    expect(code).toBe(0);
    expect(stdout).toContain(`wrote 2 rows to ${out}: time_s, power_W\nThe export itself was not kept.\n`);
    expect(readFileSync(out, 'utf8')).toBe('time_s,power_W\n0,900\n10,900\n');
    expect(readdirSync(folder).sort()).toEqual(['meter.csv', 'out.csv']);
  });

  it('reads back to the same energy', async () => {
    const { out } = folderWith();
    type Look = { energyWh: number; rows: number };
    const before = await runLineJson<Look>(['import', sample, '--look', '--csv', out]);
    const after = await runLineJson<Look>(['import', out, '--look']);
    expect([after.rows, after.energyWh]).toEqual([before.rows, before.energyWh]);
  });

  it('writes over a file of its own, and over no other', async () => {
    const { file, out } = folderWith();
    await runLine(['import', sample, '--csv', out]);
    expect((await runLine(['import', file, '--csv', out])).code).toBe(0);
    expect(readFileSync(out, 'utf8')).toBe('time_s,power_W\n0,900\n10,900\n');
    // An export of somebody else's meter looks alike, but for the names of its columns.
    for (const other of ['time_s,power_kW\n0,1\n1,1\n', 'time_s;power_W\n0;1\n', 'notes\n']) {
      writeFileSync(out, other);
      const { code, stderr } = await runLine(['import', file, '--csv', out]);
      expect(code).toBe(1);
      expect(stderr).toMatch(/--csv: There is a file .*out\.csv that heatledger did not write/);
      expect(readFileSync(out, 'utf8')).toBe(other);
    }
  });

  it('is never written over the export itself, by whatever name', async () => {
    const { folder, out } = folderWith();
    const own = join(folder, 'own.csv');
    // An export that looks as ours do, so that only what it is keeps it.
    writeFileSync(own, 'time_s,power_W\n0,900\n10,900\n');
    linkSync(own, join(folder, 'hard.csv'));
    symlinkSync(own, join(folder, 'soft.csv'));
    const before = treeOf(folder);
    for (const name of ['own.csv', 'hard.csv', 'soft.csv', `../${folder.split('/').pop()}/own.csv`]) {
      const { code, stderr } = await runLine(['import', own, '--csv', join(folder, name)]);
      expect([code, stderr]).toEqual([
        1,
        expect.stringMatching(/is the export itself; an output is never written over it/),
      ]);
    }
    expect(treeOf(folder)).toEqual(before);
    expect(existsSync(out)).toBe(false);
  });

  it.each(['workbook.yaml', 'mappings/m.yaml', 'mappings/new.csv', 'runs/x/exports/a.csv', 'schemas/a.csv'])(
    'is never written to %s of a workbook',
    async (name) => {
      const workbook = copyOf('samples/dairy');
      const before = treeOf(workbook);
      const { code, stderr } = await runLine(['import', sample, '--csv', join(workbook, name)]);
      expect([code, stderr]).toEqual([
        1,
        expect.stringMatching(/is a record of the workbook; an output is never written there/),
      ]);
      expect(treeOf(workbook)).toEqual(before);
    },
  );

  it('leaves nothing where the export can not be read', async () => {
    const { folder, out } = folderWith();
    const bad = join(folder, 'bad.csv');
    writeFileSync(bad, 't [s],P [W]\n0,900\n10,x\n20,900\n');
    expect((await runLine(['import', bad, '--csv', out])).code).toBe(1);
    expect(readdirSync(folder).sort()).toEqual(['bad.csv', 'meter.csv']);
  });

  it('goes with a run too, and a refused output keeps the export out of the run', async () => {
    const workbook = copyOf('samples/dairy');
    const { out } = folderWith();
    const line = ['import', sample, '--run', 'vat-warmer-full-01', '--workbook', workbook];
    const before = treeOf(workbook);
    const refused = await runLine([...line, '--csv', join(workbook, 'runs/out.csv')]);
    expect(refused.code).toBe(1);
    expect(treeOf(workbook)).toEqual(before);
    const { code, stdout } = await runLine([...line, '--csv', out]);
    expect(code).toBe(0);
    expect(stdout).toMatch(/kept exports\/.*\nwrote \d+ rows to .*out\.csv: time_s, power_W, voltage_V/);
    expect(readFileSync(out, 'utf8').split('\n')[0]).toMatch(/^time_s,power_W,voltage_V/);
  });

  it('takes ~ for the home folder', async () => {
    const { file } = folderWith();
    const home = emptyFolder();
    const before = process.env.HOME;
    // runLine sets a home of its own.
    const { code, stdout } = await runLine(['import', file, '--csv', '~/a b/ö.csv']);
    expect([code, stdout]).toEqual([0, expect.stringContaining('wrote 2 rows to ~/a b/ö.csv')]);
    expect(process.env.HOME).toBe(before);
    expect(existsSync(join(home, 'a b'))).toBe(false);
    expect(existsSync('~')).toBe(false);
  });
});
