import { problem } from '../../errors/index.js';
import { markMs } from '../../protocols/index.js';
import { formatDuration } from '../../units/index.js';
import type { RunContext } from '../RunContext.js';

/** What the marks of a run bound. */
export interface Interval {
  readonly fromMs: number;
  readonly toMs: number;
  readonly durationS: number;
}

const names = {
  'cool-down': 'The cool-down',
  hold: 'The hold',
  'boil-off': 'The boiling',
  efficiency: 'The heating',
} as const;

/** The time between two marks of a run, at least what its protocol asks for. */
export function intervalOf(
  context: RunContext,
  from: 'begin' | 'switchOn',
  to: 'end' | 'switchOff',
): Interval {
  const { protocol, run } = context;
  const fromMs = markMs(protocol, run, from);
  const toMs = markMs(protocol, run, to);
  const what = names[protocol.evaluates];
  if (fromMs === null || toMs === null)
    throw problem('method-time-missing', { run: run.id, what }, { file: run.id });
  const durationS = (toMs - fromMs) / 1000;
  const least = protocol.limits.minimumDuration ?? 0;
  if (!(durationS > 0) || durationS < least - 0.5)
    throw problem(
      'method-too-short',
      { run: run.id, what, got: formatDuration(durationS), least: formatDuration(least) },
      { file: run.id },
    );
  return { fromMs, toMs, durationS };
}
