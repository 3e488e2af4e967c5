import { HeatledgerError, problem } from '../errors/index.js';
import { assumedInstruments } from '../instruments/index.js';
import { type QuantityKind, readingsOf } from '../units/index.js';
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
import type { Bench, Question } from './Bench.js';

/** What the first sitting finds out before the first reading. */
export interface FirstSitting {
  readonly workbook: Workbook;
  readonly heater: string;
  readonly setting: string;
  readonly waterKg: number;
}

/** Asks until `take` accepts; `take` returns null and says why, or what was meant. */
export async function askUntil<T>(
  bench: Bench,
  question: Omit<Question, 'answered' | 'optional'>,
  take: (typed: string) => T | { refused: string },
): Promise<T> {
  const whole: Question = { answered: 0, optional: question.default !== undefined, ...question };
  for (;;) {
    const typed = (await bench.ask(whole)).trim();
    if (typed.toLowerCase() === 'pause') throw problem('stopped', {});
    if (typed === '?') {
      bench.say(
        question.default === undefined ? 'This one is needed.' : `Press Enter for ${question.default}.`,
      );
      continue;
    }
    const answer = typed === '' ? (question.default ?? '') : typed;
    const taken = take(answer);
    if (typeof taken === 'object' && taken !== null && 'refused' in taken)
      bench.refuse(whole, typed, taken.refused);
    else return taken;
  }
}

/** Asks for one quantity; a number that can be read two ways is refused with both readings shown. */
export function askQuantity(
  bench: Bench,
  question: { readonly step: string; readonly text: string; readonly default: string },
  kind: QuantityKind,
  unit: string,
  range: readonly [number, number],
): Promise<number> {
  return askUntil(bench, { ...question, unit, kind: 'text' }, (typed) => {
    try {
      const readings = readingsOf(typed, { kind, unit });
      const first = readings[0];
      if (first === undefined || readings.length > 1) {
        const both = readings.map((each) => `${each.value} ${each.unit}`).join(' or ');
        return { refused: `This can be read as ${both}. Type it without the comma.` };
      }
      if (first.si < range[0] || first.si > range[1])
        return { refused: `${typed} can't be right here. Check number and unit.` };
      return first.si;
    } catch (error) {
      if (error instanceof HeatledgerError) return { refused: error.message };
      throw error;
    }
  });
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
function askName(bench: Bench, step: string, text: string, fallback: string): Promise<string> {
  return askUntil(bench, { step, text, default: fallback, kind: 'text' }, (typed) =>
    /[\p{L}\p{N}]/u.test(typed) && typed.length <= 80 ? typed : { refused: 'A short name, please.' },
  );
}

function askMaterial(bench: Bench): Promise<string> {
  const question = {
    step: 'material',
    text: 'What is the pot made of',
    options: MATERIALS,
    default: 'steel',
    kind: 'text' as const,
  };
  return askUntil(bench, question, (typed) => {
    const wanted = typed.toLowerCase().replace('aluminum', 'aluminium');
    const found =
      MATERIALS.find((each) => each === wanted) ?? MATERIALS.find((each) => each.startsWith(wanted));
    return found ?? { refused: `Choose one of: ${MATERIALS.join(', ')}.` };
  });
}

/**
 * Everything that must be known before the first reading of somebody who has a plug-in meter, a kitchen scale and a
 * probe thermometer: six short questions, each with a default. The instruments are generic ones with wide limits,
 * marked as assumed. Nothing is written before the last question is answered.
 */
export async function firstSitting(dir: string, bench: Bench, zone: string): Promise<FirstSitting> {
  if (isWorkbook(dir)) throw problem('workbook-exists', { dir }, { file: dir });
  const name = await askName(bench, 'heater', 'What heater is it', 'heater');
  const setting = await askName(bench, 'setting', 'On which setting', 'full');
  const waterKg = await askQuantity(
    bench,
    { step: 'water', text: 'How much water', default: '1.5 kg' },
    'mass',
    'kg',
    [0.05, 100],
  );
  const material = await askMaterial(bench);
  const step = await askQuantity(
    bench,
    { step: 'meterStep', text: "Smallest step of the meter's kWh display", default: '0.01 kWh' },
    'energy',
    'kWh',
    [3.6, 3.6e6],
  );
  const altitude = await askQuantity(
    bench,
    { step: 'altitude', text: 'How high above the sea', default: '200 m' },
    'length',
    'm',
    [-430, 6000],
  );
  const heater = idFrom(name);
  createWorkbook(dir, {
    schema: 1,
    name: 'heat bench',
    zone,
    altitude: `${Number(altitude.toPrecision(6))} m`,
    hands: [{ id: 'me', name: 'me' }],
    units: 'si',
  });
  for (const raw of Object.values(
    assumedInstruments({ energy: `${Number((step / 3.6e6).toPrecision(6))} kWh` }),
  )) {
    saveInstrument(dir, raw as RawRecord);
  }
  saveHeater(dir, {
    schema: 1,
    id: heater,
    name,
    vessel: { material },
    settings: [{ id: idFrom(setting), name: setting, control: 'unknown' }],
  });
  return { workbook: openWorkbook(dir), heater, setting: idFrom(setting), waterKg };
}

/** The same for one more heater in a workbook that is there. */
export async function oneMoreHeater(
  workbook: Workbook,
  bench: Bench,
): Promise<{ heater: string; setting: string }> {
  const name = await askUntil(bench, { step: 'heater', text: 'What heater is it', kind: 'text' }, (typed) => {
    if (!/[\p{L}\p{N}]/u.test(typed) || typed.length > 80) return { refused: 'A short name, please.' };
    return workbook.heaters.has(idFrom(typed))
      ? { refused: `There is a heater ${idFrom(typed)} already.` }
      : typed;
  });
  const setting = await askName(bench, 'setting', 'On which setting', 'full');
  const material = await askMaterial(bench);
  saveHeater(workbook.dir, {
    schema: 1,
    id: idFrom(name),
    name,
    vessel: { material },
    settings: [{ id: idFrom(setting), name: setting, control: 'unknown' }],
  });
  return { heater: idFrom(name), setting: idFrom(setting) };
}
