import { expect } from 'vitest';
import type { HeatledgerError } from '../../../src/errors/index.js';
import {
  counterEnergy,
  describeLog,
  energyUncertainty,
  type Log,
  type LogFile,
  logSummary,
  onOffEdges,
} from '../../../src/logs/index.js';

/** What an export that could be read comes to. */
export interface Outcome {
  readonly rows: number;
  readonly energyWh: number | null;
  /** Standard uncertainty of the energy from the sources that are known. */
  readonly energyUWh: number;
  readonly counterWh: number | null;
  readonly counterUWh: number;
  /** One step of the counter; 0 where there is none. */
  readonly stepWh: number;
  readonly hasPower: boolean;
  readonly described: readonly string[];
  readonly warnings: readonly string[];
}

// What stands in quotation marks is the file's own text.
const ownWords = (text: string) => text.replace(/"[^"]*"?/g, '');
const insane = /undefined|NaN|\[object|Infinity|\bnull\b/;

/** Takes all that an import takes from a log, and asks that every number is finite and every sentence sane. */
export function outcomeOf(log: Log | LogFile): Outcome {
  const described = describeLog(log);
  const summary = logSummary(log);
  for (const text of [...described, ...summary.warnings]) expect(ownWords(text)).not.toMatch(insane);
  expectFinite(summary, 'summary');
  if ('timesS' in log)
    expect(log.timesS.findIndex((time, i) => i > 0 && !(time > log.timesS[i - 1]!))).toBe(-1);
  const { energyWh, counterEnergyWh } = summary;
  const stepWh = (log.resolution.energyJ ?? 0) / 3600;
  const outcome = {
    rows: log.rows,
    energyWh,
    // Half a step of the counter at either end, rectangular.
    energyUWh: energyWh === null ? 0 : (powerUWh(log) ?? stepWh / Math.sqrt(6)),
    counterWh: counterEnergyWh,
    counterUWh: stepWh / Math.sqrt(6),
    stepWh,
    hasPower: hasPower(log),
    described,
    warnings: summary.warnings,
  };
  expectFinite(outcome, 'outcome');
  return outcome;
}

function hasPower(log: Log | LogFile): boolean {
  return 'outline' in log ? log.has.power : log.powerW !== null;
}

/** `null` where the energy is the counter's. */
function powerUWh(log: Log | LogFile): number | null {
  const { onS: fromS, offS: toS } = onOffEdges(log);
  if (!hasPower(log)) {
    expectFinite(counterEnergy(log, { fromS, toS }), 'counter');
    return null;
  }
  const found = energyUncertainty(log, { fromS, toS });
  expectFinite({ ...found, sources: found.sources.map((each) => each.standardUncertaintyJ) }, 'uncertainty');
  return found.combinedJ / 3600;
}

function expectFinite(value: unknown, path: string): void {
  if (typeof value === 'number') {
    if (!Number.isFinite(value)) expect.fail(`${path} is ${value}`);
  } else if (value !== null && typeof value === 'object') {
    for (const [key, part] of Object.entries(value)) expectFinite(part, `${path}.${key}`);
  }
}

/** Asks that an error says where, in words that make sense. */
export function expectSane(error: HeatledgerError): void {
  expect(ownWords(`${error.message} ${error.hint ?? ''}`)).not.toMatch(insane);
  expect(error.message).toMatch(/^["\p{Lu}].*[.?]$/su);
  expect(error.place.file ?? error.place.key).toMatch(/\S/);
}
