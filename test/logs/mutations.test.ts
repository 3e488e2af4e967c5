import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';
import { openExport } from '../../src/logs/index.js';
import { randomFrom } from './generated.js';
import { Counts } from './mutants/Counts.js';
import { judge, type Refusal, refusalOf } from './mutants/judge.js';
import { kinds, type Mutant, mutantOf } from './mutants/mutants.js';
import { originals } from './mutants/Original.js';
import { type Outcome, outcomeOf } from './mutants/outcome.js';

const seed = 20_261_103;
const batches = 20;
const perBatch = 500;
// Each mutant has at most this many bytes and as many rows as lines, and no row is walked but once a pass: that is what
// bounds the work, whatever the machine. The longest original has 10 kB.
const mostBytes = 25_000;

const folder = mkdtempSync(join(tmpdir(), 'heatledger-mutants-'));
afterAll(() => rmSync(folder, { recursive: true, force: true }));

/** The same by the road for large files, which leaves the rows on disk. */
async function fromDisk({ original, bytes }: Mutant): Promise<Outcome | Refusal> {
  const path = join(folder, 'mutant.csv');
  writeFileSync(path, bytes);
  try {
    return outcomeOf(await openExport(path, { ...original.options, inMemoryBytes: 0, helpers: 0 }));
  } catch (error) {
    return refusalOf(error);
  }
}

/** Sums over blocks of other sizes may differ in the last digits. */
function expectSame(disk: Outcome | Refusal, memory: Outcome | Refusal): void {
  const rounded = (value: unknown) => (typeof value === 'number' ? Number(value.toPrecision(9)) : value);
  const plain = (found: Outcome | Refusal) =>
    Object.fromEntries(Object.entries(found).map(([key, value]) => [key, rounded(value)]));
  expect(plain(disk)).toEqual(plain(memory));
}

describe('the clean exports', () => {
  it.each(originals.map((original) => [original.name, original] as const))(
    '%s: no warning but those written by hand',
    (_name, { clean, warnings, fuller }) => {
      // The small files of the corpus begin and end while the heater is on, and that is said.
      const cut = /^The log (begins|ends) while the heater is (on already|still on);/;
      const said = fuller ? clean.warnings : clean.warnings.filter((warning) => !cut.test(warning));
      expect(said).toEqual(warnings.map((each) => expect.stringMatching(each)));
      if (fuller) expect(clean.energyWh).toBeGreaterThan(70);
    },
  );
});

describe(`${batches * perBatch} mutated exports, seed ${seed}`, () => {
  const counts = new Counts();
  const names = Object.keys(kinds);
  it.each(Array.from({ length: batches }, (_, batch) => batch))(
    'batch %i: refused, or read to finite energies that are warned of wherever something speaks against them',
    { timeout: 600_000 },
    async (batch) => {
      const random = randomFrom(seed + batch);
      for (let i = 0; i < perBatch; i++) {
        const mutant = mutantOf(names[(batch * perBatch + i) % names.length]!, random);
        const said = `${mutant.kind} of ${mutant.original.name}`;
        try {
          expect(mutant.bytes.length).toBeLessThan(mostBytes);
          const judgement = judge(mutant);
          counts.add(mutant.kind, judgement);
          const silent = judgement.verdict === 'silent' ? judgement.evidence : [];
          expect(silent, 'evidence without a warning').toEqual([]);
          if (i % 10 === 0) expectSame(await fromDisk(mutant), judgement.found);
        } catch (error) {
          const text = JSON.stringify(Buffer.from(mutant.bytes).toString('latin1'));
          throw new Error(`batch ${batch}, mutant ${i}, ${said}: ${(error as Error).message}\n${text}`, {
            cause: error,
          });
        }
      }
    },
  );
  it('come to these verdicts', () => {
    console.log(counts.toText());
    const all = batches * perBatch;
    // All must happen, or the mutations are too mild or too wild to test anything.
    for (const verdict of ['refused', 'same', 'warned'] as const)
      expect(counts.total(verdict)).toBeGreaterThan(all / 20);
    // And the judge must have seen nearly all that it looks for; a power factor changes no energy beside a power.
    expect(counts.evidence.size).toBeGreaterThanOrEqual(9);
    expect(Number.isFinite(counts.total('undetectable'))).toBe(true);
  });
});
