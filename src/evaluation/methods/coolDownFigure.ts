import type { SourceBook } from '../../uncertainty/index.js';
import type { Heater } from '../../workbook/index.js';
import type { KnownLoss } from '../losses/types.js';
import { pooledValue } from './methodValue.js';
import type { MethodFigure, MethodRun } from './types.js';
import { halfOf, runsWords, valueWords } from './valueWords.js';

/** How far the loss to the room differs from run to run, relative standard deviation; common practice, no source. */
export const LOSS_SPREAD = 0.03;
/** Water masses that differ by more lose through walls wetted to another height. */
const SAME_FILL = 0.1;

/** Cool-downs of one heater, lid alike, together. */
export function coolDownFigure(book: SourceBook, heater: Heater, runs: readonly MethodRun[]): MethodFigure {
  const [first] = runs as [MethodRun];
  const lid = (first.facts.lid ?? null) as string | null;
  const holdsVapour = runs.some((run) => run.facts.holdsVapour === 'yes');
  const spread = (id: string) => ({
    id: `heater:${heater.id}:cool-down:${lid}:${id}`,
    relative: LOSS_SPREAD,
    book,
  });
  const conditionalOn = holdsVapour ? 'steam under the lid, which was not weighed and counts as loss' : null;
  const ua = pooledValue(
    { name: 'ua', meaning: 'UA, loss to the room for each kelvin', unit: 'W/K', conditionalOn },
    runs.map((run) => run.quantities.ua as never),
    spread('ua'),
  );
  const tau = pooledValue(
    { name: 'timeConstant', meaning: 'τ = C/UA', unit: 's', conditionalOn },
    runs.map((run) => run.quantities.timeConstant as never),
    spread('tau'),
  );
  const where = lid === null ? '' : `, lid ${lid}`;
  const steam = holdsVapour ? ', steam counted in' : ', steam apart';
  return {
    method: 'cool-down',
    heater,
    setting: null,
    lid,
    protocol: first.protocol,
    runs,
    values: [ua, tau],
    covariance: null,
    agreement: null,
    lines: [
      `Loss to the room${where}: ${valueWords(ua.value, halfOf(ua), 'W/K')} (${runsWords(runs.length)}${steam})`,
      `Time constant${where}: ${valueWords(tau.value, halfOf(tau), 'min', 60)}`,
    ],
    lacks: holdsVapour
      ? 'The steam was not weighed: a second weighing at the end would tell it from the loss to the room.'
      : null,
    warnings: fillWarnings(runs),
  };
}

function fillWarnings(runs: readonly MethodRun[]): string[] {
  const masses = runs.map((run) => run.facts.waterKg as number);
  const [least, most] = [Math.min(...masses), Math.max(...masses)];
  if (most <= (1 + SAME_FILL) * least) return [];
  return [
    `These cool-downs had ${least.toFixed(2)} to ${most.toFixed(2)} kg of water; the loss to the room grows with the fill.`,
  ];
}

/** The loss that these cool-downs give to a heat balance. */
export function knownLossOf({ values, runs, lid }: MethodFigure): KnownLoss {
  const ids = runs.map(({ run }) => run.id);
  return {
    uaWPerK: (values[0] as MethodFigure['values'][number]).quantity,
    from: `the ${ids.length === 1 ? 'cool-down' : 'cool-downs'} of ${ids.length === 1 ? 'run' : 'runs'} ${ids.join(', ')}${lid === null ? '' : ` (lid ${lid})`}`,
    fromRuns: ids,
    holdsVapour: runs.some((run) => run.facts.holdsVapour === 'yes'),
  };
}
