import { roundToUncertainty } from '../../uncertainty/index.js';
import type { RunEvaluation } from '../types.js';

const courses = {
  log: 'the temperature log',
  readings: 'temperatures read on the way',
  ends: 'start and end only',
} as const;

/** A share in per cent with its expanded uncertainty. */
function percent({ value, expandedUncertainty }: { value: number; expandedUncertainty: number }): string {
  const rounded = roundToUncertainty(100 * value, 100 * expandedUncertainty);
  return `${rounded.value} ± ${rounded.uncertainty} %`;
}

/** What the loss to the room of a run rests on, and its efficiency without it or why that can't be had. */
export function lossWords(run: RunEvaluation): string[] {
  const lines: string[] = [];
  if (run.loss) {
    const { uaWPerK, from, course, why, fromThisRun } = run.loss;
    const ua = roundToUncertainty(uaWPerK.value, uaWPerK.expandedUncertainty);
    lines.push(`room: ${ua.value} ± ${ua.uncertainty} W/K from ${from}`);
    if (course !== null) lines.push(`temperature over the run from ${courses[course]}`);
    if (why !== null) lines.push(`room and rest not separated. ${why}`);
    if (fromThisRun && why === null)
      lines.push('the loss was measured in this very run: that its balance closes proves nothing');
  }
  const { lossFree } = run;
  if (lossFree?.efficiency) lines.push(`without the loss to the room: ${percent(lossFree.efficiency)}`);
  else if (lossFree?.why) lines.push(`without the loss to the room: can’t be told. ${lossFree.why}`);
  return lines;
}
