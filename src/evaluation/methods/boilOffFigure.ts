import { compareTwo } from '../../statistics/index.js';
import { propagate, type Quantity, type SourceBook, subtract } from '../../uncertainty/index.js';
import type { Heater } from '../../workbook/index.js';
import { ASSUMED_RELATIVE_SPREAD } from '../evaluateFigure.js';
import type { KnownBody, KnownLoss } from '../losses/types.js';
import type { RunEvaluation } from '../types.js';
import type { BoilOff } from './boilOffRun.js';
import { reachedLoad } from './reachedLoad.js';
import { pooledValue } from './methodValue.js';
import type { Agreement, MethodFigure, MethodValue } from './types.js';
import { halfOf, runsWords, valueWords } from './valueWords.js';

/** What a boil-off is held against. */
export interface BoilOffBeside {
  /** The loss to the room, steam apart; null where none is known. */
  readonly loss: KnownLoss | null;
  readonly body: KnownBody | null;
  /** Heatings of the same heater and setting from a rest start, by the thermometer. */
  readonly heatings: readonly RunEvaluation[];
}

/** Boil-offs of one heater and setting together, and whether the thermometer says the same. */
export function boilOffFigure(
  book: SourceBook,
  heater: Heater,
  runs: readonly BoilOff[],
  beside: BoilOffBeside,
): MethodFigure {
  const [first] = runs as [BoilOff];
  const { setting } = first.run;
  const value = (
    name: string,
    meaning: string,
    quantities: readonly Quantity[],
    conditionalOn: string | null = null,
  ) =>
    pooledValue({ name, meaning, unit: '1', conditionalOn }, quantities, {
      id: `heater:${heater.id}:${setting}:boil-off:${name}`,
      relative: ASSUMED_RELATIVE_SPREAD,
      book,
    });
  const plain = value(
    'boilOffEfficiency',
    'heat of the steam over the metered energy, at the boil',
    runs.map((run) => run.quantities.boilOffEfficiency as Quantity),
  );
  const { loss, heatings, body } = beside;
  const whole =
    loss &&
    value(
      'reachedLoadAtBoil',
      'heat of the steam and loss to the room over the metered energy, at the boil',
      runs.map((run) => run.withLoss(loss.uaWPerK)),
      `the loss to the room by ${loss.from}`,
    );
  const heated =
    loss && heatings.length > 0
      ? value(
          'reachedLoadByThermometer',
          'heat of water, steam, vessel and body, and loss to the room, over the metered energy, by the thermometer',
          heatings.map((run) => reachedLoad(book, run, loss, body)),
          `the loss to the room by ${loss.from}`,
        )
      : null;
  const agreement = whole && heated ? agreementOf(whole, heated, heatings[0]?.protocol.name ?? '') : null;
  const added = whole && `With the loss to the room added, ${percent(whole)} reached the load (${loss.from})`;
  return {
    method: 'boil-off',
    heater,
    setting,
    lid: null,
    protocol: first.protocol,
    runs,
    values: [plain, ...(whole ? [whole] : []), ...(heated ? [heated] : [])],
    covariance: null,
    agreement,
    lines: [
      `At the boil ${percent(plain)} of the energy left as steam (${runsWords(runs.length)}, without the thermometer)`,
      ...(agreement ? [agreement.sentence] : added ? [added] : []),
    ],
    lacks: lackOf(beside),
    warnings: [],
  };
}

function lackOf({ loss, heatings }: BoilOffBeside): string | null {
  if (loss === null)
    return 'It can’t be held against the heating of water yet: at the boil more is lost to the room. A cool-down that was weighed gives that loss. Next: heatledger test cool-down';
  if (heatings.length === 0)
    return 'There is no heating of water at this setting to hold it against. Next: heatledger test water-heating';
  return null;
}

/** Whether two values differ by more than their difference can be explained by; shared sources cancel. */
function agreementOf(first: MethodValue, second: MethodValue, protocol: string): Agreement {
  const found = propagate(subtract(first.quantity, second.quantity));
  const { standardUncertainty: u, degreesOfFreedom } = found;
  const compared = compareTwo({
    difference: found.value,
    standardUncertainty: u,
    degreesOfFreedom,
    coverage: 0.95,
  });
  const points = valueWords(found.value, (compared.interval[1] - compared.interval[0]) / 2, 'points', 0.01);
  const verdict = compared.settled
    ? `they don’t agree (difference ${points}). Look for a wrong weight, a lid, or splashing`
    : `they agree (difference ${points})`;
  return {
    agree: !compared.settled,
    first,
    second,
    difference: found.value,
    standardUncertainty: u,
    interval: compared.interval,
    probabilityOfMore: compared.probabilityHigher,
    sentence: `With the loss to the room added, ${percent(first)} reached the load at the boil and ${percent(second)} by the thermometer (${protocol}): ${verdict}.`,
  };
}

const percent = (value: MethodValue): string => valueWords(value.value, halfOf(value), '%', 0.01);
