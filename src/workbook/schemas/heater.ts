import { z } from 'zod';
import { dateField, idField, positiveField, quantityField, schemaVersion, textField } from './fields.js';

/** How a setting makes its power: a cycling or chopped load is harder on a meter than a steady one. */
export const controlField = z.enum(['steady', 'cycling', 'chopped', 'unknown']).default('unknown');

/** What a setting is claimed or required to reach, and the risk that may be run in calling it met. */
const claimField = z
  .strictObject({
    atLeast: quantityField('ratio', '1', 'least efficiency').refine(
      (value) => value > 0 && value <= 1,
      'an efficiency lies above 0 and at most at 1',
    ),
    risk: quantityField('ratio', '1', 'risk of calling it met where it is not')
      .refine((value) => value > 0 && value < 0.5, 'a risk lies above 0 and below 0.5')
      .default(0.05),
    declared: dateField.describe('the day the rule was settled'),
  })
  .describe('the decision rule for --at-least, settled before the first run');

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
  lossCoefficient: z
    .strictObject({
      value: positiveField('conductance', 'W/K', 'loss to the room for each kelvin above it'),
      halfWidth: positiveField('conductance', 'W/K', 'half-width of its doubt'),
    })
    .optional()
    .describe('loss of the vessel in the heater to the room, without the heat of vapour'),
  settings: z
    .array(
      z.strictObject({
        id: idField,
        name: textField.optional(),
        control: controlField,
        claim: claimField.optional(),
      }),
    )
    .min(1),
  remarks: z.string().optional(),
});
export type Heater = z.infer<typeof heaterSchema>;
