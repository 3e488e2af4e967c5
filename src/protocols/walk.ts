import { HeatledgerError } from '../errors/index.js';
import { type Log, describeLog } from '../logs/index.js';
import {
  type QuantityKind,
  type TypedQuantity,
  displayUnit,
  formatQuantity,
  toUnit,
} from '../units/index.js';
import type { NewEntry, RunRecord } from '../workbook/index.js';
import { type LogRole, attachEntry, readBytes, readyExport } from './attach.js';
import type { Bench, Question } from './Bench.js';
import { judge, rangeText } from './judge.js';
import { nextStep, stepBefore } from './machine.js';
import type { Protocol, Step } from './schema.js';

/** Who keeps the answers: the writer of a run, or a stand-in that keeps them in memory only. */
export interface Keeper {
  readonly run: RunRecord;
  append(entry: NewEntry): RunRecord;
  storeExport(name: string, bytes: Uint8Array): { readonly file: string; readonly sha256: string };
}

export interface WalkOptions {
  readonly protocol: Protocol;
  readonly keeper: Keeper;
  readonly bench: Bench;
  readonly hand: string;
  readonly zone: string;
  readonly units: 'si' | 'us';
  /** Folder from which paths of exports are taken. */
  readonly base: string;
  /** Called before a step is asked, for what the caller has to say at that place. */
  readonly beforeStep?: (step: Step, run: RunRecord) => void;
  /** What is to be said of a log that has just been kept, such as how its energy compares with the counter. */
  readonly aboutLog?: (role: LogRole, log: Log, run: RunRecord) => readonly string[];
}

/**
 * Walks a protocol from where the run stands to its end, or until it is paused. Every answer is on disk before it
 * is called kept. Returns `ended` or `paused`.
 */
export async function walk(options: WalkOptions): Promise<'ended' | 'paused'> {
  const { protocol, keeper } = options;
  for (let step = nextStep(protocol, keeper.run); step !== null; ) {
    options.beforeStep?.(step, keeper.run);
    const outcome = await ask(options, step);
    if (outcome === 'pause') return 'paused';
    step = outcome === 'next' ? nextStep(protocol, keeper.run) : outcome;
  }
  if (!keeper.run.ended) keeper.append({ event: 'end', ...stamp(options) });
  return 'ended';
}

function stamp(options: WalkOptions): { at: string; zone: string; hand: string } {
  return { at: options.bench.now().toISOString(), zone: options.zone, hand: options.hand };
}

/** Unit at the prompt: that of the protocol, or its counterpart for readers of US units. */
export function promptUnit(step: Step, units: 'si' | 'us'): string {
  if (step.kind !== 'reading') return '';
  return units === 'us' ? displayUnit(step.quantity, 'us') : step.unit;
}

function questionOf(options: WalkOptions, step: Step): Question {
  const run = options.keeper.run;
  const unit = promptUnit(step, options.units);
  const timerFrom = step.timerFrom === undefined ? undefined : run.marks[step.timerFrom];
  return {
    step: step.id,
    answered: run.readings.filter((reading) => reading.step === step.id).length,
    text: step.ask,
    optional: step.optional,
    kind:
      step.kind === 'mark' || step.kind === 'acknowledge'
        ? 'time'
        : step.kind === 'confirm'
          ? 'yes-no'
          : 'text',
    ...(step.kind === 'reading' ? { unit, range: rangeText(step, unit) } : {}),
    ...(step.kind === 'choice' ? { options: step.options } : {}),
    ...('default' in step && step.default !== undefined ? { default: step.default } : {}),
    ...(timerFrom !== undefined ? { timerFrom } : {}),
  };
}

/** Asks one step until its answer is kept; says what comes then. */
async function ask(options: WalkOptions, step: Step): Promise<'next' | 'pause' | Step> {
  const { bench, protocol, keeper } = options;
  if (step.kind === 'acknowledge') for (const caution of protocol.cautions) bench.say(`  - ${caution}`);
  const question = questionOf(options, step);
  for (;;) {
    const typed = await bench.ask(question);
    const word = typed.trim().toLowerCase();
    if (word === '?') {
      bench.say(helpText(step, question));
    } else if (word === 'pause') {
      keeper.append({ event: 'pause', ...stamp(options) });
      return 'pause';
    } else if (word === 'back') {
      const before = stepBefore(protocol, keeper.run, step);
      if (before === null) bench.say('This is the first step.');
      else {
        keeper.append({ event: 'back', step: before.id, ...stamp(options) });
        bench.say('Going back one step. What was kept stays legible in the records.');
        return before;
      }
    } else if (await take(options, step, question, typed)) {
      return 'next';
    }
  }
}

function helpText(step: Step, question: Question): string {
  const lines = [step.help?.trim() ?? step.ask];
  if (question.unit !== undefined) {
    lines.push(
      `A bare number is in ${question.unit}; other units may be typed, and sums such as 2104+2098 ${question.unit}.`,
    );
  }
  lines.push('back: one step back. pause: stop here and go on later with heatledger test --resume.');
  return lines.join('\n');
}

