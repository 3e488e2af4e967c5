import type { Booking } from '../../evaluation/index.js';
import { frame, paint } from '../chartTheme.js';
import type { ChartSpec } from '../drawChart.js';
import { shortenId, textWidth } from '../labels.js';

/** One part of where the energy of a run went; share in per cent, below zero where more was booked than metered. */
export interface BalancePart {
  readonly name: Booking['name'];
  /** The name as shown, and a shorter one. */
  readonly words: readonly [long: string, short: string];
  readonly share: number;
  readonly percent: string;
}

export interface BalanceRow {
  readonly run: string;
  readonly parts: readonly BalancePart[];
}

const ROW = 44;
const looks = {
  water: { fill: paint.water, text: paint.onWater, halo: paint.water },
  vapour: { fill: paint.vapour, text: paint.ink, halo: paint.paper },
  vessel: { fill: paint.vessel, text: paint.onVessel, halo: paint.vessel },
  'heater body': { fill: paint.body, text: paint.ink, halo: paint.paper },
  room: { fill: paint.air, text: paint.ink, halo: paint.paper },
  rest: { fill: paint.paper, text: paint.ink, halo: paint.paper },
  'room and rest, not separated': { fill: paint.room, text: paint.ink, halo: paint.paper },
} as const;

interface Segment {
  readonly row: number;
  readonly name: BalancePart['name'];
  readonly from: number;
  readonly to: number;
  readonly label: string;
}

/** One bar a run. A part is named inside its own piece where the name fits, otherwise above the bar. */
export function balanceChart(rows: readonly BalanceRow[], outerWidth: number, axisTitle: string): ChartSpec {
  const margin = { left: 12, right: 12, top: 2, bottom: 38 };
  const extent = [0, 100, ...rows.flatMap((row) => [sumOf(row, -1), sumOf(row, 1)])];
  const domain = [Math.min(...extent), Math.max(...extent)] as const;
  const perUnit = (outerWidth - margin.left - margin.right) / (domain[1] - domain[0]);
  const placed = rows.map((row, i) => place(row, i, perUnit));
  const segments = placed.flatMap((each) => each.segments);
  const heads = rows.map((row, i) => {
    const aside = placed[i]?.aside ?? '';
    const room = outerWidth - margin.left - margin.right - textWidth(aside) - 6;
    return { run: shortenId(row.run, room), aside, y: i + 0.24 };
  });
  const y = {
    type: 'quantitative' as const,
    axis: null,
    scale: { domain: [0, rows.length], reverse: true, nice: false },
  };
  const x = {
    type: 'quantitative' as const,
    scale: { domain: [...domain], nice: false },
    axis: { title: axisTitle, tickCount: 5, grid: true },
  };
  return {
    ...frame(outerWidth, rows.length * ROW, margin),
    layer: [
      ...Object.entries(looks).flatMap(([name, look]) => {
        const mine = segments.filter((segment) => segment.name === name);
        return [
          {
            data: { values: mine.map((s) => ({ ...s, top: s.row + 0.44, bottom: s.row + 0.92 })) },
            mark: {
              type: 'rect' as const,
              fill: look.fill,
              stroke: paint.ink,
              strokeWidth: 0.75,
              opacity: 1,
            },
            encoding: {
              x: { field: 'from', ...x },
              x2: { field: 'to' },
              y: { field: 'top', ...y },
              y2: { field: 'bottom' },
            },
          },
          {
            data: {
              values: mine.map((s) => ({ label: s.label, middle: (s.from + s.to) / 2, y: s.row + 0.68 })),
            },
            mark: {
              type: 'text' as const,
              fill: look.text,
              stroke: look.halo,
              strokeWidth: 5,
              strokeJoin: 'round' as const,
            },
            encoding: {
              x: { field: 'middle', ...x },
              y: { field: 'y', ...y },
              text: { field: 'label', type: 'nominal' as const },
            },
          },
        ];
      }),
      {
        data: { values: heads },
        mark: { type: 'text', align: 'left' },
        encoding: { x: { value: 0 }, y: { field: 'y', ...y }, text: { field: 'run', type: 'nominal' } },
      },
      {
        data: { values: heads },
        mark: { type: 'text', align: 'right', fill: paint.quiet },
        encoding: {
          x: { value: 'width' },
          y: { field: 'y', ...y },
          text: { field: 'aside', type: 'nominal' },
        },
      },
    ],
  };
}

/** Sum of the shares of one sign: negative ones are drawn to the left of zero. */
function sumOf(row: BalanceRow, sign: 1 | -1): number {
  return row.parts.reduce((sum, { share }) => sum + (share * sign > 0 ? share : 0), 0);
}

function place(row: BalanceRow, index: number, perUnit: number): { segments: Segment[]; aside: string } {
  let right = 0;
  let left = 0;
  const aside: string[] = [];
  const segments = row.parts.map((part) => {
    const from = part.share < 0 ? left : right;
    const to = from + part.share;
    if (part.share < 0) left = to;
    else right = to;
    const room = Math.abs(part.share) * perUnit - 6;
    const [long, short] = part.words.map((words) => `${words} ${part.percent}`) as [string, string];
    const label = [long, short].find((text) => textWidth(text) <= room) ?? '';
    if (label === '') aside.push(short);
    return { row: index, name: part.name, from, to, label };
  });
  return { segments, aside: aside.join(', ') };
}
