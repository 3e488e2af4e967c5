import { dirname } from 'node:path';
import { z } from 'zod';
import { problem } from '../errors/index.js';
import {
  idField,
  instrumentKinds,
  parseRecordWithLines,
  readText,
  schemaVersion,
} from '../workbook/index.js';
import type { Bench, Question } from './Bench.js';

const answersSchema = z.strictObject({
  schema: schemaVersion,
  run: idField.optional(),
  protocol: idField.optional(),
  heater: idField,
  setting: idField,
  hand: idField.optional(),
  instruments: z.partialRecord(z.enum(instrumentKinds), idField).optional(),
  answers: z
    .array(
      z.strictObject({
        step: z.string(),
        value: z.union([z.string(), z.number(), z.boolean()]).transform((value) => {
          // A plain yes of YAML comes as true.
          if (value === true) return 'yes';
          return value === false ? 'no' : String(value);
        }),
        at: z.iso.datetime({ offset: true }).optional(),
      }),
    )
    .min(1),
});

/** A file of answers, one for each step, in place of a terminal. */
export interface Answers extends z.infer<typeof answersSchema> {
  readonly file: string;
  /** Folder from which the paths of exports in it are taken. */
  readonly base: string;
  readonly lineOf: (index: number) => number | undefined;
}

/**
 * Reads a file of answers; errors name line and key.
 *
 * @example
 * readAnswers('/nowhere/answers.yaml') // throws 'file-missing'
 */
export function readAnswers(file: string): Answers {
  const { record, lineOf } = parseRecordWithLines(readText(file), answersSchema, file);
  return { ...record, file, base: dirname(file), lineOf: (index) => lineOf(['answers', index]) };
}

/** A bench that takes its answers from a file. An answer that is refused is an error that names its line. */
export class AnswersBench implements Bench {
  private current: Date;
  private lastIndex = -1;
  private readonly used = new Set<number>();

  constructor(
    private readonly answers: Answers,
    private readonly print: (text: string) => void,
    private readonly clock: () => Date = () => new Date(),
  ) {
    const first = answers.answers.find((answer) => answer.at !== undefined)?.at;
    this.current = first === undefined ? clock() : new Date(first);
  }

  say(text: string): void {
    this.print(text);
  }

  kept(): void {}

  now(): Date {
    return this.current;
  }

  /** The answer of a step by its place among those of that step, so that a resumed run goes on at the right one. */
  ask(question: Question): Promise<string> {
    const matching = this.answers.answers
      .map((answer, index) => ({ ...answer, index }))
      .filter((answer) => answer.step === question.step);
    const answer = matching[question.answered];
    if (answer === undefined) {
      const last = this.answers.answers[this.lastIndex];
      // A question about the answer just given: its line is what is to be mended.
      if (question.step.includes(':') && last !== undefined) {
        const reason = `${question.text.replace(/\. Which one$/, '')}: write it so that only one is possible.`;
        this.refuse({ ...question, step: last.step }, last.value, reason);
      }
      if (question.optional || question.default !== undefined) return Promise.resolve('');
      throw problem(
        'answer-missing',
        { step: question.step, ask: question.text },
        { file: this.answers.file, key: 'answers' },
      );
    }
    this.lastIndex = answer.index;
    this.used.add(answer.index);
    this.current = answer.at === undefined ? this.clock() : new Date(answer.at);
    // They ask for the same question once more, which a file would answer in the same way for ever.
    if (/^\s*(\?|back)\s*$/i.test(answer.value))
      this.refuse(
        question,
        answer.value,
        'This word is for the terminal; a file holds the right answer itself.',
      );
    return Promise.resolve(answer.value);
  }

  /** Refuses answers that no question took: a step answered twice, or one that is not asked. Empty ones do no harm. */
  refuseUnused(): void {
    this.answers.answers.forEach((answer, index) => {
      if (this.used.has(index) || answer.value.trim() === '') return;
      const line = this.answers.lineOf(index);
      throw problem(
        'answer-unused',
        { step: answer.step },
        { file: this.answers.file, ...(line === undefined ? {} : { line }) },
      );
    });
  }

  refuse(question: Question, typed: string, reason: string): never {
    const line = this.answers.lineOf(this.lastIndex);
    // "Type back to mend that one" helps at a terminal only.
    const here = reason.replace(/ [^.]*\btype back\b[^.]*\./i, '');
    throw problem(
      'answer-refused',
      { step: question.step, got: typed, reason: here },
      { file: this.answers.file, ...(line !== undefined ? { line } : {}) },
    );
  }
}

/**
 * Names of steps that no step of the protocol answers to: most likely a slip.
 *
 * @example
 * const answers = { answers: [{ step: 'lid' }, { step: 'lidd' }], lineOf: (index) => 5 + index };
 * strayAnswers(answers, ['lid', 'fullWeight']) // => [{ step: 'lidd', line: 6 }]
 */
export function strayAnswers(
  answers: Answers,
  steps: readonly string[],
): { step: string; line: number | undefined }[] {
  return answers.answers
    .map((answer, index) => ({ step: answer.step, line: answers.lineOf(index) }))
    .filter((answer) => !steps.includes(answer.step.split(':')[0] as string));
}
