import { z } from 'zod';
import { timeForms } from '../../logs/index.js';
import { idField, positiveField, schemaVersion, textField } from './fields.js';

/** A column by the name that stands over it; by its number too where the name alone doesn't tell it from others. */
const columnField = z
  .strictObject({
    header: z.string().max(10_000).describe('the name over the column, empty where there is none'),
    number: z
      .number()
      .int()
      .positive()
      .optional()
      .describe('counted from 1; needed where the name is no help'),
  })
  .optional();

const unitsField = z
  .strictObject({
    time: textField.optional(),
    power: textField.optional(),
    energy: textField.optional(),
    voltage: textField.optional(),
    current: textField.optional(),
    powerFactor: textField.optional(),
    temperature: textField.optional(),
  })
  .optional();

/** How the text is written. */
const form = {
  delimiter: z.string().length(1).optional().describe('the sign between columns'),
  decimal: z.enum(['.', ',']).optional().describe('the decimal sign'),
  timeForm: z.enum(timeForms).optional().describe('how times are written'),
  units: unitsField,
};

/** mappings/NAME.yaml: how the exports of one meter are read. */
export const mappingSchema = z.strictObject({
  schema: schemaVersion,
  id: idField,
  columns: z.strictObject({
    time: columnField,
    date: columnField,
    power: columnField,
    energy: columnField,
    voltage: columnField,
    current: columnField,
    powerFactor: columnField,
    temperature: columnField,
    ignored: columnField,
  }),
  found: z
    .strictObject(form)
    .default({})
    .describe('what the export showed; the next one must show the same, or leave it open'),
  stated: z
    .strictObject({
      ...form,
      zone: textField.optional().describe('time zone of its clock, such as Europe/Vienna'),
      interval: positiveField('time', 's', 'time from row to row').optional(),
    })
    .default({})
    .describe('what a person stated'),
});
export type Mapping = z.infer<typeof mappingSchema>;
