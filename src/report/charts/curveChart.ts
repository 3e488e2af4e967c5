import { frame, paint } from '../chartTheme.js';
import type { ChartSpec } from '../drawChart.js';

/** One block: times in minutes, temperatures in the unit of the page. Bands are half-widths; null where not known. */
export interface CurvePoint {
  readonly minutes: number;
  readonly observed: number;
  readonly fitted: number;
  readonly residual: number;
  readonly confidence: number | null;
  readonly prediction: number | null;
}

export interface CurveWordsOfChart {
  readonly xTitle: string;
  readonly yTitle: string;
  readonly residualTitle: string;
}

const margin = { left: 42, right: 10, top: 30, bottom: 36 } as const;
const curveHeight = 150;
const gap = 34;
const residualHeight = 70;
const MOST_MEANS = 40;

/**
 * Block means with the fitted curve and its bands above, residuals with the same bands around zero below, on one time axis:
 * one view, in which each part has a vertical scale of its own.
 */
export function curveChart(
  points: readonly CurvePoint[],
  words: CurveWordsOfChart,
  outerWidth: number,
): ChartSpec {
  const height = curveHeight + gap + residualHeight;
  const rows = points.map((point) => ({
    ...point,
    low: point.fitted - (point.prediction ?? 0),
    high: point.fitted + (point.prediction ?? 0),
    curveLow: point.fitted - (point.confidence ?? 0),
    curveHigh: point.fitted + (point.confidence ?? 0),
    minusPrediction: -(point.prediction ?? 0),
    minusConfidence: -(point.confidence ?? 0),
    zero: 0,
  }));
  // Along the curve more points than these would hide it; each residual is drawn.
  const every = Math.ceil(points.length / MOST_MEANS);
  const reach = 1.1 * Math.max(1e-6, ...points.flatMap((p) => [Math.abs(p.residual), p.prediction ?? 0]));
  const seen = rows.flatMap(({ observed, low, high }) => [observed, low, high]);
  const room = 0.05 * (Math.max(...seen) - Math.min(...seen) || 1);
  const x = {
    field: 'minutes',
    type: 'quantitative' as const,
    scale: timeScale(points),
    axis: timeAxis(words.xTitle),
  };
  const upper = (field: string) => ({
    field,
    type: 'quantitative' as const,
    scale: {
      domain: [Math.min(...seen) - room, Math.max(...seen) + room],
      range: [curveHeight, 0],
      nice: false,
      zero: false,
    },
    axis: { ...yAxis(words.yTitle, 5), titleY: -19 },
  });
  const lower = (field: string) => ({
    field,
    type: 'quantitative' as const,
    scale: { domain: [-reach, reach], range: [height, curveHeight + gap], nice: false },
    axis: { ...yAxis(words.residualTitle, 3), titleY: curveHeight + gap - 14 },
  });
  const line = (y: ReturnType<typeof upper | typeof lower>, mark: object) => ({
    mark: { type: 'line' as const, ...mark },
    encoding: { x, y },
  });
  const band = (y: ReturnType<typeof upper | typeof lower>, y2: string) => ({
    mark: { type: 'area' as const, fill: paint.band, stroke: null, line: false },
    encoding: { x, y, y2: { field: y2 } },
  });
  const dashed = { stroke: paint.quiet, strokeWidth: 0.75, strokeDash: [3, 2] };
  const thin = { stroke: paint.rule, strokeWidth: 1 };
  return {
    ...frame(outerWidth, height, margin),
    data: { values: rows },
    resolve: { scale: { y: 'independent' }, axis: { y: 'independent' } },
    layer: [
      {
        layer: [
          band(upper('low'), 'high'),
          line(upper('low'), thin),
          line(upper('high'), thin),
          line(upper('curveLow'), dashed),
          line(upper('curveHigh'), dashed),
          line(upper('fitted'), { stroke: paint.main }),
          {
            data: { values: rows.filter((_, k) => k % every === 0) },
            mark: dot(points.length),
            encoding: { x, y: upper('observed') },
          },
        ],
      },
      {
        layer: [
          band(lower('minusPrediction'), 'prediction'),
          line(lower('minusPrediction'), thin),
          line(lower('prediction'), thin),
          line(lower('minusConfidence'), dashed),
          line(lower('confidence'), dashed),
          line(lower('zero'), { stroke: paint.main }),
          { mark: dot(points.length), encoding: { x, y: lower('residual') } },
        ],
      },
    ],
  } as ChartSpec;
}

/** Hollow, so that the curve shows through many of them. */
function dot(count: number) {
  return {
    type: 'point' as const,
    shape: 'circle' as const,
    size: count > 60 ? 8 : 16,
    filled: true,
    fill: paint.paper,
    stroke: paint.ink,
    strokeWidth: 0.9,
    opacity: 1,
  };
}

function timeScale(points: readonly CurvePoint[]) {
  const minutes = points.map((point) => point.minutes);
  const [from, to] = [Math.min(...minutes), Math.max(...minutes)];
  const room = 0.02 * (to - from || 1);
  return { domain: [from - room, to + room], nice: false };
}

const timeAxis = (title: string) => ({
  title,
  tickCount: 6,
  grid: false,
  ticks: true,
  tickSize: 4,
  tickColor: paint.quiet,
});

const yAxis = (title: string, tickCount: number) => ({
  orient: 'left' as const,
  offset: 0,
  title,
  tickCount,
  grid: true,
  titleAngle: 0,
  titleAlign: 'left' as const,
  titleX: -34,
  titleBaseline: 'middle' as const,
});
