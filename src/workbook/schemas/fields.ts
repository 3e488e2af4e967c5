import { z } from 'zod';
import { HeatledgerError } from '../../errors/index.js';
import { type QuantityKind, readQuantity } from '../../units/index.js';

/** Version of every record file; a newer one is refused, see readRecord. */
export const SCHEMA_VERSION = 1;
export const schemaVersion = z.literal(SCHEMA_VERSION).describe('version of this file form');

/** Ids become file names: plain ASCII, no path, no name that some system reserves. */
export const idField = z
  .string()
  .regex(
    /^[a-z0-9][a-z0-9._-]{0,63}$/,
    'an id is 1 to 64 of a-z, 0-9, dot, dash and underscore, and starts with a letter or digit',
  )
  .refine((id) => !/^(con|prn|aux|nul|com\d|lpt\d)(\.|$)/.test(id), 'this name is reserved on some systems')
  .refine(
    (id) => !id.includes('..') && !id.endsWith('.'),
    'an id has no double dot and does not end with a dot',
  )
  .describe('short id, also the name of the file');

export const textField = z.string().min(1).max(2000);

/**
 * A quantity as a person writes it, such as `4.21 kg`, read into SI by the schema.
 *
 * @example
 * quantityField('mass', 'g', 'mass of the pot').parse('1.871 kg') // => 1.871
 * quantityField('mass', 'g', 'mass of the pot').parse(1871) // => 1.871
 */
export function quantityField(kind: QuantityKind, unit: string, what: string) {
  return z
    .union([z.string(), z.number()])
    .describe(`${what}, such as "1 ${unit}"; a bare number is in ${unit}`)
    .transform((value, context) => {
      try {
        return readQuantity(String(value), { kind, unit }).si;
      } catch (error) {
        if (!(error instanceof HeatledgerError)) throw error;
        context.addIssue({ code: 'custom', message: error.message });
        return z.NEVER;
      }
    });
}

/**
 * The same, refused below zero.
 *
 * @example
 * positiveField('mass', 'g', 'mass of the pot').safeParse('0 g').success // => false
 */
export function positiveField(kind: QuantityKind, unit: string, what: string) {
  return quantityField(kind, unit, what).refine((value) => value > 0, `the ${what} must be more than zero`);
}

export const dateField = z
  .string()
  .regex(/^\d{4}-\d{2}-\d{2}$/, 'a date is written 2026-03-02')
  .refine((text) => {
    const date = new Date(`${text}T00:00:00Z`);
    return !Number.isNaN(date.getTime()) && date.toISOString().startsWith(text);
  }, 'there is no such day in the calendar');
