import { frame, paint } from '../chartTheme.js';
import type { ChartSpec } from '../drawChart.js';

/** A curve against minutes from switch-on; null breaks the line. */
export interface CoursePoint {
  readonly minutes: number;
  readonly value: number | null;
}

export interface Course {
  readonly line: readonly CoursePoint[];
  /** Readings at the bench. */
  readonly points: readonly CoursePoint[];
  /** Switch-on and switch-off, with their words. */
  readonly marks: readonly { readonly minutes: number; readonly words: string }[];
  readonly domain: readonly [number, number];
  readonly yTitle: string;
  /** Empty where the chart below has the same axis. */
  readonly xTitle: string;
  readonly fromZero: boolean;
  readonly colour: 'main' | 'second';
}

/** One quantity of one run against time, small; the same time axis for power and temperature of a run. */
export function courseChart(course: Course, outerWidth: number, height: number): ChartSpec {
  const known = [...course.line, ...course.points].flatMap(({ value }) => (value === null ? [] : [value]));
  const low = course.fromZero ? Math.min(0, ...known) : Math.min(...known);
  const high = Math.max(...known);
  const room = 0.06 * (high - low || Math.abs(high) || 1);
  const x = {
    type: 'quantitative' as const,
    scale: { domain: [...course.domain], nice: false },
    axis: {
      title: course.xTitle || null,
      tickCount: 6,
      grid: false,
      ticks: true,
      tickSize: 4,
      tickColor: paint.quiet,
    },
  };
  const y = {
    type: 'quantitative' as const,
    scale: { domain: [course.fromZero ? low : low - room, high + room], nice: false, zero: false },
    axis: {
      title: course.yTitle,
      tickCount: 4,
      grid: true,
      titleAngle: 0,
      titleAlign: 'left' as const,
      titleX: -34,
      titleY: -23,
      titleBaseline: 'middle' as const,
    },
  };
  const labelled = course.marks.map((mark) => ({
    ...mark,
    align: mark.minutes > (course.domain[0] + course.domain[1]) / 2 ? 'right' : 'left',
  }));
  const at = { x: { field: 'minutes', ...x }, y: { field: 'value', ...y } };
  return {
    ...frame(outerWidth, height, { left: 42, right: 10, top: 34, bottom: course.xTitle === '' ? 22 : 36 }),
    layer: [
      {
        data: { values: [...course.marks] },
        mark: { type: 'rule', stroke: paint.quiet, strokeDash: [2, 2] },
        encoding: { x: { field: 'minutes', ...x } },
      },
      ...(['left', 'right'] as const).map((align) => ({
        data: { values: labelled.filter((mark) => mark.align === align) },
        mark: { type: 'text' as const, align, y: -9, fill: paint.quiet },
        encoding: { x: { field: 'minutes', ...x }, text: { field: 'words', type: 'nominal' as const } },
      })),
      {
        data: { values: [...course.line] },
        mark: { type: 'line', stroke: paint[course.colour], clip: true },
        encoding: at,
      },
      {
        data: { values: [...course.points] },
        mark: {
          type: 'point',
          shape: 'circle',
          size: 34,
          filled: true,
          fill: paint.paper,
          stroke: paint.ink,
          strokeWidth: 1.25,
          opacity: 1,
        },
        encoding: at,
      },
    ],
  };
}
