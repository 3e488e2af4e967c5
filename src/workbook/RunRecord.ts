import type { InstrumentKind } from './schemas/instrument.js';
import type { JournalEntry } from './schemas/journalEntry.js';

/** One recorded value with unit, instrument, time and hand. */
export interface ReadingRecord {
  readonly step: string;
  readonly seq: number;
  readonly at: string;
  readonly hand: string;
  readonly typed: string;
  readonly unit: string;
  readonly value: number;
  /** In SI; temperatures in kelvin. */
  readonly si: number;
  readonly instrument: string | null;
}

export interface AttachmentRecord {
  readonly role: 'powerLog' | 'temperatureLog';
  /** Relative to the run's folder. */
  readonly file: string;
  readonly originalName: string;
  readonly bytes: number;
  readonly sha256: string;
  readonly options: Record<string, unknown>;
  readonly mapping: unknown;
  readonly at: string;
}

export interface ExclusionRecord {
  readonly reason: string;
  readonly hand: string;
  readonly at: string;
  readonly resultSeen: boolean;
}

/** A run as its journal tells it now. What was gone back over is still in the journal, not here. */
export interface RunRecord {
  readonly id: string;
  readonly heater: string;
  readonly setting: string;
  readonly protocol: { readonly name: string; readonly version: number; readonly sha256: string };
  readonly instruments: Partial<Record<InstrumentKind, string>>;
  readonly hand: string;
  readonly zone: string;
  readonly startedAt: string;
  readonly readings: readonly ReadingRecord[];
  readonly choices: Readonly<Record<string, string>>;
  /** UTC time of each mark and each thing acknowledged or confirmed. */
  readonly marks: Readonly<Record<string, string>>;
  readonly notes: readonly { readonly step: string; readonly text: string; readonly at: string }[];
  readonly skipped: readonly string[];
  readonly attachments: readonly AttachmentRecord[];
  /** Set where a person took the run out of its figure, with the reason; null where it counts. */
  readonly excluded: ExclusionRecord | null;
  readonly ended: boolean;
  readonly paused: boolean;
  readonly entries: readonly JournalEntry[];
}

/** Entries that answer a step, in the order they were kept, less those gone back over. */
function standing(entries: readonly JournalEntry[]): JournalEntry[] {
  const kept: JournalEntry[] = [];
  for (const entry of entries) {
    if (entry.event !== 'back') {
      kept.push(entry);
      continue;
    }
    // The last answer of the step: of a repeated one only the last reading is undone.
    const from = kept.findLastIndex((each) => 'step' in each && each.step === entry.step);
    if (from < 0) continue;
    // Going back undoes answers. An export that was kept stays: it is evidence until another stands in for it.
    for (let i = kept.length - 1; i >= from; i--) {
      const each = kept[i] as JournalEntry;
      if ('step' in each && each.step !== undefined && each.event !== 'attach') kept.splice(i, 1);
    }
  }
  return kept;
}

/**
 * Folds a journal into the state of its run. Resuming is nothing but this: the same lines give the same state,
 * whether the program was paused, killed or never stopped.
 *
 * @example
 * const entries = [
 *   { seq: 1, event: 'begin', run: 'vat-warmer-full-01' },
 *   { seq: 2, event: 'choice', step: 'lid', value: 'off' },
 *   { seq: 3, event: 'back', step: 'lid' },
 *   { seq: 4, event: 'choice', step: 'lid', value: 'on' },
 * ];
 * runFrom(entries).choices // => { lid: 'on' }
 * runFrom([]) // => null
 */
export function runFrom(entries: readonly JournalEntry[]): RunRecord | null {
  const begin = entries[0];
  if (begin?.event !== 'begin') return null;
  const readings: ReadingRecord[] = [];
  // Without a prototype: a step may be called "constructor" and is not answered for that.
  const choices: Record<string, string> = Object.create(null);
  const marks: Record<string, string> = Object.create(null);
  const notes: { step: string; text: string; at: string }[] = [];
  const skipped: string[] = [];
  let excluded: ExclusionRecord | null = null;
  const attachments = new Map<string, AttachmentRecord>();
  for (const entry of standing(entries)) {
    switch (entry.event) {
      case 'acknowledge':
      case 'confirm':
      case 'mark':
        marks[entry.step] = entry.at;
        break;
      case 'choice':
        choices[entry.step] = entry.value;
        break;
      case 'reading':
        readings.push({ ...entry, instrument: entry.instrument ?? null });
        break;
      case 'note':
        notes.push({ step: entry.step, text: entry.text, at: entry.at });
        break;
      case 'skip':
        skipped.push(entry.step);
        break;
      case 'exclude':
        excluded = { reason: entry.reason, hand: entry.hand, at: entry.at, resultSeen: entry.resultSeen };
        break;
      case 'include':
        excluded = null;
        break;
      case 'attach':
        attachments.set(entry.role, entry);
        break;
    }
  }
  const last = entries[entries.length - 1] as JournalEntry;
  return {
    id: begin.run,
    heater: begin.heater,
    setting: begin.setting,
    protocol: begin.protocol,
    instruments: begin.instruments,
    hand: begin.hand,
    zone: begin.zone,
    startedAt: begin.at,
    readings,
    choices,
    marks,
    notes,
    skipped,
    attachments: [...attachments.values()],
    excluded,
    ended: entries.some((entry) => entry.event === 'end'),
    paused: last.event === 'pause',
    entries,
  };
}
