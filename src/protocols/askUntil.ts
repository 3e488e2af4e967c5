import { HeatledgerError, problem } from '../errors/index.js';
import { type QuantityKind, formatQuantity, readingsOf } from '../units/index.js';
import type { Bench, Question } from './Bench.js';

/** A question outside the steps of a protocol. */
export interface FreeQuestion extends Omit<Question, 'answered' | 'optional'> {
  /** What `?` says. */
  readonly help?: string;
  /** Whether `back` leads to an earlier question, see `askInOrder`. */
  readonly mayGoBack?: boolean;
}

/** Thrown where `back` was typed; `askInOrder` catches it. */
class GoneBack extends Error {}

/**
 * Asks until `take` accepts; `take` returns what was meant, or `{ refused }` with the reason. `?` explains, `pause`
 * throws `stopped`: nothing is kept before a run has begun.
 *
 * @example
 * const typed = ['', '7', '3'];
 * const bench = { say() {}, kept() {}, refuse() {}, now: () => new Date(), ask: async () => typed.shift() };
 * const take = (text) => (Number(text) > 5 ? { refused: 'At most 5.' } : Number(text));
 * await askUntil(bench, { step: 'count', text: 'How many', default: '9', kind: 'text' }, take) // => 3
 */
export async function askUntil<T>(
  bench: Bench,
  question: FreeQuestion,
  take: (typed: string) => T | { refused: string },
): Promise<T> {
  const whole: Question = { answered: 0, optional: question.default !== undefined, ...question };
  for (;;) {
    const typed = (await bench.ask(whole)).trim();
    const word = typed.toLowerCase();
    if (word === 'pause') throw problem('stopped', {});
    if (word === 'back') {
      if (question.mayGoBack) throw new GoneBack();
      bench.say('There is nothing to go back to here.');
    } else if (word === '?') {
      bench.say(helpText(question));
    } else {
      const taken = take(typed === '' ? (question.default ?? '') : typed);
      if (!(typeof taken === 'object' && taken !== null && 'refused' in taken)) return taken;
      bench.refuse(whole, typed, taken.refused);
    }
  }
}

function helpText(question: FreeQuestion): string {
  const lines = question.help === undefined ? [] : [question.help];
  if (question.options) lines.push(`One of: ${question.options.join(', ')}.`);
  if (question.default !== undefined) lines.push(`Enter alone takes ${question.default}.`);
  if (question.mayGoBack) lines.push('back goes one question back.');
  return lines.length > 0 ? lines.join('\n') : 'An answer is needed here.';
}

/**
 * Asks for one quantity, in SI, within a range in SI. A number that can be read two ways is refused with both readings
 * shown.
 *
 * @example
 * const typed = ['1,484', '200 kg', '3 lb'];
 * const bench = { say() {}, kept() {}, refuse() {}, now: () => new Date(), ask: async () => typed.shift() };
 * await askQuantity(bench, { step: 'water', text: 'How much water', default: '1.5 kg' }, 'mass', 'kg', [0.05, 100])
 * // => 1.3607771
 */
export function askQuantity(
  bench: Bench,
  question: Omit<FreeQuestion, 'kind' | 'unit'> & { readonly default: string },
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
      if (first.si >= range[0] && first.si <= range[1]) return first.si;
      const [low, high] = range.map((si) => formatQuantity(si, kind, unit));
      return { refused: `${typed} can't be right: ${low} to ${high} is expected. Check number and unit.` };
    } catch (error) {
      if (error instanceof HeatledgerError) return { refused: error.message };
      throw error;
    }
  });
}

/** Asks one question after the other; `back` at one of them leads to the one before. */
export async function askInOrder(
  questions: readonly ((mayGoBack: boolean) => Promise<void>)[],
): Promise<void> {
  for (let i = 0; i < questions.length; ) {
    try {
      await questions[i]?.(i > 0);
      i++;
    } catch (error) {
      if (!(error instanceof GoneBack)) throw error;
      i--;
    }
  }
}
