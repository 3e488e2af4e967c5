/** At `xS` seconds from the middle the offset of the clocks lies between these two. */
export interface Gate {
  readonly xS: number;
  readonly leastS: number;
  readonly mostS: number;
}

/** Mean and standard deviations of offset and drift when nothing is known but that they pass all gates. */
export interface FeasibleClocks {
  readonly offsetS: number;
  readonly offsetUS: number;
  readonly drift: number;
  readonly driftU: number;
}

type Point = readonly [offset: number, drift: number];

/**
 * Offset and drift of a straight line that passes all gates, uniform over the polygon of those that do (JCGM 101,
 * 6.4.2: only limits are known). Brackets of switchings in step with the readings all err alike, so averaging them
 * would claim too much; the polygon holds the truth whatever they have in common. `null` where no line passes.
 */
export function feasibleClocks(gates: readonly Gate[], mostDrift: number): FeasibleClocks | null {
  const reach = Math.max(...gates.map(({ xS }) => Math.abs(xS))) * mostDrift;
  const least = Math.min(...gates.map(({ leastS }) => leastS)) - reach - 1;
  const most = Math.max(...gates.map(({ mostS }) => mostS)) + reach + 1;
  let polygon: Point[] = [
    [least, -mostDrift],
    [most, -mostDrift],
    [most, mostDrift],
    [least, mostDrift],
  ];
  for (const { xS, leastS, mostS } of gates) {
    polygon = clipped(polygon, ([offset, drift]) => offset + drift * xS - leastS);
    polygon = clipped(polygon, ([offset, drift]) => mostS - offset - drift * xS);
    if (polygon.length < 3) return null;
  }
  return moments(polygon);
}

/** The part of a polygon in which `inside` is not negative (Sutherland and Hodgman). */
function clipped(polygon: readonly Point[], inside: (point: Point) => number): Point[] {
  const kept: Point[] = [];
  for (let i = 0; i < polygon.length; i++) {
    const [a, b] = [polygon[i]!, polygon[(i + 1) % polygon.length]!];
    const [da, db] = [inside(a), inside(b)];
    if (da >= 0) kept.push(a);
    if (da >= 0 !== db >= 0) {
      const share = da / (da - db);
      kept.push([a[0] + share * (b[0] - a[0]), a[1] + share * (b[1] - a[1])]);
    }
  }
  return kept;
}

/** Centroid and standard deviations of a convex polygon, summed over the triangles from its first corner. */
function moments(polygon: readonly Point[]): FeasibleClocks | null {
  const corner = polygon[0]!;
  let [area, sum0, sum1, square0, square1] = [0, 0, 0, 0, 0];
  for (let i = 1; i + 1 < polygon.length; i++) {
    const [a, b] = [polygon[i]!, polygon[i + 1]!].map(([o, d]) => [o - corner[0], d - corner[1]] as const);
    const [[a0, a1], [b0, b1]] = [a!, b!];
    const part = Math.abs(a0 * b1 - a1 * b0) / 2;
    area += part;
    sum0 += (part * (a0 + b0)) / 3;
    sum1 += (part * (a1 + b1)) / 3;
    square0 += (part * (a0 * a0 + a0 * b0 + b0 * b0)) / 6;
    square1 += (part * (a1 * a1 + a1 * b1 + b1 * b1)) / 6;
  }
  if (!(area > 0)) return null;
  const [mean0, mean1] = [sum0 / area, sum1 / area];
  return {
    offsetS: corner[0] + mean0,
    offsetUS: Math.sqrt(Math.max(0, square0 / area - mean0 ** 2)),
    drift: corner[1] + mean1,
    driftU: Math.sqrt(Math.max(0, square1 / area - mean1 ** 2)),
  };
}
