/** Files and options that would destroy records or make a wrong figure look sound. */
import { appendFileSync, cpSync, existsSync, readFileSync, writeFileSync } from 'node:fs';
import { createHash } from 'node:crypto';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { printable } from '../../src/cli/printable.js';
import { copyOf, emptyFolder, top, treeOf } from '../support/folders.js';
import { heatledger } from '../support/program.js';

const dairy = () => copyOf('samples/dairy');
const journalOf = (dir: string, run: string) => join(dir, 'runs', run, 'journal.jsonl');

/** Writes a journal anew with a sound chain, as somebody with a text editor and SHA-256 could. */
function rechain(
  file: string,
  change: (entry: Record<string, unknown>) => Record<string, unknown>,
  more: object[] = [],
): void {
  const entries = readFileSync(file, 'utf8')
    .trimEnd()
    .split('\n')
    .map((line) => JSON.parse(line) as Record<string, unknown>);
  let prev = '0'.repeat(64);
  const lines = [...entries.map(change), ...more].map((entry, i) => {
    const line = JSON.stringify({ ...entry, seq: i + 1, prev });
    prev = createHash('sha256').update(line).digest('hex');
    return line;
  });
  writeFileSync(file, `${lines.join('\n')}\n`);
}

describe('an output', () => {
  it.each([
    ['result', '--csv', ['runs', 'vat-warmer-full-01', 'journal.jsonl']],
    ['report', '--out', ['workbook.yaml']],
    ['report', '--out', ['heaters', 'new.yaml']],
  ])('%s %s never lands on a record', async (command, option, path) => {
    const dir = dairy();
    const before = treeOf(dir);
    const ended = await heatledger([
      command,
      option,
      join(dir, ...path),
      '--workbook',
      dir,
      '--heater',
      'vat-warmer',
    ]);
    expect(ended.code).toBe(1);
    expect(ended.stderr).toMatch(/record of the workbook/);
    expect(treeOf(dir)).toEqual(before);
  });

  it('never takes the place of a file that is not ours, and does of one that is', async () => {
    const dir = dairy();
    const out = join(emptyFolder(), 'figures.csv');
    writeFileSync(out, 'my own numbers\n');
    const args = ['result', '--csv', out, '--workbook', dir, '--setting', 'full', '--heater', 'vat-warmer'];
    expect((await heatledger(args)).stderr).toMatch(/did not write/);
    expect(readFileSync(out, 'utf8')).toBe('my own numbers\n');
    writeFileSync(out, '');
    expect((await heatledger(args)).code).toBe(0);
    expect((await heatledger(args)).code).toBe(0);
    expect(readFileSync(out, 'utf8')).toMatch(/^heater,setting,protocol,definition/);
  });

  it('never takes the place of what is no file', async () => {
    if (!existsSync('/dev/null')) return;
    const ended = await heatledger(['result', '--csv', '/dev/null', '--workbook', dairy()]);
    expect(ended.stderr).toMatch(/no plain file/);
  });
});

describe('a run does not count', () => {
  const refusal = async (dir: string) => {
    const ended = await heatledger([
      'result',
      '--workbook',
      dir,
      '--setting',
      'full',
      '--heater',
      'vat-warmer',
      '--json',
    ]);
    expect(ended.code).toBe(1);
    const { refused } = JSON.parse(ended.stdout) as {
      refused: { run: string; reason: string; error: { code: string } }[];
    };
    return refused.map((each) => [each.run, each.error.code]);
  };

  it('that is a copy of another under a new name', async () => {
    const dir = dairy();
    cpSync(join(dir, 'runs', 'vat-warmer-full-01'), join(dir, 'runs', 'vat-warmer-full-04'), {
      recursive: true,
    });
    expect(await refusal(dir)).toEqual([['vat-warmer-full-04', 'run-misnamed']]);
  });

  it('that holds the export of another', async () => {
    const dir = dairy();
    const to = join(dir, 'runs', 'vat-warmer-full-04');
    cpSync(join(dir, 'runs', 'vat-warmer-full-01'), to, { recursive: true });
    rechain(join(to, 'journal.jsonl'), (entry) =>
      entry.event === 'begin' ? { ...entry, run: 'vat-warmer-full-04' } : entry,
    );
    expect(await refusal(dir)).toEqual([['vat-warmer-full-04', 'export-reused']]);
  });

  it.each<[string, (entry: Record<string, unknown>) => Record<string, unknown>]>([
    [
      'whose record says another number than was typed',
      (entry) => (entry.step === 'fullWeight' ? { ...entry, value: 9.852, si: 9.852 } : entry),
    ],
    [
      'whose scale was a wattmeter',
      (entry) => (entry.step === 'finalWeight' ? { ...entry, instrument: 'meter-1' } : entry),
    ],
  ])('%s', async (_what, change) => {
    const dir = dairy();
    rechain(journalOf(dir, 'vat-warmer-full-02'), change);
    expect(await refusal(dir)).toEqual([['vat-warmer-full-02', 'run-contradicts']]);
  });

  it('that was switched off before it was switched on', async () => {
    const dir = dairy();
    rechain(journalOf(dir, 'vat-warmer-full-02'), (entry) =>
      entry.step === 'switchOff' ? { ...entry, at: '2026-10-01T00:00:00.000Z' } : entry,
    );
    expect(await refusal(dir)).toEqual([['vat-warmer-full-02', 'times-backward']]);
  });

  it('with a reading after its end', async () => {
    const dir = dairy();
    const file = journalOf(dir, 'vat-warmer-full-02');
    const again = readFileSync(file, 'utf8')
      .split('\n')
      .map((line) => (line === '' ? {} : JSON.parse(line)))
      .find((entry) => entry.step === 'finalWeight');
    rechain(file, (entry) => entry, [again]);
    expect(await refusal(dir)).toEqual([['vat-warmer-full-02', 'run-contradicts']]);
  });
});

describe('a file of answers', () => {
  it('is refused for an answer that no question takes, and nothing is written', async () => {
    const dir = copyOf('samples/records');
    const text = readFileSync(join(top, 'samples', 'answers', 'vat-warmer-full-01.yaml'), 'utf8')
      .split('\n')
      .filter((line) => !/(meter|temperature)Log, value/.test(line))
      .join('\n');
    const answers = join(emptyFolder(), 'answers.yaml');
    writeFileSync(answers, text);
    appendFileSync(answers, '  - { step: fullWeight, value: "9999 g" }\n');
    const before = treeOf(dir);
    const ended = await heatledger(['test', '--answers', answers, '--workbook', dir]);
    expect(ended.code).toBe(1);
    expect(ended.stderr).toMatch(/answers\.yaml, line \d+.*fullWeight.*not used/s);
    expect(treeOf(dir)).toEqual(before);
  });
});

describe('what is printed', () => {
  it('has no control characters and no marks that turn the writing', () =>
    expect(printable('a\u001b]2;x\u0007b\r\u202ec\u009b\td\n')).toBe(
      'a\u25a1]2;x\u25a1b\u25a1\u25a1c\u25a1\td\n',
    ));
});
