import type { Timeline } from './Timeline.js';
import { partsOf, stepEntries, twoNodeStep } from './twoNodeStep.js';

/** Parameters of two nodes in the form that one temperature can tell; see `twoNodeProblem`. */
export interface TwoNodeParameters {
  readonly heatingRate: number;
  readonly lossRate: number;
  readonly couplingRate: number;
  /** Above the reference of the timeline, K. */
  readonly startK: number;
  /** Heat flow from the body at the start, in K/s of the load. */
  readonly startFlow: number;
  readonly bodyRatio: number;
}

/** Derivatives in the order heatingRate, lossRate, couplingRate, startK, startFlow; null where not asked for. */
export type TwoNodeColumns = readonly Float64Array[] | null;

/** State of a sensitivity: heat flow q and temperature T. */
const states = 6;

/**
 * One pass of two nodes, stepped exactly from node to node, with derivatives by each parameter stepped the same way.
 * Adds `share` of each reading to its block; temperatures less the reference of the timeline.
 */
export function twoNodePass(
  line: Timeline,
  share: Float64Array,
  p: TwoNodeParameters,
  predicted: Float64Array,
  columns: TwoNodeColumns,
): void {
  const s = new Float64Array(stepEntries);
  // [q, T] of the solution and of its derivatives by A, B, c, T₀, q₀.
  const z = new Float64Array(2 * states);
  z[0] = p.startFlow;
  z[1] = p.startK;
  z[9] = 1;
  z[10] = 1;
  const derive = columns !== null;
  const add = (k: number) => {
    const part = share[k]!;
    predicted[k]! += part * z[1]!;
    if (columns === null) return;
    for (let j = 0; j < columns.length; j += 1) columns[j]![k]! += part * z[2 * j + 3]!;
  };
  if (line.firstBlock >= 0) add(line.firstBlock);
  let width = Number.NaN;
  let parts = 1;
  for (let i = 0; i < line.intervals; i += 1) {
    if (line.widthS[i]! !== width) {
      width = line.widthS[i]!;
      parts = partsOf(p.lossRate, p.couplingRate, p.bodyRatio, width);
      twoNodeStep(p.lossRate, p.couplingRate, p.bodyRatio, width / parts, s);
    }
    const p0 = line.powerFromW![i]!;
    const p1 = line.powerToW![i]!;
    const a0 = line.ambientFromK === null ? 0 : line.ambientFromK[i]!;
    const a1 = line.ambientToK === null ? 0 : line.ambientToK[i]!;
    for (let part = 0; part < parts; part += 1) {
      const from = part / parts;
      const to = (part + 1) / parts;
      step(
        s,
        z,
        p,
        p0 + (p1 - p0) * from,
        p0 + (p1 - p0) * to,
        a0 + (a1 - a0) * from,
        a0 + (a1 - a0) * to,
        derive,
      );
    }
    const k = line.block[i]!;
    if (k >= 0) add(k);
  }
}

/** Carries solution and derivatives over one part: forcing in q is c·(A·P − r·B·α), in T (1 + r)·B·α, α the ambient. */
function step(
  s: Float64Array,
  z: Float64Array,
  p: TwoNodeParameters,
  p0: number,
  p1: number,
  a0: number,
  a1: number,
  derive: boolean,
): void {
  const { heatingRate: A, lossRate: B, couplingRate: c, bodyRatio: r } = p;
  const u0 = A * p0 - r * B * a0;
  const u1 = A * p1 - r * B * a1;
  const v0 = (1 + r) * B * a0;
  const v1 = (1 + r) * B * a1;
  const q = z[0]!;
  const t = z[1]!;
  if (derive) {
    advance(s, z, 2, c * p0, c * p1, 0, 0);
    advance(s, z, 4, -c * r * a0, -c * r * a1, (1 + r) * a0, (1 + r) * a1);
    addDerived(s, 12, z, 4, q, t, c * u0, c * u1, v0, v1);
    advance(s, z, 6, u0, u1, 0, 0);
    addDerived(s, 24, z, 6, q, t, c * u0, c * u1, v0, v1);
    advance(s, z, 8, 0, 0, 0, 0);
    advance(s, z, 10, 0, 0, 0, 0);
  }
  advance(s, z, 0, c * u0, c * u1, v0, v1);
}

/** z ← E·z + W₀·f₀ + W₁·f₁ for the pair at `at`. */
function advance(
  s: Float64Array,
  z: Float64Array,
  at: number,
  f0: number,
  f1: number,
  g0: number,
  g1: number,
) {
  const q = z[at]!;
  const t = z[at + 1]!;
  z[at] = s[0]! * q + s[1]! * t + s[4]! * f0 + s[5]! * g0 + s[8]! * f1 + s[9]! * g1;
  z[at + 1] = s[2]! * q + s[3]! * t + s[6]! * f0 + s[7]! * g0 + s[10]! * f1 + s[11]! * g1;
}

/** Adds the derivative of the step itself, whose matrices begin at `m`, to the pair at `at`. */
function addDerived(
  s: Float64Array,
  m: number,
  z: Float64Array,
  at: number,
  q: number,
  t: number,
  f0: number,
  f1: number,
  g0: number,
  g1: number,
) {
  z[at]! += s[m]! * q + s[m + 1]! * t + s[m + 4]! * f0 + s[m + 5]! * g0 + s[m + 8]! * f1 + s[m + 9]! * g1;
  z[at + 1]! +=
    s[m + 2]! * q + s[m + 3]! * t + s[m + 6]! * f0 + s[m + 7]! * g0 + s[m + 10]! * f1 + s[m + 11]! * g1;
}
