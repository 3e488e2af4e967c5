import type { AlignedLogs } from '../../logs/index.js';
import { roundToUncertainty } from '../../uncertainty/index.js';

/** How the clock of another export stands to that of this one, for a person. */
export function besideWords(name: string, clocks: AlignedLogs): string[] {
  const { offsetS, offsetUS, driftPpm, driftUPpm, edges, evidence } = clocks;
  const offset = roundToUncertainty(offsetS, 2 * offsetUS);
  const count = edges.length === 1 ? 'one switching' : `${edges.length} switchings`;
  return [
    `time in ${name} plus ${offset.value} ± ${offset.uncertainty} s is time here, each counted from its own first reading (${count})`,
    driftPpm === null || driftUPpm === null
      ? 'one switching says nothing of a drift between the two clocks'
      : `drift between the two clocks ${driftWords(driftPpm, 2 * driftUPpm)}`,
    `${evidence}`,
  ];
}

function driftWords(ppm: number, expanded: number): string {
  // In seconds an hour, which a person can hold against a watch.
  const drift = roundToUncertainty(ppm * 0.0036, expanded * 0.0036);
  return `${drift.value} ± ${drift.uncertainty} s an hour`;
}
