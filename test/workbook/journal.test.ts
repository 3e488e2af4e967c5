import { appendFileSync, existsSync, readFileSync, readdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { HeatledgerError } from '../../src/errors/index.js';
import {
  RunWriter,
  listRuns,
  nextRunId,
  openWorkbook,
  paths,
  readAttachment,
  readRun,
  sha256,
} from '../../src/workbook/index.js';
import { errorOf } from '../support/errorOf.js';
import { treeOf } from '../support/folders.js';
import { beginning, entry, reading, workbookWithRun } from './benchBook.js';

const run = 'vat-warmer-full-01';
const values = [1871, 7858, 7852];

/** A run of four lines in a workbook of its own, and the way to rewrite its journal. */
function written() {
  const dir = workbookWithRun(run, values);
  const file = paths.journal(dir, run);
  const lines = readFileSync(file, 'utf8').trimEnd().split('\n');
  const rewrite = (changed: readonly string[]) => writeFileSync(file, `${changed.join('\n')}\n`);
  return { dir, file, lines, rewrite };
}

describe('a journal', () => {
  it('holds one entry a line, numbered, each with the digest of the line before', () => {
    const { lines } = written();
    expect(lines).toHaveLength(4);
    const entries = lines.map((line) => JSON.parse(line));
    expect(entries.map((each) => each.seq)).toEqual([1, 2, 3, 4]);
    expect(entries[0].prev).toBe('0'.repeat(64));
    expect(entries.slice(1).map((each) => each.prev)).toEqual(lines.slice(0, -1).map((line) => sha256(line)));
  });

  it('gives back what was kept', () => {
    const { dir } = written();
    const { run: read, warnings } = readRun(dir, run);
    expect(read.readings.map((each) => each.value)).toEqual(values);
    expect(read).toMatchObject({
      id: run,
      heater: 'vat-warmer',
      setting: 'full',
      ended: false,
      paused: false,
    });
    expect(warnings).toEqual([]);
    expect(listRuns(dir)).toEqual([run]);
    expect(nextRunId(dir, 'vat-warmer', 'full')).toBe('vat-warmer-full-02');
  });

  // Line 2 of 4 is touched; the damage shows there or where the next line should follow from it.
  it.each<[string, (lines: string[]) => string[], number, RegExp]>([
    ['a digit changed', (l) => l.map((x, i) => (i === 1 ? x.replace('1871', '1872') : x)), 3, /not follow/],
    ['a line removed', (l) => l.filter((_, i) => i !== 1), 2, /number 3/],
    ['two lines swapped', ([a, b, c, d]) => [a, c, b, d] as string[], 2, /number 3/],
    [
      'a number skipped',
      (l) => l.map((x, i) => (i === 1 ? x.replace('"seq":2', '"seq":3') : x)),
      2,
      /number 3/,
    ],
    ['a line twice', ([a, b, c, d]) => [a, b, b, c, d] as string[], 3, /number 2/],
    ['an empty line', ([a, b, c, d]) => [a, '', b, c, d] as string[], 2, /not JSON/],
    ['half a line', (l) => l.map((x, i) => (i === 1 ? x.slice(0, 40) : x)), 2, /not JSON/],
    ['a key too many', (l) => l.map((x, i) => (i === 1 ? x.replace('{', '{"note":1,') : x)), 2, /"note"/],
    [
      '__proto__',
      (l) => l.map((x, i) => (i === 1 ? x.replace('{', '{"__proto__":{},') : x)),
      2,
      /"__proto__"/,
    ],
    [
      'a link that is none',
      (l) => l.map((x, i) => (i === 1 ? x.replace(/"prev":"../, '"prev":"xx') : x)),
      2,
      /./,
    ],
    ['the beginning gone', (l) => l.slice(1), 1, /number 2/],
  ])('%s is told with its line', (_what, change, line, words) => {
    const { dir, file, lines, rewrite } = written();
    rewrite(change(lines));
    const before = treeOf(dir);
    for (const call of [() => readRun(dir, run), () => RunWriter.open(dir, run)]) {
      const error = errorOf(call);
      expect(error.code).toBe('journal-broken');
      expect(error.place).toMatchObject({ file, line });
      expect(error.message).toMatch(words);
    }
    expect(treeOf(dir)).toEqual(before);
  });

  it('does not pass any single byte flipped before its last line', () => {
    const { dir, file, lines } = written();
    const whole = readFileSync(file);
    const last = Buffer.byteLength(lines[3] as string) + 1;
    // A flip in the last line is not covered by a later digest; one that keeps it valid is for the signature to find.
    fc.assert(
      fc.property(
        fc.integer({ min: 0, max: whole.length - last - 1 }),
        fc.integer({ min: 0, max: 7 }),
        (at, bit) => {
          const bytes = Buffer.from(whole);
          bytes[at] = (bytes[at] as number) ^ (1 << bit);
          writeFileSync(file, bytes);
          expect(() => readRun(dir, run)).toThrow(HeatledgerError);
        },
      ),
      { seed: 20261005, numRuns: 300 },
    );
  });
});

describe('a last line that was cut off', () => {
  const torn = '{"seq":5,"event":"reading","step":"weight3","ty';

  it('is told to a reader and left where it is', () => {
    const { dir, file } = written();
    appendFileSync(file, torn);
    const before = treeOf(dir);
    const { run: read, warnings } = readRun(dir, run);
    expect(read.readings.map((each) => each.value)).toEqual(values);
    expect(warnings).toEqual([expect.stringMatching(/last line of run vat-warmer-full-01 was cut off/)]);
    expect(treeOf(dir)).toEqual(before);
  });

  it('is set aside by a writer, with a word, and the next entry follows the last whole line', () => {
    const { dir, file } = written();
    appendFileSync(file, torn);
    const writer = RunWriter.open(dir, run);
    expect(writer.remarks).toEqual([expect.stringMatching(/was cut off/)]);
    writer.append(reading('weight3', 7849));
    writer.close();
    const { run: read, warnings } = readRun(dir, run);
    expect(read.readings.map((each) => each.value)).toEqual([...values, 7849]);
    expect(warnings).toEqual([]);
    const aside = readdirSync(paths.run(dir, run)).find((name) => name.includes('torn'));
    expect(readFileSync(join(paths.run(dir, run), aside as string), 'utf8')).toBe(torn);
    expect(readFileSync(file, 'utf8').split('\n')).toHaveLength(6);
  });

  it('at any byte leaves all lines before it whole', () => {
    const { dir, file } = written();
    const whole = readFileSync(file);
    const starts = [...whole.entries()].filter(([, byte]) => byte === 0x0a).map(([at]) => at + 1);
    for (let bytes = starts[0] as number; bytes < whole.length; bytes += 7) {
      writeFileSync(file, whole.subarray(0, bytes));
      const lines = starts.filter((start) => start <= bytes).length;
      expect(readRun(dir, run).run.entries).toHaveLength(lines);
    }
  });

  it('as the only line makes no run', () => {
    const { dir, file } = written();
    writeFileSync(file, torn);
    expect(errorOf(() => readRun(dir, run))).toMatchObject({
      code: 'journal-broken',
      place: { file, line: 1 },
    });
  });
});

describe('a run', () => {
  it('that is not there is missed with those that are', () => {
    const { dir } = written();
    const error = errorOf(() => readRun(dir, 'vat-warmer-full-09'));
    expect(error.code).toBe('run-unknown');
    expect(error.message).toContain('Known runs: vat-warmer-full-01');
    expect(errorOf(() => RunWriter.open(dir, 'none')).code).toBe('run-unknown');
    expect(existsSync(paths.run(dir, 'none'))).toBe(false);
  });

  it('is not begun twice', () => {
    const { dir } = written();
    const before = treeOf(dir);
    expect(errorOf(() => RunWriter.begin(dir, beginning(run), 'x')).code).toBe('run-exists');
    expect(treeOf(dir)).toEqual(before);
  });

  it('never takes a number whose folder is there already', () => {
    const { dir } = written();
    const writer = RunWriter.begin(dir, beginning('vat-warmer-full-02'), 'x');
    expect(nextRunId(dir, 'vat-warmer', 'full')).toBe('vat-warmer-full-03');
    writer.close();
  });

  it('keeps an export byte for byte under a plain name', () => {
    const { dir } = written();
    const writer = RunWriter.open(dir, run);
    const bytes = Buffer.from([0xef, 0xbb, 0xbf, 0x74, 0x0d, 0x0a, 0xff]);
    const stored = writer.storeExport('../../../Mein Export (1).csv', bytes);
    writer.close();
    expect(stored.file).toMatch(/^exports\/[0-9a-f]{12}-Mein-Export-1-.csv$/);
    expect(stored.sha256).toBe(sha256(bytes));
    expect(Buffer.from(readAttachment(dir, run, stored.file, stored.sha256))).toEqual(bytes);
    writeFileSync(join(paths.run(dir, run), stored.file), 'other');
    expect(errorOf(() => readAttachment(dir, run, stored.file, stored.sha256)).code).toBe(
      'attachment-changed',
    );
    expect(errorOf(() => readAttachment(dir, run, 'exports/none.csv', stored.sha256)).code).toBe(
      'file-missing',
    );
  });

  it('refuses an entry of a wrong form before it touches the disk', () => {
    const { dir } = written();
    const writer = RunWriter.open(dir, run);
    const before = readFileSync(paths.journal(dir, run));
    expect(() => writer.append(entry('mark', { step: '../x' }))).toThrow();
    expect(() => writer.append({ ...reading('weight', 1), si: Number.NaN })).toThrow();
    expect(readFileSync(paths.journal(dir, run))).toEqual(before);
    writer.append(reading('weight3', 7850));
    writer.close();
    expect(readRun(dir, run).run.readings).toHaveLength(4);
    expect(openWorkbook(dir).settings.name).toBe('hill dairy');
  });
});
