import { HeatledgerError } from '../errors/index.js';
import { type TypedQuantity, formatQuantity, readingsOf } from '../units/index.js';
import type { RunRecord } from '../workbook/index.js';
import { contradiction } from './contradiction.js';
import type { Protocol, ReadingStep, Step } from './schema.js';

/** What becomes of an answer: kept, asked about because it could be read two ways, or refused with the reason. */
export type Judgement =
  | { readonly verdict: 'quantity'; readonly quantity: TypedQuantity }
  | { readonly verdict: 'text'; readonly text: string }
  | { readonly verdict: 'done' }
  | { readonly verdict: 'skip' }
  | { readonly verdict: 'which'; readonly readings: readonly TypedQuantity[] }
  | { readonly verdict: 'refused'; readonly reason: string };

const yes = /^(y|yes|ok|done)$/i;
const no = /^(n|no)$/i;

/** Judges what was typed at a step; changes nothing. `unit` is the unit shown at the prompt. */
export function judge(
  protocol: Protocol,
  step: Step,
  typed: string,
  run: RunRecord,
  unit: string,
): Judgement {
  const text = typed.trim();
  switch (step.kind) {
    case 'acknowledge':
    case 'mark':
      if (text === '' || yes.test(text)) return { verdict: 'done' };
      return { verdict: 'refused', reason: 'Press Enter when it is done.' };
    case 'confirm':
      if (text === '' || yes.test(text)) return { verdict: 'done' };
      if (no.test(text)) return { verdict: 'refused', reason: step.refusal };
      return { verdict: 'refused', reason: 'Answer yes or no.' };
    case 'choice':
      return judgeChoice(step, text);
    case 'reading':
      return judgeReading(protocol, step, text, run, unit);
    case 'attach':
      return text === '' ? emptyAnswer(step) : { verdict: 'text', text };
    case 'note':
      return text === '' ? emptyAnswer(step) : { verdict: 'text', text };
  }
}

function emptyAnswer(step: Step): Judgement {
  if (step.optional) return { verdict: 'skip' };
  return { verdict: 'refused', reason: 'An answer is needed here.' };
}

function judgeChoice(step: Extract<Step, { kind: 'choice' }>, text: string): Judgement {
  const wanted = (text === '' ? (step.default ?? '') : text).toLowerCase();
  if (wanted === '') return emptyAnswer(step);
  const exact = step.options.find((option) => option.toLowerCase() === wanted);
  const starting = step.options.filter((option) => option.toLowerCase().startsWith(wanted));
  const chosen = exact ?? (starting.length === 1 ? starting[0] : undefined);
  if (chosen !== undefined) return { verdict: 'text', text: chosen };
  return { verdict: 'refused', reason: `Choose one of: ${step.options.join(', ')}.` };
}

function judgeReading(
  protocol: Protocol,
  step: ReadingStep,
  typed: string,
  run: RunRecord,
  unit: string,
): Judgement {
  const text = typed === '' && step.default !== undefined ? step.default : typed;
  if (text === '') return emptyAnswer(step);
  let readings: TypedQuantity[];
  try {
    readings = readingsOf(text, { kind: step.quantity, unit });
  } catch (error) {
    if (!(error instanceof HeatledgerError)) throw error;
    return { verdict: 'refused', reason: error.hint ? `${error.message} ${error.hint}` : error.message };
  }
  const judged = readings.map((quantity) => ({
    quantity,
    reason: whyNot(protocol, step, quantity, run, unit),
  }));
  const possible = judged.filter((each) => each.reason === null);
  // Two ways to read it, and only one of them plausible, is still asked about: the other is a thousand times off.
  if (readings.length > 1 && possible.length > 0) return { verdict: 'which', readings };
  const first = judged[0] as (typeof judged)[number];
  return first.reason === null
    ? { verdict: 'quantity', quantity: first.quantity }
    : { verdict: 'refused', reason: first.reason };
}

/** Why a quantity can't be kept at this step, or null. */
export function whyNot(
  protocol: Protocol,
  step: ReadingStep,
  quantity: TypedQuantity,
  run: RunRecord,
  unit: string,
): string | null {
  if (quantity.si < step.lowestSi || quantity.si > step.highestSi) {
    const got = formatQuantity(quantity.si, step.quantity, quantity.unit);
    return `${got} is outside the plausible range of ${rangeText(step, unit)}. Check number and unit.`;
  }
  return contradiction(protocol, step, quantity.si, run);
}

/** "0 to 60 °C", in the unit of the prompt. */
export function rangeText(step: ReadingStep, unit: string): string {
  const low = formatQuantity(step.lowestSi, step.quantity, unit);
  const high = formatQuantity(step.highestSi, step.quantity, unit);
  const shared = ` ${unit}`;
  return low.endsWith(shared) ? `${low.slice(0, -shared.length)} to ${high}` : `${low} to ${high}`;
}
