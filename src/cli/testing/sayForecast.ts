import { type Figure, evaluateWorkbook, forecastWords } from '../../evaluation/index.js';
import type { FirstSitting, Protocol } from '../../protocols/index.js';
import type { RunRecord, Workbook } from '../../workbook/index.js';
import type { TerminalBench } from '../TerminalBench.js';

/** What this test will give, before water is drawn: more water is the cheapest help there is. */
export function sayForecast(
  bench: TerminalBench,
  workbook: Workbook,
  protocol: Protocol,
  heater: string,
  setting: string,
  instruments: RunRecord['instruments'],
  first: FirstSitting | null,
  like: RunRecord | undefined,
): void {
  const found = workbook.heaters.get(heater);
  if (!found) return;
  const before = like === undefined ? undefined : figureOf(workbook, like.id);
  const waterKg = first?.waterKg ?? before?.runs.at(-1)?.conditions.waterKg ?? 1.5;
  bench.say(
    forecastWords({
      workbook,
      protocol,
      heater: found,
      setting,
      instruments,
      waterKg,
      riseK: 40,
      startK: 293.15,
      powerW: found.ratedPower ?? 1000,
      efficiency: before?.efficiency.value ?? 0.6,
      weighAfter: true,
      lid: 'on',
      vesselKg: 1,
      runs: 1,
    }),
  );
}

function figureOf(workbook: Workbook, run: string): Figure | undefined {
  return evaluateWorkbook(workbook).figures.find((figure) => figure.runs.some((each) => each.run.id === run));
}
