import { z } from 'zod';
import { type QuantityKind, readQuantity } from '../units/index.js';
import { idField, textField } from '../workbook/index.js';
import { readingRoles } from './readingRoles.js';

/** What an allowance acts on: a reading by its role, or a term of the model. */
export const allowanceTargets = [
  ...readingRoles,
  'energy',
  'enthalpyRise',
  'wettedShare',
  'vapour',
  'loss',
] as const;

const temperatureRoles: readonly string[] = readingRoles.filter((role) => role.includes('Temperature'));

/** A doubt that no instrument owns, as a protocol states it. */
export const allowanceSchema = z
  .strictObject({
    id: idField,
    name: textField,
    on: z.enum(allowanceTargets),
    halfWidth: z.string().describe('"0.2 K" on a temperature, "5 g" on a mass, "0.5 %" on anything'),
    scope: z.enum(['lab', 'instrument', 'setting', 'run', 'reading']),
    when: z.enum(['always', 'not-steady']).default('always'),
    basis: textField,
  })
  .transform((allowance, context) => {
    const relative = allowance.halfWidth.includes('%');
    const kind: QuantityKind = relative
      ? 'ratio'
      : temperatureRoles.includes(allowance.on)
        ? 'temperatureDifference'
        : allowance.on.endsWith('Mass')
          ? 'mass'
          : allowance.on === 'pressure'
            ? 'pressure'
            : 'energy';
    const units: Partial<Record<QuantityKind, string>> = {
      ratio: '%',
      temperatureDifference: 'K',
      mass: 'g',
      pressure: 'hPa',
      energy: 'kWh',
    };
    try {
      const width = readQuantity(allowance.halfWidth, { kind, unit: units[kind] as string }).si;
      if (!(width > 0))
        context.addIssue({
          code: 'custom',
          path: ['halfWidth'],
          message: 'the half-width must be more than zero',
        });
      return { ...allowance, relative, halfWidthSi: width };
    } catch (error) {
      context.addIssue({ code: 'custom', path: ['halfWidth'], message: (error as Error).message });
      return z.NEVER;
    }
  });
export type Allowance = z.infer<typeof allowanceSchema>;
