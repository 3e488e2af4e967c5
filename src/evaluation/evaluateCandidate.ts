import { HeatledgerError } from '../errors/index.js';
import type { Log } from '../logs/index.js';
import { type Protocol, readingOf } from '../protocols/index.js';
import { SourceBook } from '../uncertainty/index.js';
import { formatQuantity } from '../units/index.js';
import type { RunRecord, Workbook } from '../workbook/index.js';
import { evaluateRun } from './evaluateRun.js';

export interface Candidate {
  /** Logged and typed energy in joules, where both are there. */
  readonly energy: {
    readonly loggedJ: number;
    readonly typedJ: number;
    readonly counterJ: number | null;
  } | null;
  /** The comparison in words. */
  readonly lines: readonly string[];
  /** What speaks against the log, or null. */
  readonly error: HeatledgerError | null;
}

/**
 * What a run would come to with a log that is not kept yet: its energy beside the counter in the export and the one
 * typed at the bench. A run that isn't finished has nothing to compare with.
 */
export function evaluateCandidate(
  workbook: Workbook,
  protocol: Protocol,
  run: RunRecord,
  role: 'powerLog' | 'temperatureLog',
  log: Log,
): Candidate {
  // What a hold or a boil-off meters is compared when all its runs are evaluated.
  if (role === 'temperatureLog' || protocol.evaluates !== 'efficiency')
    return { energy: null, lines: [], error: null };
  if (
    readingOf(protocol, run, 'energyAfter') === null ||
    readingOf(protocol, run, 'endTemperature') === null
  ) {
    return { energy: null, lines: ['The run is not finished; energies are compared later.'], error: null };
  }
  try {
    const evaluation = evaluateRun({
      book: new SourceBook(),
      workbook,
      run,
      protocol,
      powerLog: log,
      temperatureLog: null,
    });
    const { typed, logged, counter } = evaluation.energy;
    const kWh = (joules: number) => formatQuantity(joules, 'energy', 'kWh', 4);
    return {
      energy: {
        loggedJ: logged?.energy.value ?? Number.NaN,
        typedJ: typed.energy.value,
        counterJ: counter?.energy.value ?? null,
      },
      lines: [
        `logged ${logged ? kWh(logged.energy.value) : 'nothing'}, counter in the export ${counter ? kWh(counter.energy.value) : 'none'}, typed at the bench ${kWh(typed.energy.value)}: they agree`,
      ],
      error: null,
    };
  } catch (error) {
    if (!(error instanceof HeatledgerError)) throw error;
    // Only what the log itself brings speaks against it; anything else of the run is said when it is evaluated.
    if (error.code === 'energy-disagrees' || error.code.startsWith('log-'))
      return { energy: null, lines: [], error };
    return { energy: null, lines: [`The energies can't be compared yet: ${error.message}`], error: null };
  }
}
