import { problem } from '../../errors/index.js';
import { readingQuantity } from '../../instruments/index.js';
import type { ReadingRole } from '../../protocols/index.js';
import { constant, type Quantity, scale, SourceBook, subtract } from '../../uncertainty/index.js';
import type { Instrument } from '../../workbook/index.js';
import { instrumentOf, type RunContext, withAllowances } from '../RunContext.js';

/** One end of what a thermometer read: at what temperature, whose level errors and allowances hold there. */
export interface ThermometerEnd {
  readonly atK: number;
  readonly level: string;
  readonly role: ReadingRole;
}

/** A thermometer over a range: corrections made, errors left. */
export interface ThermometerErrors {
  /** Of a reading in kelvin. */
  readonly corrected: (readingK: number) => number;
  /** True less shown, K; with it each reading is off by offset + gain·t, t in °C. Values are zero. */
  readonly offset: Quantity;
  readonly gain: Quantity;
  /** Errors at the two ends, K. */
  readonly cool: Quantity;
  readonly hot: Quantity;
}

const ZERO_K = 273.15;
const LEAST_SPAN_K = 1;

/** The errors of the thermometer of a run as a straight line between two of its levels, on the sources of the workbook. */
export function thermometerOf(
  context: RunContext,
  coolEnd: ThermometerEnd,
  hotEnd: ThermometerEnd,
): ThermometerErrors {
  const id = context.run.instruments.thermometer;
  if (id === undefined)
    throw problem('reading-missing', { run: context.run.id, what: 'thermometer' }, { file: context.run.id });
  const instrument = instrumentOf(context, id);
  const cool = errorAt(context, instrument, coolEnd, -1);
  const hot = errorAt(context, instrument, hotEnd, 0);
  const spanK = Math.max(LEAST_SPAN_K, hotEnd.atK - coolEnd.atK);
  const gain = scale(subtract(hot, cool), 1 / spanK);
  const offset = subtract(cool, scale(gain, coolEnd.atK - ZERO_K));
  return { corrected: correctionOf(instrument, context.run.id), offset, gain, cool, hot };
}

/** The error of a reading at one end, value zero; `seq` is none that a typed reading can have. */
function errorAt(context: RunContext, instrument: Instrument, end: ThermometerEnd, seq: number): Quantity {
  const { atK, level, role } = end;
  const read = readingQuantity(context.book, instrument, recordOf(atK, seq, instrument.id), {
    run: context.run.id,
    level,
  });
  const whole = withAllowances(context, role, read, instrument.id);
  return subtract(whole, constant(whole.value));
}

const recordOf = (si: number, seq: number, instrument: string) => {
  const plain = { step: 'logged', at: '', hand: '', typed: '1', unit: 'K' };
  return { ...plain, seq, value: si, si, instrument };
};

/** The correction of the certificate at each reading; kept, since a log repeats its values. */
function correctionOf(instrument: Instrument, run: string): (readingK: number) => number {
  const known = new Map<number, number>();
  return (readingK) => {
    const before = known.get(readingK);
    if (before !== undefined) return before;
    const record = recordOf(readingK, 0, instrument.id);
    const { value } = readingQuantity(new SourceBook(), instrument, record, { run, level: '' });
    known.set(readingK, value);
    return value;
  };
}
