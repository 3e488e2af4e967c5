import { HeatledgerError } from '../errors/index.js';
import { describeLog } from '../logs/index.js';
import { type QuantityKind, type TypedQuantity, formatQuantity, toUnit } from '../units/index.js';
import type { NewEntry } from '../workbook/index.js';
import { attachEntry, readBytes, readyExport } from './attach.js';
import type { Question } from './Bench.js';
import { judge } from './judge.js';
import type { Step } from './schema.js';
import { type ReadLog, type WalkOptions, promptUnit, stamp } from './WalkOptions.js';

/** Judges an answer and keeps it; true when the step is done with, `pause` when that was typed at a question on the way. */
export async function take(
  options: WalkOptions,
  step: Step,
  question: Question,
  typed: string,
): Promise<boolean | 'pause'> {
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
      return step.kind === 'attach'
        ? keepExport(options, step, question, judgement.text)
        : keepText(options, step, judgement.text);
    case 'which': {
      const chosen = await which(options, question, typed, judgement.readings);
      if (chosen === null) return false;
      if (chosen === 'pause') return 'pause';
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
): Promise<TypedQuantity | 'pause' | null> {
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
  const word = answer.trim().toLowerCase();
  if (word === 'pause') return 'pause';
  if (word === 'back') return null;
  const chosen = readings[Number(word) - 1];
  if (chosen === undefined)
    bench.refuse(question, typed, 'Then type it again so that it can be read in one way only.');
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

function keepText(options: WalkOptions, step: Step, text: string): boolean {
  const { bench, keeper } = options;
  const entry: NewEntry =
    step.kind === 'choice'
      ? { event: 'choice', step: step.id, value: text, ...stamp(options) }
      : { event: 'note', step: step.id, text, ...stamp(options) };
  keeper.append(entry);
  bench.kept(`kept ${text}`);
  return true;
}

async function keepExport(
  options: WalkOptions,
  step: Extract<Step, { kind: 'attach' }>,
  question: Question,
  path: string,
): Promise<boolean | 'pause'> {
  const { bench, keeper } = options;
  try {
    const { ready, words } = await (options.readLog?.(path, step.role, keeper.run) ??
      readPlainly(options, step, path));
    const stored = keeper.storeExport(ready.name, ready.bytes);
    keeper.append(attachEntry(ready, stored, { ...stamp(options), step: step.id }));
    for (const line of [...words, ...describeLog(ready.log)]) bench.say(`  ${line}`);
    bench.kept(`kept ${ready.name}, ${ready.bytes.length} bytes`);
    for (const line of options.aboutLog?.(ready.role, ready.log, keeper.run) ?? []) bench.say(`  ${line}`);
    return true;
  } catch (error) {
    if (!(error instanceof HeatledgerError)) throw error;
    // Typed at a question on the way.
    if (error.code === 'stopped') return 'pause';
    bench.refuse(question, path, error.toText());
    return false;
  }
}

function readPlainly(
  { base, keeper, protocol, zone }: WalkOptions,
  step: Extract<Step, { kind: 'attach' }>,
  path: string,
): ReadLog {
  const ready = readyExport(readBytes(path, base), path, keeper.run, protocol, zone, { role: step.role });
  return { ready, words: [] };
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
