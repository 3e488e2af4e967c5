import { frame, paint } from '../chartTheme.js';
import type { ChartSpec } from '../drawChart.js';
import { shortenId } from '../labels.js';

/** Runs of one setting as differences from their figure, in percentage points. */
export interface RepeatabilityRow {
  readonly run: string;
  readonly difference: number;
}

const ROW = 22;

/** Runs as points around the mean, with the standard deviation between runs as a band. */
export function repeatabilityChart(
  rows: readonly RepeatabilityRow[],
  spread: number,
  reach: number,
  outerWidth: number,
  axisTitle: string,
): ChartSpec {
  const margin = { left: 152, right: 12, top: 2, bottom: 38 };
  const values = rows.map((row, i) => ({
    ...row,
    label: shortenId(row.run, margin.left - 12),
    line: i + 0.5,
  }));
  const y = {
    type: 'quantitative' as const,
    axis: null,
    scale: { domain: [0, rows.length], reverse: true, nice: false },
  };
  const x = {
    type: 'quantitative' as const,
    scale: { domain: [-reach, reach], nice: false },
    axis: { title: axisTitle, tickCount: 4, grid: true, format: '+~g' },
  };
  return {
    ...frame(outerWidth, rows.length * ROW, margin),
    layer: [
      {
        data: { values: [{ low: -spread, high: spread, top: 0, bottom: rows.length }] },
        mark: { type: 'rect', fill: paint.band, opacity: 1 },
        encoding: {
          x: { field: 'low', ...x },
          x2: { field: 'high' },
          y: { field: 'top', ...y },
          y2: { field: 'bottom' },
        },
      },
      {
        data: { values: [{ mean: 0 }] },
        mark: { type: 'rule', stroke: paint.main, strokeWidth: 1.5 },
        encoding: { x: { field: 'mean', ...x } },
      },
      {
        data: { values },
        mark: {
          type: 'point',
          shape: 'circle',
          size: 46,
          filled: true,
          fill: paint.paper,
          stroke: paint.ink,
          strokeWidth: 1.5,
          opacity: 1,
        },
        encoding: { x: { field: 'difference', ...x }, y: { field: 'line', ...y } },
      },
      {
        data: { values },
        mark: { type: 'text', align: 'right', dx: -10 },
        encoding: { x: { value: 0 }, y: { field: 'line', ...y }, text: { field: 'label', type: 'nominal' } },
      },
    ],
  };
}
