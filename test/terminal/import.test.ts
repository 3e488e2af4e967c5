import { copyFileSync, mkdirSync, readdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';
import { copyOf, emptyFolder, top, treeOf } from '../support/folders.js';
import { environment, program } from '../support/program.js';
import { openTerminal } from './terminal.js';

const quickClock = fileURLToPath(new URL('quickClock.mjs', import.meta.url));

/** Starts `heatledger import` at a terminal, in a folder of its own. */
function importAt(
  args: readonly string[],
  where: { readonly cwd?: string; readonly columns?: number; readonly node?: readonly string[] } = {},
) {
  const cwd = where.cwd ?? emptyFolder();
  return openTerminal([process.execPath, ...(where.node ?? []), program, 'import', ...args], {
    cwd,
    env: environment(cwd),
    columns: where.columns ?? 100,
  });
}

describe('import without arguments', () => {
  it('asks for the file until there is one, then for the run', async () => {
    const workbook = copyOf('samples/dairy');
    const cwd = emptyFolder();
    mkdirSync(join(cwd, 'meter logs'));
    copyFileSync(
      join(top, 'samples/exports/vat-warmer-full-01-power.csv'),
      join(cwd, 'meter logs/März 1.csv'),
    );
    const terminal = importAt(['--workbook', workbook], { cwd });
    await terminal.waitFor('Which CSV export:');
    terminal.type('');
    await terminal.waitFor(/An answer is needed here\.[\s\S]*Which CSV export:/);
    terminal.type('none.csv');
    await terminal.waitFor(/There is no file none\.csv\.[\s\S]*Which CSV export:/);
    terminal.type('meter logs');
    await terminal.waitFor(/it is a folder\.[\s\S]*Which CSV export:/);
    // As a window writes it where a file is dragged into it.
    terminal.type("'meter logs/März 1.csv'");
    await terminal.waitFor(/To which run does it belong .*\[vat-warmer-\w+-\d+\]:/);
    terminal.type('vat-warmer-ful-01');
    await terminal.waitFor(/There is no run "vat-warmer-ful-01"\. Choose one of: [\s\S]*To which run/);
    terminal.type('vat-warmer-full-01');
    await terminal.waitFor('Next: heatledger result');
    expect(await terminal.exit).toBe(0);
    expect(terminal.screen()).toMatch(
      /they agree[\s\S]*kept exports\/\w+-M-rz-1\.csv with run vat-warmer-full-01/,
    );
  });

  it.each([
    ['Ctrl-C', '\x03'],
    ['the end of input', '\x04'],
    ['the word pause', 'pause\r'],
  ])('ends by %s, and nothing is kept', async (_what, keys) => {
    const workbook = copyOf('samples/dairy');
    const before = treeOf(workbook);
    const terminal = importAt(['--workbook', workbook]);
    await terminal.waitFor('Which CSV export:');
    terminal.send(keys);
    await terminal.waitFor('Stopped; nothing was kept.');
    expect(await terminal.exit).toBe(1);
    expect(treeOf(workbook)).toEqual(before);
  });

  it('with no run to take it in says how to begin one', async () => {
    const cwd = emptyFolder();
    writeFileSync(join(cwd, 'a.csv'), 't [s],P [W]\n0,900\n10,900\n');
    const terminal = importAt(['a.csv', '--workbook', copyOf('samples/records')], { cwd });
    await terminal.waitFor(/Begin one with: heatledger test/);
    expect(await terminal.exit).toBe(1);
  });
});

/** An export above the 8 MB that are read into memory. */
function largeExport(): string {
  const rows = Array.from(
    { length: 400_000 },
    (_, i) => `${i},${(900 + (i % 9) / 10).toFixed(1)},${230 + (i % 7)}.0`,
  );
  const file = join(emptyFolder(), 'large.csv');
  writeFileSync(file, `t [s],P [W],U [V],\n${rows.map((row) => `${row},ok to read`).join('\n')}\n`);
  return file;
}

describe('progress', () => {
  const node = ['--import', quickClock];
  const drawn = /\r[:.]+ {2}(\d+ thousand) rows, \d+ s left/g;

  it.each([100, 40])(
    'is one line redrawn in place on a terminal of %i columns, and gone at the end',
    async (columns) => {
      const file = largeExport();
      const terminal = importAt([file, '--look'], { node, columns });
      await terminal.waitFor('Nothing was kept (--look).');
      expect(await terminal.exit).toBe(0);
      const lines = [...terminal.written().matchAll(drawn)];
      expect(lines.length).toBeGreaterThan(2);
      for (const [line] of lines) expect(line.length).toBeLessThanOrEqual(columns);
      expect(terminal.screen()).not.toMatch(/thousand rows|left/);
      expect(terminal.screen()).toMatch(/^UTF-8 text/);
    },
  );

  it('is there for writing too', async () => {
    const file = largeExport();
    const out = join(file, '..', 'out.csv');
    const terminal = importAt([file, '--csv', out], { node });
    await terminal.waitFor('The export itself was not kept.');
    expect(await terminal.exit).toBe(0);
    expect([...terminal.written().matchAll(drawn)].at(-1)?.[1]).toMatch(/^(39\d|400) thousand/);
    expect(readdirSync(join(file, '..')).sort()).toEqual(['large.csv', 'out.csv']);
  });

  it('is no part of what goes to a program', async () => {
    const file = largeExport();
    const line = `"$0" --import "$1" "$2" import "$3" --look --json | tail -c 3`;
    const terminal = openTerminal(['/bin/sh', '-c', line, process.execPath, quickClock, program, file]);
    await terminal.waitFor('}');
    expect(await terminal.exit).toBe(0);
    expect(terminal.written()).not.toContain('rows');
  });

  it('is nothing for a short work', async () => {
    const file = join(emptyFolder(), 'a.csv');
    writeFileSync(file, 't [s],P [W]\n0,900\n10,900\n');
    const terminal = importAt([file, '--look'], { node });
    await terminal.waitFor('Nothing was kept (--look).');
    expect(terminal.written()).not.toContain('\x1b[K');
  });
});
