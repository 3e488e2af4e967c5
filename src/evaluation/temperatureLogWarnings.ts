import { turningPoint } from '../fitting/index.js';
import type { Log } from '../logs/index.js';
import { markMs, readingOf } from '../protocols/index.js';
import type { Quantity } from '../uncertainty/index.js';
import { propagate } from '../uncertainty/index.js';
import type { RunContext } from './RunContext.js';

/** Difference that stirring and the place of two probes explain; common practice, no source. */
const PROBES_APART_K = 0.5;

/**
 * Compares the end temperature typed at the bench with the turning point of the log. The maximum of a noisy log lies
 * too high, so the log's is a local quadratic through the turning point.
 */
export function temperatureLogWarnings(context: RunContext, log: Log | null, end: Quantity): string[] {
  if (log?.temperatureK == null || log.startUtcMs === null) return [];
  const off = markMs(context.protocol, context.run, 'switchOff');
  if (off === null) return [];
  const known = Array.from(log.temperatureK, (_, i) => i).filter((i) => !Number.isNaN(log.temperatureK?.[i]));
  const found = turningPoint({
    timesS: known.map((i) => log.timesS[i] as number),
    temperaturesK: known.map((i) => log.temperatureK?.[i] as number),
    fromS: (off - log.startUtcMs) / 1000 - 60,
  });
  if (found.verdict !== 'found' || found.temperatureK === null) {
    return [`The temperature log has no turning point after switch-off: ${found.verdict}.`];
  }
  const u = Math.hypot(propagate(end).standardUncertainty, found.standardUncertainty ?? 0);
  // The log is as the thermometer wrote it: it is held against the reading as typed, before any correction.
  const typedK = readingOf(context.protocol, context.run, 'endTemperature')?.si ?? end.value;
  const gap = found.temperatureK - typedK;
  if (Math.abs(gap) <= Math.max(PROBES_APART_K, 3 * u)) return [];
  const celsius = (kelvin: number) => (kelvin - 273.15).toFixed(2);
  return [
    `The log turns at ${celsius(found.temperatureK)} °C, the end temperature was typed as ${celsius(typedK)} °C.`,
  ];
}
