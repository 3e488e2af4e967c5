import { expect } from 'vitest';
import { HeatledgerError } from '../../../src/errors/index.js';
import { type Log, readExport } from '../../../src/logs/index.js';
import { energyChanged, newWarnings } from './changes.js';
import type { Evidence } from './Evidence.js';
import { evidenceIn } from './evidenceIn.js';
import type { Mutant } from './mutants.js';
import type { Original } from './Original.js';
import { expectSane, type Outcome, outcomeOf } from './outcome.js';
import { plainRows } from './plainRows.js';

/** An error of ours, and nothing else. */
export interface Refusal {
  readonly code: string;
  readonly place: unknown;
}

/**
 * refused: by an error of ours. same: read, and no energy changed beyond its uncertainty. warned: changed, and the reading
 * says something that it doesn't say of the clean export. undetectable: changed, not warned, and nothing in the file
 * speaks against it. silent: changed, not warned, although something does.
 */
export const verdicts = ['refused', 'same', 'warned', 'undetectable', 'silent'] as const;

export interface Judgement {
  readonly verdict: (typeof verdicts)[number];
  readonly found: Outcome | Refusal;
  readonly evidence: readonly Evidence[];
}

// More than a person reads; a sentence for each row would be far more.
const mostWarnings = 25;
const known = new Map<Original, readonly Evidence[]>();

/** Reads a mutant and holds it against its original. Anything but an error of ours comes out. */
export function judge({ original, bytes }: Mutant): Judgement {
  let log: Log;
  try {
    log = readExport(bytes, original.options);
  } catch (error) {
    return { verdict: 'refused', found: refusalOf(error), evidence: [] };
  }
  const found = outcomeOf(log);
  // No row comes from nowhere: a line gives one row at most.
  expect(found.rows).toBeLessThanOrEqual(1 + bytes.filter((byte) => byte === 10 || byte === 13).length);
  expect(found.warnings.length).toBeLessThanOrEqual(mostWarnings);
  if (!energyChanged(original.clean, found)) return { verdict: 'same', found, evidence: [] };
  const rows = plainRows(bytes, log.mapping);
  const clean = evidenceOf(original);
  const evidence = rows ? evidenceIn(rows).filter((each) => !clean.includes(each)) : [];
  const warned = newWarnings(original.clean.warnings, found.warnings).length > 0;
  return { verdict: warned ? 'warned' : evidence.length > 0 ? 'silent' : 'undetectable', found, evidence };
}

/** What an error says, which must make sense; one that isn't ours is thrown on. */
export function refusalOf(error: unknown): Refusal {
  if (!(error instanceof HeatledgerError)) throw error;
  expectSane(error);
  return { code: error.code, place: error.place };
}

/** What the clean export itself has, such as a row that comes late: it says nothing against the mutant. */
export function evidenceOf(original: Original): readonly Evidence[] {
  const before = known.get(original);
  if (before) return before;
  const rows = plainRows(original.bytes, original.mapping);
  const evidence = rows ? evidenceIn(rows) : [];
  known.set(original, evidence);
  return evidence;
}
