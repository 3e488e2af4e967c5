import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { exportReader } from '../../src/cli/testing/exportReader.js';
import { type Bench, parseProtocol } from '../../src/protocols/index.js';
import { openWorkbook, readRun, readRunProtocol } from '../../src/workbook/index.js';
import { copyOf, emptyFolder } from '../support/folders.js';
import { runLine } from '../support/inProcess.js';

const workbookDir = copyOf('samples/dairy');
const plainDir = copyOf('samples/dairy');
const id = 'vat-warmer-full-01';
const { run } = readRun(workbookDir, id);
const protocol = parseProtocol(readRunProtocol(workbookDir, id), 'protocol');

/** Half an hour of a heater, with the power in a column that nothing names. */
function meterExport(text: (row: number) => string, header: string): string {
  const path = join(emptyFolder(), 'meter.csv');
  writeFileSync(path, `${header}\n${Array.from({ length: 190 }, (_, row) => text(row)).join('\n')}\n`);
  return path;
}
const isOn = (row: number) => row > 4 && row < 180;

/** A person who types these answers. */
function person(...answers: string[]): Bench & { said: string[] } {
  const said: string[] = [];
  return {
    said,
    say: (text) => said.push(text),
    ask: async ({ text }) => {
      said.push(text);
      return answers.shift() ?? 'pause';
    },
    refuse: (_question, _typed, reason) => said.push(reason),
    kept: () => {},
    now: () => new Date(),
  };
}

const reader = (bench: Bench | null, dir = workbookDir) =>
  exportReader({} as never, openWorkbook(dir), protocol, { base: '/', bench });

describe('the export step of a test', () => {
  it('reads an export with the mapping saved for the meter of the run', async () => {
    const path = meterExport((row) => `${row * 10};${isOn(row) ? '0,9' : '0,001'};7`, 't;P out;P in');
    await expect(reader(null)(path, 'powerLog', run)).rejects.toThrow(/can be read in two ways|no unit|unit/);
    const how = ['--column', 'power=P out', '--unit', 'power=kW', '--time-form', 'elapsed-s'];
    const saved = await runLine([
      'import',
      path,
      '--look',
      ...how,
      '--remember',
      run.instruments.wattmeter as string,
      '--workbook',
      workbookDir,
    ]);
    expect(saved.code, saved.stderr).toBe(0);
    const { ready, words } = await reader(null)(path, 'powerLog', run);
    expect(words).toEqual([expect.stringMatching(/^Read as saved for .*\(mappings\/.*\.yaml\)\.$/)]);
    expect(ready.log.powerW![100]).toBe(900);
    // What read it is kept with the run, so that the mapping may change later.
    expect(ready.options).toMatchObject({ columns: { power: 'P out' }, units: { power: 'kW' } });
  });
  it('asks the person at the bench which of two readings is right', async () => {
    const path = meterExport((row) => `${row * 10};${isOn(row) ? '0,900' : '0,001'}`, 't [s];P [kW]');
    const ambiguous = meterExport((row) => `${row * 10};${isOn(row) ? '1,900' : '0'}`, 't [s];P [W]');
    expect((await reader(person(), plainDir)(path, 'powerLog', run)).words).toEqual([]);
    const bench = person('3', '1');
    const { ready, words } = await reader(bench, plainDir)(ambiguous, 'powerLog', run).catch(
      (error: Error) => {
        throw new Error(`${error.message}\n${bench.said.join('\n')}`);
      },
    );
    expect(bench.said.join('\n')).toMatch(
      /can be read in two ways[\s\S]*1\) [\s\S]*2\) [\s\S]*Type one of: 1, 2\./,
    );
    expect(words.at(-1)).toMatch(/^Read as chosen; in a script: --decimal /);
    expect(ready.log.powerW![100]).toBe(1900);
  });
  it('reads it as it stands where the saved mapping does not fit, and says so', async () => {
    const path = meterExport((row) => `${row * 10};${isOn(row) ? '0,900' : '0,001'}`, 't [s];P [kW]');
    const { ready, words } = await reader(null)(path, 'powerLog', run);
    expect(words.join(' ')).toMatch(/doesn't fit the mapping saved as .* It was read without that mapping\./);
    expect(ready.log.powerW![100]).toBe(900);
  });
});
