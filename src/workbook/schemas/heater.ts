import { z } from 'zod';
import { idField, positiveField, schemaVersion, textField } from './fields.js';

/** How a setting makes its power: a cycling or chopped load is harder on a meter than a steady one. */
export const controlField = z.enum(['steady', 'cycling', 'chopped', 'unknown']).default('unknown');

/** heaters/ID.yaml: the appliance under test with its settings. */
export const heaterSchema = z.strictObject({
  schema: schemaVersion,
  id: idField,
  name: textField,
  ratedPower: positiveField('power', 'W', 'power on the rating plate').optional(),
  vessel: z
    .strictObject({
      material: textField.describe('a material of the table, or any word with specificHeat beside it'),
      specificHeat: positiveField('specificHeat', 'J/(kg K)', 'specific heat of the vessel').optional(),
    })
    .optional(),
  bodyHeatCapacity: z
    .strictObject({
      value: positiveField('heatCapacity', 'J/K', 'heat capacity of the body'),
      halfWidth: positiveField('heatCapacity', 'J/K', 'half-width of its doubt'),
    })
    .optional()
    .describe('heat capacity of the heater body, needed for warm starts'),
  settings: z
    .array(z.strictObject({ id: idField, name: textField.optional(), control: controlField }))
    .min(1),
  remarks: z.string().optional(),
});
export type Heater = z.infer<typeof heaterSchema>;
