import type { Log } from '../logs/index.js';
import { displayUnit } from '../units/index.js';
import type { NewEntry, RunRecord } from '../workbook/index.js';
import type { LogRole, ReadyExport } from './attach.js';
import type { Bench } from './Bench.js';
import type { Protocol, Step } from './schema.js';

/** Who keeps the answers: the writer of a run, or a stand-in that keeps them in memory only. */
export interface Keeper {
  readonly run: RunRecord;
  append(entry: NewEntry): RunRecord;
  storeExport(name: string, bytes: Uint8Array): { readonly file: string; readonly sha256: string };
}

/** An export that was read, and how that came about in words. */
export interface ReadLog {
  readonly ready: ReadyExport;
  readonly words: readonly string[];
}

export interface WalkOptions {
  readonly protocol: Protocol;
  readonly keeper: Keeper;
  readonly bench: Bench;
  readonly hand: string;
  readonly zone: string;
  readonly units: 'si' | 'us';
  /** Folder from which paths of exports are taken. */
  readonly base: string;
  /** Called before a step is asked, for what the caller has to say at that place. */
  readonly beforeStep?: (step: Step, run: RunRecord) => void;
  /** Reads an export in the caller's way, such as with a mapping saved for the meter; else it is read as it stands. */
  readonly readLog?: (path: string, role: LogRole, run: RunRecord) => Promise<ReadLog>;
  /** What is to be said of a log that has just been kept, such as how its energy compares with the counter. */
  readonly aboutLog?: (role: LogRole, log: Log, run: RunRecord) => readonly string[];
}

/** When, where and by whom: what every entry carries. */
export function stamp(options: WalkOptions): { at: string; zone: string; hand: string } {
  return { at: options.bench.now().toISOString(), zone: options.zone, hand: options.hand };
}

/**
 * Unit at the prompt: that of the protocol, or its counterpart for readers of US units.
 *
 * @example
 * const { protocol } = findProtocol('water-heating', null);
 * const step = protocol.steps.find((each) => each.id === 'startTemperature');
 * promptUnit(step, 'si') // => '°C'
 * promptUnit(step, 'us') // => '°F'
 */
export function promptUnit(step: Step, units: 'si' | 'us'): string {
  if (step.kind !== 'reading') return '';
  return units === 'us' ? displayUnit(step.quantity, 'us') : step.unit;
}
