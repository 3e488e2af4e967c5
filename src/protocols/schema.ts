import { z } from 'zod';
import { type QuantityKind, readQuantity } from '../units/index.js';
import {
  idField,
  instrumentKinds,
  parseRecord,
  positiveField,
  quantityField,
  schemaVersion,
  textField,
} from '../workbook/index.js';
import { allowanceSchema } from './allowanceSchema.js';
import { needsUnmet } from './needsUnmet.js';
import { readingRoles } from './readingRoles.js';

export type { ReadingRole } from './readingRoles.js';

const kinds = [
  'mass',
  'temperature',
  'energy',
  'pressure',
  'power',
  'time',
] as const satisfies QuantityKind[];

const stepId = z.string().regex(/^[A-Za-z][A-Za-z0-9-]{0,63}$/, 'a step id is letters, digits and dashes');
const common = {
  id: stepId,
  ask: textField.describe('the question as it stands at the prompt, short, one thing at a time'),
  help: textField.optional().describe('what ? says'),
  optional: z.boolean().default(false).describe('may be left empty'),
  timerFrom: stepId.optional().describe('the mark from which a timer runs while this step waits'),
};

const readingStep = z
  .strictObject({
    ...common,
    kind: z.literal('reading'),
    quantity: z.enum(kinds),
    instrument: z.enum(instrumentKinds),
    role: z.enum(readingRoles).optional(),
    level: textField.optional().describe('readings of one level share the level error of an instrument'),
    unit: z.string(),
    plausible: z.tuple([z.string(), z.string()]),
    default: z.string().optional(),
    repeat: z.boolean().default(false).describe('asked again until left empty'),
  })
  .transform((step, context) => {
    const read = (text: string, key: string): number => {
      try {
        return readQuantity(text, { kind: step.quantity, unit: step.unit }).si;
      } catch (error) {
        context.addIssue({ code: 'custom', path: [key], message: (error as Error).message });
        return Number.NaN;
      }
    };
    // A wrong unit would be blamed on the range.
    if (Number.isNaN(read('1', 'unit'))) return z.NEVER;
    const lowest = read(step.plausible[0], 'plausible');
    const highest = read(step.plausible[1], 'plausible');
    if (lowest > highest) {
      context.addIssue({ code: 'custom', path: ['plausible'], message: 'the lower end comes first' });
    }
    if (step.default !== undefined) read(step.default, 'default');
    if (step.repeat && !step.optional) {
      context.addIssue({ code: 'custom', path: ['repeat'], message: 'a repeated step must be optional' });
    }
    return { ...step, lowestSi: lowest, highestSi: highest };
  });

const stepSchema = z.discriminatedUnion('kind', [
  z.strictObject({ ...common, kind: z.literal('acknowledge'), show: z.literal('cautions').optional() }),
  z.strictObject({ ...common, kind: z.literal('confirm'), refusal: textField }),
  z.strictObject({
    ...common,
    kind: z.literal('choice'),
    options: z.array(textField).min(2),
    default: z.string().optional(),
    role: z.enum(['lid', 'fill']).optional(),
  }),
  readingStep,
  z.strictObject({
    ...common,
    kind: z.literal('mark'),
    role: z.enum(['startLog', 'switchOn', 'switchOff', 'begin', 'end']).optional(),
  }),
  z.strictObject({ ...common, kind: z.literal('attach'), role: z.enum(['powerLog', 'temperatureLog']) }),
  z.strictObject({ ...common, kind: z.literal('note') }),
]);
export type Step = z.infer<typeof stepSchema>;
export type ReadingStep = Extract<Step, { kind: 'reading' }>;

export type { Allowance } from './allowanceSchema.js';

export const definitions = ['water', 'water+vessel', 'water+vapour'] as const;
export type Definition = (typeof definitions)[number];

/** What comes of the runs of a protocol. */
export const evaluations = ['efficiency', 'cool-down', 'hold', 'boil-off'] as const;
export type Evaluates = (typeof evaluations)[number];

const limitsSchema = z.strictObject({
  minimumRise: positiveField('temperatureDifference', 'K', 'least rise').optional(),
  maximumEnd: quantityField('temperature', '°C', 'highest end').optional(),
  minimumRuns: z.number().int().min(1),
  maximumRestDifference: positiveField(
    'temperatureDifference',
    'K',
    'difference of body and room at the start',
  ).optional(),
  minimumDuration: positiveField('time', 'min', 'least time').optional(),
  statedDifference: positiveField(
    'temperatureDifference',
    'K',
    'difference to the room for which a standing loss is stated',
  ).optional(),
});

/** protocols/NAME.yaml: a test procedure as data. */
export const protocolSchema = z
  .strictObject({
    schema: schemaVersion,
    name: idField,
    title: textField,
    version: z.number().int().positive(),
    evaluates: z.enum(evaluations).default('efficiency').describe('what its runs are evaluated for'),
    fills: z
      .array(textField)
      .min(2)
      .optional()
      .describe(
        'fill levels that are tested in turn, smallest first; a choice with the role fill asks which',
      ),
    start: z
      .enum(['rest', 'warm'])
      .optional()
      .describe('rest: the body at room temperature; warm: its heat is a source'),
    headline: z.enum(definitions).optional().describe('the definition of efficiency that leads'),
    purpose: textField,
    limits: limitsSchema,
    cautions: z.array(textField).min(1),
    allowances: z.array(allowanceSchema).default([]),
    steps: z.array(stepSchema).min(1),
  })
  .superRefine(checkSteps)
  .superRefine((protocol, context) => {
    for (const [path, message] of needsUnmet(protocol))
      context.addIssue({ code: 'custom', path: [...path], message });
  })
  // What only an efficiency needs has no part in the others: values that limit nothing keep one type for all.
  .transform(({ limits, ...protocol }) => ({
    ...protocol,
    start: protocol.start ?? ('rest' as const),
    headline: protocol.headline ?? ('water' as const),
    limits: {
      ...limits,
      minimumRise: limits.minimumRise ?? 0,
      maximumEnd: limits.maximumEnd ?? Number.MAX_VALUE,
      maximumRestDifference: limits.maximumRestDifference ?? 0,
    },
  }));
export type Protocol = z.infer<typeof protocolSchema>;

function checkSteps(protocol: { readonly steps: readonly Step[] }, context: z.RefinementCtx): void {
  const seen = new Set<string>();
  const issue = (path: (string | number)[], message: string) =>
    context.addIssue({ code: 'custom', path: ['steps', ...path], message });
  protocol.steps.forEach((step, i) => {
    if (seen.has(step.id)) issue([i, 'id'], 'two steps carry this id');
    if (step.timerFrom !== undefined && !seen.has(step.timerFrom))
      issue([i, 'timerFrom'], 'no earlier step carries this id');
    seen.add(step.id);
  });
  if (protocol.steps[0]?.kind !== 'acknowledge')
    issue([0], 'the first step must have the cautions acknowledged');
}

/**
 * Reads the text of a protocol; errors name line and key.
 *
 * @example
 * parseProtocol('schema: 1\nname: mine\n', 'mine.yaml') // throws 'record-invalid'
 */
export function parseProtocol(text: string, file: string): Protocol {
  return parseRecord(text, protocolSchema, file);
}

/**
 * JSON Schema of a protocol as a person writes it, for editors.
 *
 * @example
 * (protocolJsonSchema() as { type: string }).type // => 'object'
 */
export function protocolJsonSchema(): unknown {
  return z.toJSONSchema(protocolSchema, { io: 'input', unrepresentable: 'any' });
}
