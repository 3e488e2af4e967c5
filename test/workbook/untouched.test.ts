import { appendFileSync, existsSync, readdirSync, statSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, it } from 'vitest';
import { paths } from '../../src/workbook/index.js';
import { copyOf, emptyFolder, top, treeOf } from '../support/folders.js';
import { runLine } from '../support/inProcess.js';

/** When each folder was last changed: a file that was made and removed again shows here. */
function foldersOf(dir: string): Record<string, number> {
  const folders = readdirSync(dir, { withFileTypes: true, recursive: true })
    .filter((entry) => entry.isDirectory())
    .map((entry) => join(entry.parentPath, entry.name));
  return Object.fromEntries([dir, ...folders].map((folder) => [folder, statSync(folder).mtimeMs]));
}

it('reading an old workbook changes no byte on disk, nor makes a file for a moment', async () => {
  const dir = copyOf('samples/dairy');
  // What an old workbook may hold besides: a torn line, a foreign file, a leftover of a dead process.
  appendFileSync(paths.journal(dir, 'vat-warmer-full-01'), '{"seq":99,"event":"no');
  writeFileSync(join(dir, 'runs', 'notes.txt'), 'mine');
  writeFileSync(`${paths.lock(dir, 'vat-warmer-full-02')}.left`, '{}');
  const before = [treeOf(dir), foldersOf(dir)];
  const out = join(emptyFolder(), 'elsewhere', 'report.html');
  const file = join(top, 'samples/exports/vat-warmer-full-01-power.csv');
  const lines = [
    ['result', '--json'],
    ['result', '--detail', '--csv', join(emptyFolder(), 'figures.csv')],
    ['report', '--out', out],
    ['import', file, '--look'],
    ['size', '--figure', 'vat-warmer/full', '--mass', '12 kg', '--start', '6 °C', '--end', '63 °C'],
    ['instrument', 'show', 'logger-1'],
    ['heater', 'show', 'vat-warmer'],
    ['protocol', 'show', 'warm-start'],
  ];
  const said: string[] = [];
  for (const line of lines) {
    const ended = await runLine([...line, '--workbook', dir]);
    expect(ended, line.join(' ')).toMatchObject({ code: 0 });
    said.push(ended.stderr);
  }
  expect(said.join('')).toContain('The last line of run vat-warmer-full-01 was cut off');
  expect(existsSync(out)).toBe(true);
  expect([treeOf(dir), foldersOf(dir)]).toEqual(before);
});
