import { HeatledgerError } from '../../errors/index.js';
import { type HeaterFromFills, twoFills } from '../../fitting/index.js';
import { dueFill } from '../../protocols/index.js';
import type { Quantity, SourceBook } from '../../uncertainty/index.js';
import type { Heater } from '../../workbook/index.js';
import { ASSUMED_RELATIVE_SPREAD } from '../evaluateFigure.js';
import { testedRange } from '../losses/testedRange.js';
import { transferFromFills } from '../losses/transferFromFills.js';
import type { KnownBody, KnownTransfer } from '../losses/types.js';
import type { RunEvaluation } from '../types.js';
import type { FillRun } from './fillRun.js';
import { methodValue, pooledValue } from './methodValue.js';
import type { MethodFigure, MethodValue } from './types.js';
import { halfOf, runsWords, valueWords } from './valueWords.js';

/** What several fills of one heater and setting tell together. */
export interface FillsFigure extends MethodFigure {
  /** Null with one fill. */
  readonly found: HeaterFromFills | null;
  readonly runs: readonly FillRun[];
}

/** κ and the body's heat capacity from runs at two fills or more; from one fill κ conditional on C, and which fill is due. */
export function fillsFigure(book: SourceBook, heater: Heater, runs: readonly FillRun[]): FillsFigure {
  const [first] = runs as [FillRun];
  const { setting } = first.run;
  const names = [...new Set(runs.map(({ fillName }) => fillName))];
  const due = dueFill(
    first.protocol,
    runs.map(({ run }) => run),
  );
  const common = { method: 'two-fills', heater, setting, lid: null, protocol: first.protocol, runs } as const;
  const next = `Next: heatledger test two-fills --heater ${heater.id} --setting ${setting}`;
  const failed = (why: string) => ({
    ...common,
    ...atOneFill(book, runs),
    found: null,
    covariance: null,
    agreement: null,
    lacks: why,
    warnings: [],
  });
  if (names.length < 2)
    return failed(`Only the fill ${names[0]} was tested. ${due?.words ?? 'Another fill is due'}. ${next}`);
  try {
    const found = twoFills(
      runs.map(({ fill }) => fill),
      first.vessel,
    );
    return { ...common, ...atTwoFills(found, runs), found, agreement: null };
  } catch (error) {
    if (!(error instanceof HeatledgerError)) throw error;
    return failed(error.message);
  }
}

const kappaName = {
  name: 'kappa',
  meaning: 'κ, part of the metered energy that reaches body and load',
  unit: '1',
};
const bodyName = {
  name: 'bodyHeatCapacity',
  meaning: 'heat capacity of the heater body, as far as it follows the load',
  unit: 'J/K',
};

function atTwoFills(found: HeaterFromFills, runs: readonly FillRun[]) {
  const kappa = methodValue(kappaName, found.kappa);
  const body = methodValue(bodyName, found.bodyHeatCapacityJPerK);
  const losses = found.ua.flatMap((ua, i) => (ua === null ? [] : [lossValue(ua, runs[i] as FillRun)]));
  return {
    values: [kappa, body, ...losses],
    covariance: found.covariance,
    lines: [
      `${percent(kappa)} of the energy reaches body and load (κ, ${runsWords(runs.length)} at two fills)`,
      `The heater body takes ${valueWords(body.value, halfOf(body), 'J/K')}`,
    ],
    lacks: null,
    warnings:
      body.interval[1] < 0
        ? ['A heater body can’t take less than nothing: look for a wrong weight or rise.']
        : [],
  };
}

function lossValue(ua: Quantity, { run, facts }: FillRun): MethodValue {
  const kg = (facts.waterKg as number).toFixed(2);
  const meaning = `UA while heating ${kg} kg, steam counted in (run ${run.id})`;
  return methodValue({ name: 'uaHeating', meaning, unit: 'W/K' }, ua);
}

function atOneFill(book: SourceBook, runs: readonly FillRun[]) {
  const [first] = runs as [FillRun];
  const conditionalOn = 'a heater body that holds no heat; what it holds raises κ by its share';
  const kappa = pooledValue(
    { ...kappaName, conditionalOn },
    runs.map(({ quantities }) => quantities.kappaWithoutBody as Quantity),
    {
      id: `heater:${first.run.heater}:${first.run.setting}:one-fill`,
      relative: ASSUMED_RELATIVE_SPREAD,
      book,
    },
  );
  return {
    values: [kappa],
    lines: [
      `If the heater body held no heat, ${percent(kappa)} of the energy would reach the load (κ at one fill, ${runsWords(runs.length)})`,
    ],
  };
}

const percent = (value: MethodValue): string => valueWords(value.value, halfOf(value), '%', 0.01);

/** The heat capacity of the body as two fills give it; null with one fill. */
export function knownBodyOf({ found, runs }: FillsFigure): KnownBody | null {
  if (found === null || !(found.bodyHeatCapacityJPerK.value > 0)) return null;
  return {
    heatCapacityJPerK: found.bodyHeatCapacityJPerK,
    from: `two fills, ${runsWords(runs.length)}`,
  };
}

/** What two fills carry to a figure of the same heater and setting; null with one fill. */
export function knownTransferOf({ found, runs }: FillsFigure): KnownTransfer | null {
  if (found === null) return null;
  const evaluations = runs.map(({ efficiency }) => efficiency as RunEvaluation);
  return transferFromFills(
    found,
    runs.map(({ facts }) => facts.waterKg as number),
    (runs[0] as FillRun).vessel,
    testedRange(evaluations),
    `the ${runsWords(runs.length)} at two fills`,
  );
}
