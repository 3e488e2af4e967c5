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
/** Along the curve more points would hide it, and more knots aren’t seen; every residual is drawn. */
const MOST_MEANS = 24;
const MOST_KNOTS = 48;

/**
 * Some block means with the fitted curve and its bands above, residuals with the same bands around zero below, on one time axis:
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
  }));
  const thinned = (most: number) => {
    const every = Math.ceil(rows.length / most);
    return { values: rows.filter((_, k) => k % every === 0 || k === rows.length - 1) };
  };
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
  type Y = ReturnType<typeof upper | typeof lower>;
  const between = (y: Y, y2: string, paints: object) => ({
    data: thinned(MOST_KNOTS),
    mark: { type: 'area' as const, line: false, ...paints },
    encoding: { x, y, y2: { field: y2 } },
  });
  const line = (y: Y, paints: object) => ({ mark: { type: 'line' as const, ...paints }, encoding: { x, y } });
  return {
    ...frame(outerWidth, height, margin),
    data: { values: rows },
    resolve: { scale: { y: 'independent' }, axis: { y: 'independent' } },
    layer: [
      {
        layer: [
          between(upper('low'), 'high', pale),
          between(upper('curveLow'), 'curveHigh', dashed),
          { ...line(upper('fitted'), { stroke: paint.main }), data: thinned(MOST_KNOTS) },
          { data: thinned(MOST_MEANS), mark: dot, encoding: { x, y: upper('observed') } },
        ],
      },
      {
        layer: [
          between(lower('minusPrediction'), 'prediction', pale),
          between(lower('minusConfidence'), 'confidence', dashed),
          line(lower('residual'), { stroke: paint.ink, strokeWidth: 0.9 }),
          {
            data: { values: [{}] },
            mark: { type: 'rule', stroke: paint.main, strokeWidth: 1.25 },
            encoding: { y: { ...lower('residual'), field: undefined, datum: 0 } },
          },
        ],
      },
    ],
  } as ChartSpec;
}

const pale = { fill: paint.band, stroke: paint.rule, strokeWidth: 1 };
const dashed = { fill: null, stroke: paint.quiet, strokeWidth: 0.75, strokeDash: [3, 2] };

/** Hollow, so that the curve shows through. */
const dot = {
  type: 'point' as const,
  shape: 'circle' as const,
  size: 16,
  filled: true,
  fill: paint.paper,
  stroke: paint.ink,
  strokeWidth: 0.9,
  opacity: 1,
};

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
