import { frame, paint } from '../chartTheme.js';
import type { ChartSpec } from '../drawChart.js';
import { shorten, textWidth } from '../labels.js';

/** One setting; all numbers in per cent. */
export interface FigureRow {
  readonly name: string;
  readonly result: string;
  readonly value: number;
  readonly interval: readonly [number, number];
  readonly prediction: readonly [number, number];
}

const ROW = 50;

/** Points with two intervals: thick for the mean, thin with ends for one future heating. */
export function figuresChart(rows: readonly FigureRow[], outerWidth: number, axisTitle: string): ChartSpec {
  const ends = rows.flatMap((row) => [...row.interval, ...row.prediction, row.value]);
  const margin = Math.max(0.5, 0.08 * (Math.max(...ends) - Math.min(...ends)));
  const domain = [Math.min(...ends) - margin, Math.max(...ends) + margin];
  const values = rows.map((row, i) => ({
    label: shorten(row.name, (outerWidth - 32 - textWidth(row.result)) / 1.1),
    result: row.result,
    value: row.value,
    low: row.interval[0],
    high: row.interval[1],
    lowest: row.prediction[0],
    highest: row.prediction[1],
    text: i + 0.3,
    line: i + 0.72,
  }));
  const y = { type: 'quantitative' as const, axis: null };
  const scale = { scale: { domain: [0, rows.length], reverse: true, nice: false } };
  const x = { type: 'quantitative' as const };
  const at = { field: 'line', ...y, ...scale };
  return {
    ...frame(outerWidth, rows.length * ROW, { left: 12, right: 12, top: 4, bottom: 38 }),
    data: { values },
    encoding: { y: at },
    layer: [
      {
        mark: { type: 'rule', stroke: paint.main, strokeWidth: 1.5 },
        encoding: {
          x: {
            field: 'lowest',
            ...x,
            scale: { domain, nice: false, zero: false },
            axis: { title: axisTitle, tickCount: Math.floor(outerWidth / 80), grid: true },
          },
          x2: { field: 'highest' },
        },
      },
      ...(['lowest', 'highest'] as const).map((field) => ({
        mark: {
          type: 'tick' as const,
          color: paint.main,
          thickness: 1.5,
          size: 12,
          orient: 'vertical' as const,
        },
        encoding: { x: { field, ...x } },
      })),
      {
        mark: { type: 'rule', stroke: paint.main, strokeWidth: 9 },
        encoding: { x: { field: 'low', ...x }, x2: { field: 'high' } },
      },
      {
        mark: {
          type: 'point',
          shape: 'diamond',
          size: 70,
          filled: true,
          fill: paint.paper,
          stroke: paint.ink,
          strokeWidth: 1.5,
          opacity: 1,
        },
        encoding: { x: { field: 'value', ...x } },
      },
      {
        mark: { type: 'text', align: 'left', fontWeight: 'bold' },
        encoding: {
          x: { value: 0 },
          y: { field: 'text', ...y, ...scale },
          text: { field: 'label', type: 'nominal' },
        },
      },
      {
        mark: { type: 'text', align: 'right' },
        encoding: {
          x: { value: 'width' },
          y: { field: 'text', ...y, ...scale },
          text: { field: 'result', type: 'nominal' },
        },
      },
    ],
  };
}
