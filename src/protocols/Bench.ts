/** A question as it stands at the prompt. */
export interface Question {
  /** Id of the step, so that a file of answers finds the answer. */
  readonly step: string;
  /** How many answers this step has already; a repeated step is asked again and again. */
  readonly answered: number;
  readonly text: string;
  /** Unit that a bare number takes. */
  readonly unit?: string;
  /** Plausible range in that unit. */
  readonly range?: string;
  readonly options?: readonly string[];
  readonly default?: string;
  readonly optional: boolean;
  /** UTC time from which a timer runs while the question waits. */
  readonly timerFrom?: string;
  /** `time` where nothing but the moment counts: Enter says it is done. */
  readonly kind: 'text' | 'time' | 'yes-no';
}

/**
 * Where questions go and answers come from: a terminal, or a file of answers. The step machine knows no more of it.
 */
export interface Bench {
  /** Tells something; no answer is awaited. */
  say(text: string): void;
  /** Asks and returns what was typed, untrimmed. */
  ask(question: Question): Promise<string>;
  /** Says why an answer was not kept. A file of answers can't be asked again: it throws. */
  refuse(question: Question, typed: string, reason: string): void;
  /** Says that an answer is safe on disk. */
  kept(text: string): void;
  /** The moment of the answer just given. */
  now(): Date;
}
