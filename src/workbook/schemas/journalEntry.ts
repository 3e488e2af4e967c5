import { z } from 'zod';
import { idField } from './fields.js';

/** Step ids are camel case; they never become file names. */
function stepField() {
  return z.string().regex(/^[A-Za-z][A-Za-z0-9-]{0,63}$/);
}

/** What every line of a journal holds, whatever it is about. */
const common = {
  /** Counts from 1. */
  seq: z.number().int().positive(),
  /** UTC time of the event at the bench. */
  at: z.iso.datetime(),
  zone: z.string(),
  hand: z.string(),
  /** SHA-256 of the line before, in hex; 64 zeros in the first line. */
  prev: z.string().regex(/^[0-9a-f]{64}$/),
};

/** A number at the bench: as typed, and in SI. */
const reading = {
  typed: z.string(),
  kind: z.string(),
  unit: z.string(),
  value: z.number(),
  si: z.number(),
};

export const journalEntrySchema = z.discriminatedUnion('event', [
  z.strictObject({
    ...common,
    event: z.literal('begin'),
    schema: z.literal(1),
    run: idField,
    heater: idField,
    setting: idField,
    protocol: z.strictObject({ name: idField, version: z.number().int(), sha256: z.string() }),
    instruments: z.record(z.string(), idField),
  }),
  z.strictObject({ ...common, event: z.literal('acknowledge'), step: stepField() }),
  z.strictObject({ ...common, event: z.literal('confirm'), step: stepField() }),
  z.strictObject({ ...common, event: z.literal('choice'), step: stepField(), value: z.string() }),
  z.strictObject({
    ...common,
    event: z.literal('reading'),
    step: stepField(),
    instrument: idField.optional(),
    ...reading,
  }),
  z.strictObject({ ...common, event: z.literal('mark'), step: stepField() }),
  z.strictObject({ ...common, event: z.literal('note'), step: stepField(), text: z.string() }),
  z.strictObject({ ...common, event: z.literal('skip'), step: stepField() }),
  z.strictObject({ ...common, event: z.literal('back'), step: stepField() }),
  z.strictObject({
    ...common,
    event: z.literal('attach'),
    step: stepField().optional(),
    role: z.enum(['powerLog', 'temperatureLog']),
    file: z.string(),
    originalName: z.string(),
    bytes: z.number().int().nonnegative(),
    sha256: z.string(),
    /** The options that read it, so that the same reading comes out again. */
    options: z.record(z.string(), z.unknown()),
    /** How it was read, for people. */
    mapping: z.unknown(),
  }),
  z.strictObject({ ...common, event: z.literal('pause') }),
  z.strictObject({ ...common, event: z.literal('resume') }),
  z.strictObject({ ...common, event: z.literal('end') }),
  z.strictObject({
    ...common,
    event: z.literal('exclude'),
    reason: z.string().min(1),
    /** Whether the result of the run had been shown before: it matters for how the exclusion is judged. */
    resultSeen: z.boolean(),
  }),
  z.strictObject({ ...common, event: z.literal('include'), reason: z.string().min(1) }),
]);

export type JournalEntry = z.infer<typeof journalEntrySchema>;
type Chained = 'seq' | 'prev';
type WithoutChain<E> = E extends unknown ? Omit<E, Chained> : never;
/** An entry before the journal has given it its number and its link. */
export type NewEntry = WithoutChain<JournalEntry>;