/** Judges an answer and keeps it; true when the step is done with. */
async function take(options: WalkOptions, step: Step, question: Question, typed: string): Promise<boolean> {
  const { bench, protocol, keeper } = options;
  const judgement = judge(protocol, step, typed, keeper.run, question.unit ?? '');
  switch (judgement.verdict) {
    case 'refused':
      bench.refuse(question, typed, judgement.reason);
      return false;
    case 'skip':
      keeper.append({ event: 'skip', step: step.id, ...stamp(options) });
      return true;
    case 'done':
      return keepDone(options, step);
    case 'text':
      return keepText(options, step, question, judgement.text);
    case 'which': {
      const chosen = await which(options, question, typed, judgement.readings);
      if (chosen === null) return false;
      // Judged again under its plain reading: one of the two may be out of range.
      const again = judge(protocol, step, `${chosen.value} ${chosen.unit}`, keeper.run, question.unit ?? '');
      if (again.verdict !== 'quantity') {
        bench.refuse(question, typed, again.verdict === 'refused' ? again.reason : 'Type it in another way.');
        return false;
      }
      return keepQuantity(options, step, { ...chosen, typed: typed.trim() });
    }
    case 'quantity':
      return keepQuantity(options, step, judgement.quantity);
  }
}

async function which(
  options: WalkOptions,
  question: Question,
  typed: string,
  readings: readonly TypedQuantity[],
): Promise<TypedQuantity | null> {
  const { bench } = options;
  const shown = readings.map((each) => `${each.value} ${each.unit}`);
  const answer = await bench.ask({
    step: `${question.step}:which`,
    answered: 0,
    text: `${typed.trim()} can be read as ${shown.map((each, i) => `${i + 1}) ${each}`).join(' or ')}. Which one`,
    options: readings.map((_, i) => String(i + 1)),
    optional: false,
    kind: 'text',
  });
  const chosen = readings[Number(answer.trim()) - 1];
  if (chosen === undefined) bench.refuse(question, typed, 'Then type it again in another way.');
  return chosen ?? null;
}

function keepDone(options: WalkOptions, step: Step): boolean {
  const event = step.kind === 'acknowledge' || step.kind === 'confirm' ? step.kind : 'mark';
  options.keeper.append({ event, step: step.id, ...stamp(options) });
  if (event === 'mark') options.bench.kept(`kept ${clockText(options.bench.now(), options.zone)}`);
  return true;
}

/** Time of day where the bench stands. */
function clockText(at: Date, zone: string): string {
  return new Intl.DateTimeFormat('en-GB', { timeZone: zone, timeStyle: 'medium' }).format(at);
}

function keepText(options: WalkOptions, step: Step, question: Question, text: string): boolean {
  const { bench, keeper } = options;
  if (step.kind === 'attach') return keepExport(options, step, question, text);
  const entry: NewEntry =
    step.kind === 'choice'
      ? { event: 'choice', step: step.id, value: text, ...stamp(options) }
      : { event: 'note', step: step.id, text, ...stamp(options) };
  keeper.append(entry);
  bench.kept(`kept ${text}`);
  return true;
}

function keepExport(
  options: WalkOptions,
  step: Extract<Step, { kind: 'attach' }>,
  question: Question,
  path: string,
): boolean {
  const { bench, keeper, protocol } = options;
  try {
    const bytes = readBytes(path, options.base);
    const ready = readyExport(bytes, path, keeper.run, protocol, options.zone, { role: step.role });
    const stored = keeper.storeExport(ready.name, bytes);
    keeper.append(attachEntry(ready, stored, { ...stamp(options), step: step.id }));
    for (const line of describeLog(ready.log)) bench.say(`  ${line}`);
    bench.kept(`kept ${ready.name}, ${bytes.length} bytes`);
    for (const line of options.aboutLog?.(ready.role, ready.log, keeper.run) ?? []) bench.say(`  ${line}`);
    return true;
  } catch (error) {
    if (!(error instanceof HeatledgerError)) throw error;
    bench.refuse(question, path, error.toText());
    return false;
  }
}

function keepQuantity(options: WalkOptions, step: Step, quantity: TypedQuantity): boolean {
  if (step.kind !== 'reading') return false;
  const instrument = options.keeper.run.instruments[step.instrument];
  options.keeper.append({
    event: 'reading',
    step: step.id,
    ...stamp(options),
    typed: quantity.typed,
    kind: quantity.kind,
    unit: quantity.unit,
    value: quantity.value,
    si: quantity.si,
    ...(instrument !== undefined ? { instrument } : {}),
  });
  const unit = promptUnit(step, options.units);
  const other =
    quantity.unit === unit
      ? ''
      : ` = ${formatQuantity(quantity.si, step.quantity, unit, decimalsOf(quantity.si, step.quantity, unit))}`;
  options.bench.kept(`kept ${formatQuantity(quantity.si, step.quantity, quantity.unit)}${other}`);
  return true;
}

/** Five digits are enough to see that a unit was read right. */
function decimalsOf(si: number, kind: QuantityKind, unit: string): number {
  const shown = Math.abs(toUnit(si, kind, unit));
  return shown === 0 ? 0 : Math.min(6, Math.max(0, 4 - Math.floor(Math.log10(shown))));
}
