/** How the clock of one logger, B, stands to that of another, A: tA = tB + offset + drift·(tB − at). */
export interface ClockAlignment {
  /** Time of A less time of B at the moment `atS`; both in seconds after the first sample of their log. */
  readonly offsetS: number;
  readonly offsetUS: number;
  /** In seconds of B: the middle of the edges used. */
  readonly atS: number;
  /** How much faster the time of A runs, in millionths; `null` where one edge can't tell. */
  readonly driftPpm: number | null;
  readonly driftUPpm: number | null;
}

/**
 * The moment in log A that belongs to a moment in log B. The uncertainty grows away from the edges that the
 * alignment was found from; with an unknown drift it is known at `atS` only, and `null` elsewhere.
 *
 * Formula: u² = u²(offset) + (tB − at)²·u²(drift). Units: seconds after the first sample of either log.
 *
 * @example
 * const clocks = { offsetS: 12, offsetUS: 0.3, atS: 100, driftPpm: 50, driftUPpm: 40 };
 * timeInA(clocks, 10100).timeS // => 10112.5
 * timeInA(clocks, 10100).standardUncertaintyS // => 0.50
 */
export function timeInA(
  alignment: ClockAlignment,
  timeInB: number,
): { readonly timeS: number; readonly standardUncertaintyS: number | null } {
  const { offsetS, offsetUS, atS, driftPpm, driftUPpm } = alignment;
  const awayS = timeInB - atS;
  const timeS = timeInB + offsetS + 1e-6 * (driftPpm ?? 0) * awayS;
  if (driftUPpm !== null)
    return { timeS, standardUncertaintyS: Math.hypot(offsetUS, 1e-6 * driftUPpm * awayS) };
  return { timeS, standardUncertaintyS: awayS === 0 ? offsetUS : null };
}
