import type { ColumnRole } from '../../../src/logs/index.js';
import { type Cells, onCells } from './cells.js';
import type { Mutation } from './Mutation.js';
import { pick, type Random, whole } from './pick.js';

const otherUnits: Partial<Record<ColumnRole, readonly string[]>> = {
  power: ['W', 'kW', 'mW', 'MW', 'VA', 'Wh', 'x'],
  energy: ['Wh', 'kWh', 'mWh', 'MWh', 'J', 'kJ', 'W', 'x'],
  voltage: ['V', 'mV', 'kV', 'A', 'x'],
  current: ['A', 'mA', 'V', 'Ah', 'x'],
  temperature: ['°C', '°F', 'K', 'x'],
  powerFactor: ['%', 'W'],
  time: ['s', 'ms', 'min', 'h', 'x'],
};

/** Cells of two columns change places in some data rows; the header stays. */
function swapColumns({ lines, data, original }: Cells, rows: readonly number[], random: Random): boolean {
  const count = original.mapping.columns.length;
  if (count < 2 || data.length === 0) return false;
  const a = whole(random, count);
  const b = (a + 1 + whole(random, count - 1)) % count;
  for (const row of rows) {
    const cells = lines[row]!;
    [cells[a], cells[b]] = [cells[b]!, cells[a]!];
  }
  return true;
}

function from({ data }: Cells, random: Random): readonly number[] {
  return data.slice(1 + whole(random, data.length));
}

/** The decimal sign one place to either side; a number without one loses its last digit, or gains a zero. */
function slipped(cell: string, decimal: string, right: boolean): string {
  const match = /^(\s*-?)(\d+)(?:[.,](\d+))?(.*)$/s.exec(cell);
  if (!match) return cell;
  const [, sign, whole_ = '', part = '', rest] = match;
  const digits = right ? `${whole_}${part}0` : `0${whole_}${part}`;
  const at = right ? whole_.length + 1 : whole_.length;
  const left = digits.slice(0, at).replace(/^0+(?=\d)/, '');
  const behind = digits.slice(at);
  return `${sign}${left}${behind === '' || (right && part === '') ? '' : `${decimal}${behind}`}${rest}`;
}

/** Cells that change places, change a digit or their decimal sign, stand still, or lose their unit. */
export const cellKinds: Readonly<Record<string, Mutation>> = {
  'columns swapped': onCells((cells, random) => swapColumns(cells, cells.data, random)),
  'columns swapped in some rows': onCells((cells, random) => {
    const share = 0.02 + 0.5 * random();
    const some = random() < 0.5 ? cells.data.filter(() => random() < share) : from(cells, random);
    return some.length > 0 && swapColumns(cells, some, random);
  }),
  'digit changed': onCells(({ lines, data, original }, random) => {
    const cells = lines[pick(random, data)]!;
    const column = whole(random, original.mapping.columns.length);
    const places = [...cells[column]!.matchAll(/\d/g)].map(({ index }) => index);
    if (places.length === 0) return false;
    const at = pick(random, places);
    cells[column] = `${cells[column]!.slice(0, at)}${whole(random, 10)}${cells[column]!.slice(at + 1)}`;
    return true;
  }),
  'decimal slipped in a cell': onCells(({ lines, data, original }, random) => {
    const cells = lines[pick(random, data)]!;
    const column = whole(random, cells.length);
    cells[column] = slipped(cells[column]!, original.mapping.decimal, random() < 0.5);
    return true;
  }),
  'decimal slipped in a column': onCells(({ lines, data, values, original }, random) => {
    if (values.length === 0) return false;
    const [column, right] = [pick(random, values), random() < 0.5];
    for (const row of data)
      lines[row]![column] = slipped(lines[row]![column]!, original.mapping.decimal, right);
    return true;
  }),
  'unit changed': onCells(({ lines, original }, random) => {
    const { headerLine, columns } = original.mapping;
    const { role, unit, index } = pick(random, columns);
    const cells = headerLine === null ? undefined : lines[headerLine - 1];
    if (!cells?.[index] || unit === null) return false;
    // The degree sign is two bytes in a text whose signs are bytes.
    const other = Buffer.from(pick(random, otherUnits[role] ?? ['W', 'V', 's'])).toString('latin1');
    const written = cells[index].search(/[^\s[(/_]+[\])]?\s*$/);
    cells[index] = cells[index].slice(0, written) + cells[index].slice(written).replace(/[^\])\s]+/, other);
    return true;
  }),
  'column frozen': onCells((cells, random) => {
    const { lines, values } = cells;
    const rows = from(cells, random);
    if (values.length === 0 || rows.length < 2) return false;
    const column = pick(random, values);
    for (const row of rows) lines[row]![column] = lines[rows[0]!]![column]!;
    return true;
  }),
  'column zeroed': onCells((cells, random) => {
    const { lines, values } = cells;
    const rows = from(cells, random);
    if (values.length === 0 || rows.length === 0) return false;
    const [column, zero] = [pick(random, values), pick(random, ['0', '', '0', 'OL'])];
    for (const row of rows) lines[row]![column] = zero;
    return true;
  }),
  'counter reset': onCells((cells, random) => {
    const { lines, original } = cells;
    const { columns, decimal } = original.mapping;
    const counter = columns.find(({ role }) => role === 'energy');
    const rows = from(cells, random);
    if (!counter || rows.length === 0) return false;
    const read = (row: number) => Number(lines[row]![counter.index]!.replace(',', '.'));
    const places = /[.,](\d+)$/.exec(lines[rows[0]!]![counter.index]!)?.[1]?.length ?? 0;
    const base = read(rows[0]!);
    if (!Number.isFinite(base)) return false;
    for (const row of rows)
      lines[row]![counter.index] = (read(row) - base).toFixed(places).replace('.', decimal);
    return true;
  }),
};
