import type { RunEvaluation } from './types.js';

/** Steps by which readings may differ and still count as the same digits; a little more for the rounding of floats. */
const SAME_DIGITS_STEPS = 1.001;

/**
 * Fresh rounding errors are independent from run to run only while the readings move. A counter with coarse steps, or
 * a heater switched off at the same displayed degree each time, shows the same digits in every run, and its rounding
 * is then one and the same error, which repeats don't shrink. Where the readings of one kind span no more than one
 * step over all runs, their step errors are taken as shared.
 *
 * Returns the ids of those step errors, each with the reading whose rounding is shared: that of the start and that of
 * the end are two errors, which do not cancel. Empty for a single run.
 */
export function commonRounding(runs: readonly RunEvaluation[]): ReadonlyMap<string, string> {
  const shared = new Map<string, string>();
  if (runs.length < 2) return shared;
  if (runs.every((run) => run.energy.used === 'typed')) energySteps(runs, shared);
  const steps = new Set(runs.flatMap((run) => run.run.readings.map((reading) => reading.step)));
  for (const step of steps) readingSteps(runs, step, shared);
  return shared;
}

/** Of an energy the difference of two counter readings counts. */
function energySteps(runs: readonly RunEvaluation[], shared: Map<string, string>): void {
  const step = Math.max(...runs.map((run) => run.instruments.wattmeter?.resolution ?? 0));
  if (
    !spansOneStep(
      runs.map((run) => run.energy.typed.energy.value),
      step,
    )
  )
    return;
  for (const run of runs) {
    for (const which of ['energy-before', 'energy-after']) {
      shared.set(`run:${run.run.id}:${which}:step`, which);
    }
  }
}

function readingSteps(runs: readonly RunEvaluation[], step: string, shared: Map<string, string>): void {
  const readings = runs.map((run) => run.run.readings.findLast((reading) => reading.step === step));
  const instruments = runs.map((run, i) => {
    const id = readings[i]?.instrument;
    return Object.values(run.instruments).find((instrument) => instrument.id === id);
  });
  if (readings.some((reading) => reading === undefined) || instruments.some((each) => each === undefined))
    return;
  const resolution = Math.max(...instruments.map((instrument) => instrument?.resolution ?? 0));
  if (
    !spansOneStep(
      readings.map((reading) => reading?.si as number),
      resolution,
    )
  )
    return;
  runs.forEach((run, i) => {
    shared.set(`run:${run.run.id}:${readings[i]?.seq}:step`, step);
  });
}

function spansOneStep(values: readonly number[], step: number): boolean {
  return Math.max(...values) - Math.min(...values) <= SAME_DIGITS_STEPS * step;
}
