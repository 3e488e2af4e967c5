import { type ChildProcess, spawn } from 'node:child_process';
import { once } from 'node:events';
import { readdirSync, writeFileSync } from 'node:fs';
import { hostname } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';
import { RunWriter, paths, readRun } from '../../src/workbook/index.js';
import { errorOf } from '../support/errorOf.js';
import { beginning, reading, workbookWithRun } from './benchBook.js';

const run = 'vat-warmer-full-01';
const script = fileURLToPath(new URL('writer.mjs', import.meta.url));

/** A writer in a process of its own, and all it will have printed. */
function writer(dir: string, what: string): { child: ChildProcess; text: Promise<string> } {
  const child = spawn(process.execPath, [script, dir, run, what], { stdio: ['ignore', 'pipe', 'inherit'] });
  let text = '';
  child.stdout?.setEncoding('utf8').on('data', (part: string) => {
    text += part;
  });
  return { child, text: once(child, 'close').then(() => text) };
}

interface Said {
  readonly kept: number;
  readonly refused: number;
  readonly both: number;
  readonly remarks: readonly string[];
}

const racing = async (dir: string, count: number, rounds: number): Promise<Said[]> =>
  Promise.all(
    Array.from({ length: count }, async () => JSON.parse(await writer(dir, String(rounds)).text) as Said),
  );

/** A workbook whose run was held by a process that is dead now. */
async function leftByDead(): Promise<string> {
  const dir = workbookWithRun(run);
  const { child, text } = writer(dir, 'hold');
  await once(child.stdout as NonNullable<ChildProcess['stdout']>, 'data');
  child.kill('SIGKILL');
  await text;
  return dir;
}

const locksOf = (dir: string) => readdirSync(paths.run(dir, run)).filter((name) => name.startsWith('lock'));

describe('the lock of a run', () => {
  it('refuses a second writer with a word that says who and since when', () => {
    const dir = workbookWithRun(run);
    const first = RunWriter.open(dir, run);
    const error = errorOf(() => RunWriter.open(dir, run));
    expect(error.code).toBe('run-locked');
    expect(error.message).toMatch(new RegExp(`^Run ${run} is open in process ${process.pid}, since 20`));
    expect(error.hint).toMatch(/other terminal/);
    first.append(reading('weight2', 7852));
    first.close();
    const second = RunWriter.open(dir, run);
    expect(second.remarks).toEqual([]);
    second.close();
    expect(locksOf(dir)).toEqual([]);
  });

  it('of one run is no hindrance to another, nor to a reader', () => {
    const dir = workbookWithRun(run);
    const first = RunWriter.open(dir, run);
    const other = RunWriter.begin(dir, beginning('vat-warmer-full-02'), 'x');
    expect(readRun(dir, run).run.readings).toHaveLength(2);
    other.close();
    first.close();
  });

  it('refuses a second writer in another process', async () => {
    const dir = workbookWithRun(run);
    const { child, text } = writer(dir, 'hold');
    await once(child.stdout as NonNullable<ChildProcess['stdout']>, 'data');
    const error = errorOf(() => RunWriter.open(dir, run));
    expect(error.message).toContain(`in process ${child.pid}, since`);
    child.kill('SIGKILL');
    await text;
  });

  it('of a dead process is taken over with a word', async () => {
    const dir = await leftByDead();
    expect(locksOf(dir)).toHaveLength(1);
    const taken = RunWriter.open(dir, run);
    expect(taken.remarks).toEqual([expect.stringMatching(/ended while this run was open/)]);
    taken.append(reading('weight2', 7852));
    taken.close();
    expect(locksOf(dir)).toEqual([]);
  });

  it.each<[string, object | string]>([
    [
      'whose number another process has got',
      { pid: process.pid, host: hostname(), since: 'then', started: '1' },
    ],
    ['that can not be read', 'half a li'],
    ['that is empty', ''],
  ])('%s is taken over too', (_what, holder) => {
    const dir = workbookWithRun(run);
    const text = typeof holder === 'string' ? holder : JSON.stringify(holder);
    writeFileSync(`${paths.lock(dir, run)}.left`, text);
    const taken = RunWriter.open(dir, run);
    expect(taken.remarks).toHaveLength(1);
    taken.close();
  });

  it('of another machine is left alone: nothing is known of it', () => {
    const dir = workbookWithRun(run);
    const holder = { pid: 1, host: 'another-bench', since: '2026-10-05T07:10:00Z', started: null };
    writeFileSync(`${paths.lock(dir, run)}.another-bench-1`, JSON.stringify(holder));
    expect(errorOf(() => RunWriter.open(dir, run)).message).toContain('process 1 on another-bench');
    expect(locksOf(dir)).toHaveLength(1);
  });

  it('is never held by two of three that race for it', async () => {
    const dir = workbookWithRun(run);
    const said = await racing(dir, 3, 20);
    expect(said.map((each) => each.both)).toEqual([0, 0, 0]);
    expect(said.map((each) => each.kept)).toEqual([20, 20, 20]);
    expect(readRun(dir, run).run.notes).toHaveLength(60);
    expect(locksOf(dir)).toEqual([]);
  });

  it('of a dead process is never taken over by two of three that race for it', async () => {
    const dir = await leftByDead();
    const said = await racing(dir, 3, 1);
    expect(said.map((each) => each.both)).toEqual([0, 0, 0]);
    expect(said.flatMap((each) => each.remarks).length).toBeGreaterThanOrEqual(1);
    expect(readRun(dir, run).run.notes).toHaveLength(3);
    expect(readdirSync(join(dir, 'runs', run)).sort()).toEqual(['journal.jsonl', 'protocol.yaml']);
  });
});
