import { problem } from '../errors/index.js';
import { readingQuantity } from '../instruments/index.js';
import { type Protocol, type ReadingRole, readingOf } from '../protocols/index.js';
import { type Quantity, type SourceBook, add, constant, errorOf, multiply } from '../uncertainty/index.js';
import type {
  Heater,
  Instrument,
  InstrumentKind,
  ReadingRecord,
  RunRecord,
  Workbook,
} from '../workbook/index.js';

/** What every step of evaluating one run needs at hand. */
export interface RunContext {
  readonly book: SourceBook;
  readonly workbook: Workbook;
  readonly run: RunRecord;
  readonly protocol: Protocol;
  readonly heater: Heater;
  readonly control: 'steady' | 'cycling' | 'chopped' | 'unknown';
  readonly warnings: string[];
}

/** The instrument a run was bound to, or an error that names what is missing. */
export function instrumentOf(context: RunContext, id: string): Instrument {
  const found = context.workbook.instruments.get(id);
  if (!found) {
    const known = [...context.workbook.instruments.keys()].join(', ') || 'none';
    throw problem('instrument-unknown', { got: id, known }, { file: context.run.id });
  }
  return found;
}

/** All instruments of the run by kind. */
export function instrumentsOf(context: RunContext): Partial<Record<InstrumentKind, Instrument>> {
  const found: Partial<Record<InstrumentKind, Instrument>> = {};
  for (const [kind, id] of Object.entries(context.run.instruments)) {
    if (id !== undefined) found[kind as InstrumentKind] = instrumentOf(context, id);
  }
  return found;
}

/** Level of a reading: what the protocol says, else its step. */
export function levelOf(protocol: Protocol, reading: ReadingRecord): string {
  const step = protocol.steps.find((each) => each.id === reading.step);
  return (step?.kind === 'reading' ? step.level : undefined) ?? reading.step;
}

/** A reading by its role with correction, instrument errors and the protocol's allowances; null where it wasn't taken. */
export function roleQuantity(context: RunContext, role: ReadingRole): Quantity | null {
  const reading = readingOf(context.protocol, context.run, role);
  if (reading === null || reading.instrument === null) return null;
  const instrument = instrumentOf(context, reading.instrument);
  const level = levelOf(context.protocol, reading);
  const read = readingQuantity(context.book, instrument, reading, { run: context.run.id, level });
  return withAllowances(context, role, read, instrument.id);
}

/** The same, required. */
export function neededQuantity(context: RunContext, role: ReadingRole): Quantity {
  const found = roleQuantity(context, role);
  if (found === null)
    throw problem('reading-missing', { run: context.run.id, what: role }, { file: context.run.id });
  return found;
}

/** Adds the protocol's allowances on a target: doubts that no instrument owns. */
export function withAllowances(
  context: RunContext,
  target: string,
  quantity: Quantity,
  instrument?: string,
): Quantity {
  let result = quantity;
  for (const allowance of context.protocol.allowances) {
    if (allowance.on !== target) continue;
    if (allowance.when === 'not-steady' && context.control === 'steady') continue;
    const owner = {
      lab: 'lab',
      instrument: `instrument:${instrument ?? 'none'}`,
      setting: `heater:${context.run.heater}:${context.run.setting}`,
      run: `run:${context.run.id}`,
      reading: `run:${context.run.id}:${target}`,
    }[allowance.scope];
    const error = errorOf(
      context.book.get({
        // With its width: a protocol that was changed between two runs has another error, not the first one's.
        id: `allowance:${context.protocol.name}:${allowance.id}:${allowance.halfWidthSi}:${owner}`,
        name: allowance.name,
        halfWidth: allowance.halfWidthSi,
        scope: allowance.scope,
        assumed: true,
      }),
    );
    result = allowance.relative ? multiply(result, add(constant(1), error)) : add(result, error);
  }
  return result;
}
