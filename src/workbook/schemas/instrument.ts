import { z } from 'zod';
import type { QuantityKind } from '../../units/index.js';
import { dateField, idField, schemaVersion, textField } from './fields.js';
import { positiveField, quantityField } from './fields.js';

export const instrumentKinds = ['wattmeter', 'thermometer', 'scale', 'barometer'] as const;
export type InstrumentKind = (typeof instrumentKinds)[number];

/** What a kind of instrument reads, what its steps are counted in, and what its errors are stated in. */
export const measures: Record<
  InstrumentKind,
  {
    readonly range: [QuantityKind, string];
    readonly step: [QuantityKind, string];
    readonly error: [QuantityKind, string];
  }
> = {
  wattmeter: { range: ['power', 'W'], step: ['energy', 'kWh'], error: ['power', 'W'] },
  thermometer: {
    range: ['temperature', '°C'],
    step: ['temperatureDifference', 'K'],
    error: ['temperatureDifference', 'K'],
  },
  scale: { range: ['mass', 'g'], step: ['mass', 'g'], error: ['mass', 'g'] },
  barometer: { range: ['pressure', 'hPa'], step: ['pressure', 'hPa'], error: ['pressure', 'hPa'] },
};

function percentField(what: string) {
  return quantityField('ratio', '%', what).refine((value) => value >= 0, 'a limit is not negative');
}

function kindSchema<K extends InstrumentKind>(kind: K) {
  const { range, step, error } = measures[kind];
  const limit = (what: string) =>
    quantityField(error[0], error[1], what).refine((value) => value >= 0, 'a limit is not negative');
  // A wattmeter's certificate states its corrections in per cent of the reading; the others in their own unit.
  const correction: [QuantityKind, string] = kind === 'wattmeter' ? ['ratio', '%'] : error;
  return z
    .strictObject({
      schema: schemaVersion,
      id: idField,
      kind: z.literal(kind),
      name: textField,
      assumed: z
        .boolean()
        .default(false)
        .describe('true where the limits are common practice, not a data sheet'),
      range: quantityField(range[0], range[1], 'upper end of the range').optional(),
      resolution: positiveField(step[0], step[1], 'smallest step of what is typed'),
      powerResolution: positiveField('power', 'W', 'smallest step of the power').optional(),
      limits: z
        .strictObject({
          ofReading: percentField('per cent of the reading').optional(),
          ofRange: percentField('per cent of the range').optional(),
          digits: z.number().int().min(0).optional().describe('count of steps'),
          absolute: limit('the same limit at every reading, errors at different levels unrelated').optional(),
          offset: limit('one error, the same at every reading; it cancels in differences').optional(),
        })
        .optional(),
      certificate: z
        .strictObject({
          number: textField,
          date: dateField,
          due: dateField,
          coverageFactor: z.number().min(1).max(4).default(2),
          points: z
            .array(
              z.strictObject({
                at: quantityField(range[0], range[1], 'where on the range'),
                correction: quantityField(correction[0], correction[1], 'what is added to the reading'),
                expandedUncertainty: positiveField(correction[0], correction[1], 'expanded uncertainty'),
              }),
            )
            .min(1),
        })
        .optional(),
      due: dateField.optional().describe('when the next check is due, where there is no certificate'),
      remarks: z.string().optional(),
    })
    .superRefine((value, context) => {
      if (!value.limits && !value.certificate) {
        context.addIssue({
          code: 'custom',
          path: ['limits'],
          message: 'an instrument needs limits or a certificate; unknown is never zero',
        });
      }
      if (value.limits && Object.keys(value.limits).length === 0) {
        context.addIssue({
          code: 'custom',
          path: ['limits'],
          message: 'name at least one limit; unknown is never zero',
        });
      }
      if (value.limits?.ofRange !== undefined && value.range === undefined) {
        context.addIssue({
          code: 'custom',
          path: ['range'],
          message: 'a limit in per cent of the range needs the range',
        });
      }
      const ats = value.certificate?.points.map((point) => point.at) ?? [];
      if (ats.some((at, i) => i > 0 && at <= (ats[i - 1] as number))) {
        context.addIssue({
          code: 'custom',
          path: ['certificate', 'points'],
          message: 'the points must go upwards',
        });
      }
    });
}

/** instruments/ID.yaml: one reader of values with its error limits or its certificate. */
export const instrumentSchema = z.discriminatedUnion('kind', [
  kindSchema('wattmeter'),
  kindSchema('thermometer'),
  kindSchema('scale'),
  kindSchema('barometer'),
]);
/** All kinds read into one shape; SI throughout. */
export type Instrument = z.infer<typeof instrumentSchema>;
export type Certificate = NonNullable<Instrument['certificate']>;
