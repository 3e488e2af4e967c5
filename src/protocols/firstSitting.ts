import { problem } from '../errors/index.js';
import { assumedInstruments } from '../instruments/index.js';
import type { QuantityKind } from '../units/index.js';
import {
  type RawRecord,
  type Workbook,
  createWorkbook,
  idFrom,
  isWorkbook,
  openWorkbook,
  saveHeater,
  saveInstrument,
} from '../workbook/index.js';
import { askInOrder, askQuantity, askUntil } from './askUntil.js';
import type { Bench } from './Bench.js';
import { protocolJsonSchema } from './schema.js';

/** What the first sitting finds out before the first reading. */
export interface FirstSitting {
  readonly workbook: Workbook;
  readonly heater: string;
  readonly setting: string;
  readonly waterKg: number;
}

const MATERIALS = [
  'steel',
  'aluminium',
  'copper',
  'cast iron',
  'enamel',
  'glass',
  'ceramic',
  'plastic',
] as const;

/** Asks for a name that has at least one letter or digit. */
function askName(
  bench: Bench,
  step: string,
  text: string,
  fallback: string,
  help: string,
  mayGoBack: boolean,
): Promise<string> {
  const question = { step, text, default: fallback, help, mayGoBack, kind: 'text' as const };
  return askUntil(bench, question, (typed) => (isName(typed) ? typed : { refused: NO_NAME }));
}

const NO_NAME = 'A short name is expected, with at least one letter or digit.';
const isName = (typed: string) => /[\p{L}\p{N}]/u.test(typed) && typed.length <= 80;

function askSetting(bench: Bench, mayGoBack: boolean): Promise<string> {
  const help =
    'What its knob or button says, such as full, 3 or gentle. Each setting gets an answer of its own.';
  return askName(bench, 'setting', 'On which setting', 'full', help, mayGoBack);
}

function askMaterial(bench: Bench, mayGoBack: boolean): Promise<string> {
  const question = {
    step: 'material',
    text: 'What is the pot made of',
    options: MATERIALS,
    default: 'steel',
    help: 'The pot warms with the water and takes some of the heat.',
    mayGoBack,
    kind: 'text' as const,
  };
  return askUntil(bench, question, (typed) => {
    const wanted = typed.toLowerCase().replace('aluminum', 'aluminium');
    const starting = MATERIALS.filter((each) => each.startsWith(wanted));
    const found =
      MATERIALS.find((each) => each === wanted) ?? (starting.length === 1 ? starting[0] : undefined);
    return found ?? { refused: `Choose one of: ${MATERIALS.join(', ')}.` };
  });
}

/** What the six questions find out; each default is a common kitchen. */
async function askKitchen(bench: Bench) {
  const found = { name: '', setting: '', waterKg: 0, material: '', stepJ: 0, altitudeM: 0 };
  const quantity = (
    question: {
      readonly step: string;
      readonly text: string;
      readonly default: string;
      readonly help: string;
    },
    kind: QuantityKind,
    unit: string,
    range: readonly [number, number],
    mayGoBack: boolean,
  ) => askQuantity(bench, { ...question, mayGoBack }, kind, unit, range);
  await askInOrder([
    async (mayGoBack) => {
      const help = 'Any name you like; it stands in the result and in the names of the files.';
      found.name = await askName(bench, 'heater', 'What heater is it', 'heater', help, mayGoBack);
    },
    async (mayGoBack) => {
      found.setting = await askSetting(bench, mayGoBack);
    },
    async (mayGoBack) => {
      const help =
        'About as much as you will heat in earnest; it is weighed later. More makes the answer surer.';
      const question = { step: 'water', text: 'How much water', default: '1.5 kg', help };
      found.waterKg = await quantity(question, 'mass', 'kg', [0.05, 100], mayGoBack);
    },
    async (mayGoBack) => {
      found.material = await askMaterial(bench, mayGoBack);
    },
    async (mayGoBack) => {
      const help = 'If it shows 0.12 kWh the step is 0.01 kWh, if it shows 0.123 kWh the step is 0.001 kWh.';
      const text = "Smallest step of the meter's kWh display";
      const question = { step: 'meterStep', text, default: '0.01 kWh', help };
      found.stepJ = await quantity(question, 'energy', 'kWh', [3.6, 3.6e6], mayGoBack);
    },
    async (mayGoBack) => {
      const help =
        'Water boils a little earlier up high. A guess is enough: a hundred metres change next to nothing.';
      const question = { step: 'altitude', text: 'How high above the sea', default: '200 m', help };
      found.altitudeM = await quantity(question, 'length', 'm', [-430, 6000], mayGoBack);
    },
  ]);
  return found;
}

