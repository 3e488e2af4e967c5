import { frame, paint } from '../chartTheme.js';
import type { ChartSpec } from '../drawChart.js';
import { shorten, textWidth } from '../labels.js';

export interface BudgetBar {
  readonly name: string;
  readonly share: number;
  readonly percent: string;
  readonly assumed: boolean;
}

const ROW = 34;

/** Parts of the variance, the biggest first; what is assumed is hatched and says so. */
export function budgetChart(bars: readonly BudgetBar[], outerWidth: number, assumedWord: string): ChartSpec {
  const margin = { left: 12, right: 12, top: 2, bottom: 6 };
  const inner = outerWidth - margin.left - margin.right;
  const values = bars.map((bar, i) => {
    const aside = bar.assumed ? `${assumedWord}, ${bar.percent}` : bar.percent;
    const room = inner - textWidth(aside) - 8;
    return {
      label: shorten(bar.name, room),
      aside,
      zero: 0,
      share: bar.share,
      assumed: bar.assumed,
      y: i + 0.32,
      top: i + 0.6,
      bottom: i + 0.9,
    };
  });
  const y = {
    type: 'quantitative' as const,
    axis: null,
    scale: { domain: [0, bars.length], reverse: true, nice: false },
  };
  const most = Math.max(...bars.map((bar) => bar.share), 1e-9);
  const x = { type: 'quantitative' as const, axis: null, scale: { domain: [0, most], nice: false } };
  return {
    ...frame(outerWidth, bars.length * ROW, margin),
    layer: [
      ...[true, false].map((assumed) => ({
        data: { values: values.filter((each) => each.assumed === assumed) },
        mark: {
          type: 'rect' as const,
          fill: assumed ? paint.assumed : paint.main,
          stroke: paint.main,
          strokeWidth: 0.75,
          opacity: 1,
        },
        encoding: {
          x: { field: 'zero', ...x },
          x2: { field: 'share' },
          y: { field: 'top', ...y },
          y2: { field: 'bottom' },
        },
      })),
      {
        data: { values },
        mark: { type: 'text', align: 'left' },
        encoding: { x: { value: 0 }, y: { field: 'y', ...y }, text: { field: 'label', type: 'nominal' } },
      },
      {
        data: { values },
        mark: { type: 'text', align: 'right' },
        encoding: {
          x: { value: 'width' },
          y: { field: 'y', ...y },
          text: { field: 'aside', type: 'nominal' },
        },
      },
    ],
  };
}
