import type { Table } from './findTable.js';
import { isMissing, numberCell } from './numberCell.js';
import { shownText } from './shownText.js';

/** What the evidence says where a decimal point was taken only because no number shows a sign. */
export const noDecimalSign = 'no number shows a decimal sign';

/** The decimal sign and the reason, or the cell that could be read both ways. */
export type DecimalSign =
  | { readonly decimal: '.' | ','; readonly evidence: string }
  | {
      readonly decimal: null;
      readonly cell: string;
      readonly line: number;
      readonly point: number;
      readonly comma: number;
    };

/**
 * Finds the decimal sign from cells that make sense with one sign only. A file all of whose numbers look like
 * `1,234` stays undecided: it may mean 1.234 or 1234.
 */
export function decimalSign(table: Table, delimiter: string): DecimalSign {
  const counts = { point: 0, comma: 0 };
  const seen: { point?: string; comma?: string } = {};
  let unsettled: DecimalSign | null = null;
  for (const record of table.sample) {
    for (const [column, cell] of record.cells.entries()) {
      if (table.kinds[column] !== 'number' || isMissing(cell) || !/[.,]/.test(cell)) continue;
      const point = numberCell(cell, '.');
      const comma = numberCell(cell, ',');
      if (point && !comma) {
        counts.point++;
        seen.point ??= shownText(cell);
      } else if (comma && !point) {
        counts.comma++;
        seen.comma ??= shownText(cell);
      } else if (point && comma && point.value !== comma.value) {
        const dotInCommaFile = delimiter === ',' && cell.includes('.');
        if (dotInCommaFile) seen.point ??= shownText(cell);
        else
          unsettled ??= {
            decimal: null,
            cell: shownText(cell),
            line: record.line,
            point: point.value,
            comma: comma.value,
          };
      }
    }
  }
  if (counts.comma > counts.point)
    return { decimal: ',', evidence: `"${seen.comma}" is a number only with a decimal comma` };
  if (counts.point > 0)
    return { decimal: '.', evidence: `"${seen.point}" is a number only with a decimal point` };
  if (unsettled) return unsettled;
  if (seen.point) return { decimal: '.', evidence: `"${seen.point}" in a file parted by commas` };
  return { decimal: '.', evidence: noDecimalSign };
}
