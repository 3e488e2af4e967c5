import { type JournalEntry, type NewEntry, type RunRecord, runFrom, sha256 } from '../workbook/index.js';
import type { Keeper } from './WalkOptions.js';

/**
 * Keeps a run in memory only. Files of answers are walked through it first: what it refuses has changed nothing on
 * disk.
 */
export class MemoryKeeper implements Keeper {
  private readonly entries: JournalEntry[];

  constructor(begun: RunRecord | NewEntry) {
    this.entries = 'entries' in begun ? [...begun.entries] : [];
    if (!('entries' in begun)) this.append(begun);
  }

  get run(): RunRecord {
    return runFrom(this.entries) as RunRecord;
  }

  append(entry: NewEntry): RunRecord {
    this.entries.push({ seq: this.entries.length + 1, ...entry, prev: '0'.repeat(64) } as JournalEntry);
    return this.run;
  }

  storeExport(name: string, bytes: Uint8Array): { file: string; sha256: string } {
    const digest = sha256(bytes);
    return { file: `exports/${digest.slice(0, 12)}-${name}`, sha256: digest };
  }
}
