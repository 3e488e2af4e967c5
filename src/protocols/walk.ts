import type { Question } from './Bench.js';
import { rangeText } from './judge.js';
import { take } from './keepAnswer.js';
import { nextStep, stepBefore } from './machine.js';
import type { Step } from './schema.js';
import { type WalkOptions, promptUnit, stamp } from './WalkOptions.js';

/**
 * Walks a protocol from where the run stands to its end, or until it is paused. Every answer is on disk before it
 * is called kept. Returns `ended` or `paused`.
 *
 * @example
 * const { protocol } = findProtocol('water-heating', null);
 * const begin = { event: 'begin', run: 'vat-warmer-full-01', heater: 'vat-warmer', setting: 'full', instruments: {} };
 * const keeper = new MemoryKeeper(begin);
 * const typed = ['', 'yes', 'pause'];
 * const bench = { say() {}, kept() {}, refuse() {}, now: () => new Date(), ask: async () => typed.shift() };
 * await walk({ protocol, keeper, bench, hand: 'mr', zone: 'UTC', units: 'si', base: '.' }) // => 'paused'
 * nextStep(protocol, keeper.run).id // => 'draughtFree'
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
    } else {
      const taken = await take(options, step, question, typed);
      if (taken === 'pause') {
        keeper.append({ event: 'pause', ...stamp(options) });
        return 'pause';
      }
      if (taken) return 'next';
    }
  }
}

function helpText(step: Step, question: Question): string {
  const lines = [step.help?.trim() ?? step.ask];
  if (question.unit !== undefined) {
    const sums = step.kind === 'reading' && step.quantity === 'mass';
    lines.push(
      `A bare number is in ${question.unit}; other units may be typed${sums ? `, and sums such as 2104+2098 ${question.unit}` : ''}.`,
    );
  }
  lines.push('back: one step back. pause: stop here and go on later with heatledger test --resume.');
  return lines.join('\n');
}
