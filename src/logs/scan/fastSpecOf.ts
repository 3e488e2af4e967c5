import type { Assignment } from '../assignColumns.js';
import type { Layout } from '../sniffLayout.js';
import { columnKinds, type FastSpec } from './FastSpec.js';
import { leastSi } from './limits.js';
import type { ClockForm } from './SlowRows.js';

const mostColumns = 100;

/** What the fast road must know; `null` where an export is so written that no row of it can go there. */
export function fastSpecOf(
  layout: Layout,
  { time, values }: Assignment,
  form: ClockForm | null,
): FastSpec | null {
  const delimiter = layout.delimiter.charCodeAt(0);
  if (layout.pairs || delimiter > 126 || layout.table.width > mostColumns) return null;
  const kinds = new Array<number>(layout.table.width).fill(columnKinds.skip);
  const slots = new Array<number>(layout.table.width).fill(-1);
  if (time.form === 'number') kinds[time.index] = columnKinds.timeNumber;
  if (time.form === 'clock') kinds[time.index] = columnKinds.clock;
  if (time.dateIndex !== null) kinds[time.dateIndex] = columnKinds.date;
  for (const [slot, value] of values.entries()) {
    // A column with two parts to play is read the long way.
    if (kinds[value.index] !== columnKinds.skip) return null;
    kinds[value.index] = columnKinds.value;
    slots[value.index] = slot;
  }
  return {
    delimiter,
    decimal: layout.decimal.charCodeAt(0),
    kinds,
    slots,
    factors: values.map(({ unit }) => unit?.factor ?? 1),
    offsets: values.map(({ unit }) => unit?.offset ?? 0),
    least: values.map(({ role }) => leastSi(role)),
    clock: time.form === 'clock' ? form : null,
  };
}