/**
 * Everything that must be known before the first reading of somebody who has a plug-in meter, a kitchen scale and a
 * probe thermometer: six short questions, each with a default. The instruments are generic ones with wide limits,
 * marked as assumed. Nothing is written before the last question is answered.
 * Errors: `workbook-exists`; `stopped` where `pause` was typed.
 *
 * @example
 * const bench = { say() {}, kept() {}, refuse() {}, now: () => new Date(), ask: async () => '' };
 * const first = await firstSitting(emptyFolder(), bench, 'Europe/Vienna');
 * [first.heater, first.setting, first.waterKg] // => ['heater', 'full', 1.5]
 * first.workbook.instruments.get('meter').assumed // => true
 */
export async function firstSitting(dir: string, bench: Bench, zone: string): Promise<FirstSitting> {
  if (isWorkbook(dir)) throw problem('workbook-exists', { dir }, { file: dir });
  const found = await askKitchen(bench);
  createWorkbook(
    dir,
    {
      schema: 1,
      name: 'heat bench',
      zone,
      altitude: `${Number(found.altitudeM.toPrecision(6))} m`,
      hands: [{ id: 'me', name: 'me' }],
      units: 'si',
    },
    { protocol: protocolJsonSchema() },
  );
  const energy = `${Number((found.stepJ / 3.6e6).toPrecision(6))} kWh`;
  for (const raw of Object.values(assumedInstruments({ energy }))) saveInstrument(dir, raw as RawRecord);
  const kept = keepHeater(dir, found.name, found.setting, found.material);
  return { workbook: openWorkbook(dir), ...kept, waterKg: found.waterKg };
}

function keepHeater(dir: string, name: string, setting: string, material: string) {
  const [heater, settingId] = [idFrom(name), idFrom(setting)];
  saveHeater(dir, {
    schema: 1,
    id: heater,
    name,
    vessel: { material },
    settings: [{ id: settingId, name: setting, control: 'unknown' }],
  });
  return { heater, setting: settingId };
}

/**
 * The same for one more heater in a workbook that is there: name, setting and pot. Errors: `stopped`.
 *
 * @example
 * const typed = [...Array(6).fill(''), 'Vat warmer', 'gentle', 'copper'];
 * const bench = { say() {}, kept() {}, refuse() {}, now: () => new Date(), ask: async () => typed.shift() };
 * const { workbook } = await firstSitting(emptyFolder(), bench, 'Europe/Vienna');
 * await oneMoreHeater(workbook, bench) // => { heater: 'vat-warmer', setting: 'gentle' }
 */
export async function oneMoreHeater(
  workbook: Workbook,
  bench: Bench,
): Promise<{ heater: string; setting: string }> {
  let [name, setting, material] = ['', '', ''];
  await askInOrder([
    async (mayGoBack) => {
      const help = 'Any name you like; it stands in the result and in the names of the files.';
      const question = { step: 'heater', text: 'What heater is it', help, mayGoBack, kind: 'text' as const };
      name = await askUntil(bench, question, (typed) => {
        if (!isName(typed)) return { refused: NO_NAME };
        const there = workbook.heaters.has(idFrom(typed));
        return there ? { refused: `There is a heater ${idFrom(typed)} already.` } : typed;
      });
    },
    async (mayGoBack) => {
      setting = await askSetting(bench, mayGoBack);
    },
    async (mayGoBack) => {
      material = await askMaterial(bench, mayGoBack);
    },
  ]);
  return keepHeater(workbook.dir, name, setting, material);
}
