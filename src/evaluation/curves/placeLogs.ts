import { HeatledgerError, problem } from '../../errors/index.js';
import { alignLogs, type Log, onOffEdges } from '../../logs/index.js';
import { markMs } from '../../protocols/index.js';
import type { RunContext } from '../RunContext.js';
import type { CurveClocks } from './types.js';

/** The logs of a run on one clock, that of the temperature log: seconds after its first sample. */
export interface PlacedLogs {
  readonly temperature: Log;
  readonly power: Log | null;
  /** First sample of the power log. */
  readonly powerStartS: number;
  readonly clocks: CurveClocks;
}

/** A hand presses Enter within this time of the switch; common practice, no source. */
const MARK_HALF_WIDTH_S = 10;
/** Mark and switchings apart by more than this many standard uncertainties: the mark was typed afterwards. */
const APART = 3;

/**
 * Where power and temperature of a run stand to each other: in one log, by their clocks where both have one, by the mark
 * of switch-on at the bench where the temperature log alone has one, else by the switchings that both show. Throws
 * `curve-no-temperature`, and `curve-clocks` where the power is needed and can't be laid.
 */
export function placeLogs(
  context: RunContext,
  { powerLog, temperatureLog }: { readonly powerLog: Log | null; readonly temperatureLog: Log | null },
  powerNeeded: boolean,
): PlacedLogs {
  const temperature = temperatureLog?.temperatureK
    ? temperatureLog
    : powerLog?.temperatureK
      ? powerLog
      : null;
  if (temperature === null) {
    const run = context.run.id;
    throw problem(
      'curve-no-temperature',
      { run },
      { file: run },
      `Take one in with: heatledger import FILE --run ${run}`,
    );
  }
  const power = powerLog?.powerW ? powerLog : temperature.powerW ? temperature : null;
  const placed = (
    powerStartS: number,
    how: CurveClocks['how'],
    words: string,
    standardUncertaintyS: number,
  ) => ({
    temperature,
    power,
    powerStartS,
    clocks: { how, words, standardUncertaintyS },
  });
  if (power === null) return placed(0, 'no power', 'no power was logged', 0);
  if (power === temperature) return placed(0, 'one log', 'power and temperature are in one log', 0);
  if (power.startUtcMs !== null && temperature.startUtcMs !== null)
    return placed((power.startUtcMs - temperature.startUtcMs) / 1000, 'clock', 'both logs have a clock', 0);
  const aligned = bySwitchings(power, temperature);
  const marked = byMark(context, power, temperature);
  const apart = (limit: number) =>
    marked !== null && 'startS' in aligned && Math.abs(marked.startS - aligned.startS) > limit;
  if (marked !== null && !('startS' in aligned && apart(APART * Math.hypot(aligned.u, marked.u))))
    return placed(
      marked.startS,
      'mark',
      'the power log is laid by the mark of switch-on at the bench',
      marked.u,
    );
  if ('startS' in aligned)
    return placed(
      aligned.startS,
      'switchings',
      'the two logs are laid by the switchings that both show',
      aligned.u,
    );
  if (!powerNeeded)
    return {
      ...placed(0, 'no power', 'the power log could not be laid on the clock of the temperature log', 0),
      power: null,
    };
  throw problem(
    'curve-clocks',
    { run: context.run.id, why: aligned.why },
    { file: context.run.id },
    'Export the logs with date and time, or fit the cool-down alone: --model cool-down',
  );
}

/** Switch-on in the power log against its mark, in a temperature log with a clock. */
function byMark(context: RunContext, power: Log, temperature: Log): { startS: number; u: number } | null {
  const on = markMs(context.protocol, context.run, 'switchOn');
  if (on === null || temperature.startUtcMs === null) return null;
  try {
    const { onS, onBracketS } = onOffEdges(power);
    const bracket = onBracketS[1] - onBracketS[0];
    const u = Math.hypot(2 * MARK_HALF_WIDTH_S, bracket) / Math.sqrt(12);
    return { startS: (on - temperature.startUtcMs) / 1000 - onS, u };
  } catch (error) {
    if (error instanceof HeatledgerError) return null;
    throw error;
  }
}

function bySwitchings(power: Log, temperature: Log): { startS: number; u: number } | { why: string } {
  try {
    const { offsetS, offsetUS } = alignLogs(power, temperature);
    return { startS: -offsetS, u: offsetUS };
  } catch (error) {
    if (error instanceof HeatledgerError) return { why: error.message };
    throw error;
  }
}
