import { onCells } from './cells.js';
import type { Mutation } from './Mutation.js';
import { pick, type Random, whole } from './pick.js';

const two = (value: number) => String(value).padStart(2, '0');

/** Times that jump from a row on. */
export const timeKinds: Readonly<Record<string, Mutation>> = {
  'clock set back': fromARow((cell) => moved(cell, -1)),
  'clock set forward': fromARow((cell) => moved(cell, 1)),
  'dates advanced': fromARow((cell, random) => {
    const days = 1 + whole(random, 2);
    return cell
      .replace(
        /(\d{4}-\d\d-)(\d\d)/,
        (_, before: string, day: string) => before + two((Number(day) % 28) + days),
      )
      .replace(/^(\d\d)([./])/, (_, day: string, sign: string) => two((Number(day) % 28) + days) + sign);
  }),
  'times stretched': fromARow((cell) =>
    /^\d+([.,]\d+)?$/.test(cell) ? String(Number(cell.replace(',', '.')) * 2) : cell,
  ),
};

/** An hour of a clock; of a number an hour, a minute or a second of whatever it counts. */
function moved(cell: string, hours: number): string {
  const clock = /(\d{1,2})(:\d\d)/.exec(cell);
  if (clock) {
    const hour = (Number(clock[1]) + hours + 24) % 24;
    return (
      cell.slice(0, clock.index) +
      (clock[1]!.length === 2 ? two(hour) : hour) +
      cell.slice(clock.index + clock[1]!.length)
    );
  }
  return /^\d+(\.\d+)?$/.test(cell) ? String(Number((Number(cell) + 3600 * hours).toFixed(6))) : cell;
}

function fromARow(change: (cell: string, random: Random) => string): Mutation {
  return onCells(({ lines, data, original }, random) => {
    const times = original.mapping.columns.filter(({ role }) => role === 'time' || role === 'date');
    if (times.length === 0) return false;
    const { index } = pick(random, times);
    const same = random();
    const fixed = () => same;
    let changed = false;
    for (const row of data.slice(1 + whole(random, data.length))) {
      const cells = lines[row]!;
      const before = cells[index]!;
      cells[index] = change(before, fixed);
      if (cells[index] !== before) changed = true;
    }
    return changed;
  });
}
