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

/** What a reading is to the model; a protocol may name its steps as it likes, the roles are ours. */
export const readingRoles = [
  'emptyMass',
  'fullMass',
  'finalMass',
  'startTemperature',
  'interimTemperature',
  'endTemperature',
  'ambientTemperature',
  'bodyTemperature',
  'pressure',
  'energyBefore',
  'energyAfter',
] as const;
export type ReadingRole = (typeof readingRoles)[number];

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
    role: z.literal('lid').optional(),
  }),
  readingStep,
  z.strictObject({
    ...common,
    kind: z.literal('mark'),
    role: z.enum(['startLog', 'switchOn', 'switchOff']).optional(),
  }),
  z.strictObject({ ...common, kind: z.literal('attach'), role: z.enum(['powerLog', 'temperatureLog']) }),
  z.strictObject({ ...common, kind: z.literal('note') }),
]);
export type Step = z.infer<typeof stepSchema>;
export type ReadingStep = Extract<Step, { kind: 'reading' }>;

/** What an allowance acts on: a reading by its role, or a term of the model. */
export const allowanceTargets = [...readingRoles, 'energy', 'enthalpyRise', 'wettedShare'] as const;

const temperatureRoles: readonly string[] = readingRoles.filter((role) => role.endsWith('Temperature'));

const allowanceSchema = z
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

export const definitions = ['water', 'water+vessel', 'water+vapour'] as const;
export type Definition = (typeof definitions)[number];

const neededRoles = ['emptyMass', 'fullMass', 'startTemperature', 'endTemperature', 'energyAfter'] as const;

/** protocols/NAME.yaml: a test procedure as data. */
export const protocolSchema = z
  .strictObject({
    schema: schemaVersion,
    name: idField,
    title: textField,
    version: z.number().int().positive(),
    start: z
      .enum(['rest', 'warm'])
      .describe('rest: the body at room temperature; warm: its heat is a source'),
    headline: z.enum(definitions).describe('the definition of efficiency that leads'),
    purpose: textField,
    limits: z.strictObject({
      minimumRise: positiveField('temperatureDifference', 'K', 'least rise'),
      maximumEnd: quantityField('temperature', '°C', 'highest end'),
      minimumRuns: z.number().int().min(1),
      maximumRestDifference: positiveField(
        'temperatureDifference',
        'K',
        'difference of body and room at the start',
      ),
    }),
    cautions: z.array(textField).min(1),
    allowances: z.array(allowanceSchema).default([]),
    steps: z.array(stepSchema).min(1),
  })
  .superRefine((protocol, context) => {
    const seen = new Set<string>();
    protocol.steps.forEach((step, i) => {
      if (seen.has(step.id)) {
        context.addIssue({ code: 'custom', path: ['steps', i, 'id'], message: 'two steps carry this id' });
      }
      if (step.timerFrom !== undefined && !seen.has(step.timerFrom)) {
        context.addIssue({
          code: 'custom',
          path: ['steps', i, 'timerFrom'],
          message: 'no earlier step carries this id',
        });
      }
      seen.add(step.id);
    });
    const roles = protocol.steps.map((step) => ('role' in step ? step.role : undefined));
    const needed =
      protocol.start === 'warm'
        ? [...neededRoles, 'bodyTemperature' as const, 'ambientTemperature' as const]
        : neededRoles;
    for (const role of needed) {
      const count = roles.filter((each) => each === role).length;
      if (count !== 1) {
        context.addIssue({
          code: 'custom',
          path: ['steps'],
          message: `exactly one step must have the role ${role}, ${count === 0 ? 'none has' : `${count} have`}`,
        });
      }
    }
    if (protocol.steps[0]?.kind !== 'acknowledge') {
      context.addIssue({
        code: 'custom',
        path: ['steps', 0],
        message: 'the first step must have the cautions acknowledged',
      });
    }
  });
export type Protocol = z.infer<typeof protocolSchema>;

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
