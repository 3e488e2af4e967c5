import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { copyOf, emptyFolder, treeOf } from '../support/folders.js';
import { environment, program } from '../support/program.js';
import { openTerminal } from './terminal.js';

describe('an export that can be read in two ways, at a terminal', () => {
  it('is shown with its readings, and goes on with the ones that are chosen', async () => {
    const cwd = emptyFolder();
    const workbook = copyOf('samples/records');
    writeFileSync(join(cwd, 'm.csv'), 't;P1 [W];P2 [W]\n0;1,500;3\n10;1,500;3\n');
    const args = ['import', 'm.csv', '--look', '--remember', 'mains', '--workbook', workbook];
    const terminal = openTerminal([process.execPath, program, ...args], { cwd, env: environment(cwd) });
    await terminal.waitFor(
      /The number "1,500" can be read in two ways: 1500 \(decimal point\), or 1\.5 \(decimal\s+comma\)\.\s+1\) 1500 \(decimal point\)\s+2\) 1\.5 \(decimal comma\)\s+Which one \(1, 2\):/,
    );
    terminal.type('3');
    await terminal.waitFor(/Type one of: 1, 2\.[\s\S]*Which one/);
    terminal.type('1');
    await terminal.waitFor(
      /The power column can be read in two ways[\s\S]*1\) "P1 \[W\]"\s+2\) "P2 \[W\]"\s+Which one/,
    );
    terminal.type('1');
    await terminal.waitFor(/1\) seconds\s+2\) minutes\s+3\) milliseconds\s+Which one \(1, 2, 3\):/);
    terminal.type('2');
    await terminal.waitFor('The export itself was not kept.');
    expect(await terminal.exit).toBe(0);
    const screen = terminal.screen();
    expect(screen).toContain('in a script: --decimal . --column power=2 --time-form elapsed-min');
    // 1500 W over 10 minutes are 250 Wh.
    expect(screen).toMatch(/switch-off 0\.2500 kWh, mean power 1500\.0 W/);
    expect(Object.keys(treeOf(workbook))).toContain('mappings/mains.yaml');
  });

  it('is left by pause with nothing kept', async () => {
    const cwd = emptyFolder();
    writeFileSync(join(cwd, 'm.csv'), 't [s];P [W]\n0;1,500\n10;1,500\n');
    const terminal = openTerminal([process.execPath, program, 'import', 'm.csv', '--look'], {
      cwd,
      env: environment(cwd),
    });
    await terminal.waitFor('Which one (1, 2):');
    terminal.type('pause');
    await terminal.waitFor('Stopped; nothing was kept.');
    expect(await terminal.exit).toBe(1);
  });
});
