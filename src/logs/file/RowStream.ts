import { derivedPowerW, largestOf, needsDerivedPower } from '../derivedPower.js';
import type { ValueColumn } from '../pickValues.js';
import type { Rows } from '../Rows.js';
import type { RowBuffer } from '../scan/RowBuffer.js';
import { toNanoseconds } from '../toNanoseconds.js';
import type { QuantityRole } from '../types.js';
import { Irregular } from './Irregular.js';
import type { TimeStream } from './TimeStream.js';

/** Turns buffers of rows into rows of the log, in ascending time without repeats. */
export class RowStream {
  /** Seconds of the first row, counted from the origin of the times. */
  first = Number.NaN;
  /** Rows that repeat the time of the row before. */
  repeats = 0;
  /** The largest sizes of voltage and current. */
  readonly largest = { voltageV: 0, currentA: 0 };
  private last = Number.NEGATIVE_INFINITY;
  private readonly derives: boolean;

  constructor(
    readonly times: TimeStream,
    private readonly columns: readonly ValueColumn[],
  ) {
    this.derives = needsDerivedPower(new Set(columns.map(({ role }) => role)));
  }

  /** The rows of a buffer; their arrays belong to the buffer and change with it. */
  take(buffer: RowBuffer): Rows {
    const seconds = this.times.seconds(buffer);
    if (Number.isNaN(this.first)) this.first = seconds[0]!;
    const before = this.last;
    const { first } = this;
    let kept = 0;
    for (let i = 0; i < seconds.length; i++) {
      const time = toNanoseconds(seconds[i]! - first);
      if (time > this.last) {
        this.last = time;
        kept++;
      } else if (time < this.last) throw new Irregular();
      seconds[i] = time;
    }
    this.repeats += buffer.rows - kept;
    const keep = kept === buffer.rows ? null : rising(seconds, before);
    const values = new Map<QuantityRole, Float64Array>();
    for (const [slot, { role }] of this.columns.entries()) {
      const all = buffer.columns[slot]!.values.subarray(0, buffer.rows);
      values.set(role, keep ? all.filter((_, i) => keep[i]) : all);
    }
    return this.rows(keep ? seconds.filter((_, i) => keep[i]) : seconds, values);
  }

  private rows(timesS: Float64Array, values: ReadonlyMap<QuantityRole, Float64Array>): Rows {
    const column = (role: QuantityRole) => values.get(role) ?? null;
    const [voltageV, currentA] = [column('voltage'), column('current')];
    if (this.derives) {
      this.largest.voltageV = Math.max(this.largest.voltageV, largestOf(voltageV!));
      this.largest.currentA = Math.max(this.largest.currentA, largestOf(currentA!));
    }
    return {
      timesS,
      powerW: this.derives ? derivedPowerW(values) : column('power'),
      energyJ: column('energy'),
      voltageV,
      currentA,
      powerFactor: column('powerFactor'),
      temperatureK: column('temperature'),
    };
  }
}

/** Which times are later than all before them. */
function rising(seconds: Float64Array, before: number): boolean[] {
  let last = before;
  return Array.from(seconds, (time) => {
    const rises = time > last;
    if (rises) last = time;
    return rises;
  });
}
