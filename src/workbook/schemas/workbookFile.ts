import { z } from 'zod';
import { idField, positiveField, quantityField, schemaVersion, textField } from './fields.js';

/** workbook.yaml: what holds for the whole lab. */
export const workbookSchema = z.strictObject({
  schema: schemaVersion,
  name: textField.describe('name of the lab or the bench'),
  zone: z
    .string()
    .refine(isZone, 'a time zone is written as in the zone database, such as Europe/Vienna or UTC')
    .describe('time zone of clock times without one'),
  altitude: quantityField('length', 'm', 'height above sea level').optional(),
  pressure: positiveField(
    'pressure',
    'hPa',
    'air pressure at the bench, not reduced to sea level',
  ).optional(),
  ambient: quantityField('temperature', '°C', 'usual room temperature').optional(),
  hands: z
    .array(z.strictObject({ id: idField, name: textField }))
    .min(1)
    .describe('who takes readings'),
  units: z.enum(['si', 'us']).default('si').describe('units of what is shown'),
});
export type WorkbookFile = z.infer<typeof workbookSchema>;

function isZone(zone: string): boolean {
  try {
    new Intl.DateTimeFormat('en', { timeZone: zone });
    return true;
  } catch {
    return false;
  }
}
