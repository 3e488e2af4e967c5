import { HeatledgerError } from '../../errors/index.js';
import type { SourceBook } from '../../uncertainty/index.js';
import type { Workbook } from '../../workbook/index.js';
import type { KnownBody, KnownLoss } from '../losses/types.js';
import type { RefusedRun, RunEvaluation } from '../types.js';
import { boilOffFigure } from './boilOffFigure.js';
import { boilOffRun } from './boilOffRun.js';
import { coolDownFigure, knownLossOf } from './coolDownFigure.js';
import { coolDownRun } from './coolDownRun.js';
import { fillRun } from './fillRun.js';
import { type FillsFigure, fillsFigure, knownBodyOf } from './fillsFigure.js';
import { holdFigure } from './holdFigure.js';
import { holdRun } from './holdRun.js';
import { methodOf } from './methodOf.js';
import type { Method, MethodFigure, MethodRun, StoredRun } from './types.js';

/** What the runs that are looked at first tell the others. */
export interface FirstMethods {
  readonly figures: readonly MethodFigure[];
  readonly refused: readonly RefusedRun[];
  readonly bodyOf: (heater: string) => KnownBody | null;
  /** The loss to the room; of several cool-downs one with the steam apart, and with this lid where there is one. */
  readonly lossOf: (heater: string, lid: string | null) => KnownLoss | null;
  readonly fills: readonly FillsFigure[];
}

/** Two fills and cool-downs: they tell the heater body and the loss to the room, which other evaluations rest on. */
export function firstMethods(
  book: SourceBook,
  workbook: Workbook,
  stored: readonly StoredRun[],
): FirstMethods {
  const refused: RefusedRun[] = [];
  const of = (method: Method) => stored.filter(({ protocol }) => methodOf(protocol) === method);
  const fillRuns = each(of('two-fills'), refused, (run) => fillRun(book, workbook, run));
  const fills = grouped(fillRuns, ({ run }) => run.setting).map((group) =>
    fillsFigure(book, heaterOf(workbook, group), group),
  );
  const bodyOf = (heater: string) => {
    const found = fills.filter((figure) => figure.heater.id === heater).map(knownBodyOf);
    return found.find((body) => body !== null) ?? null;
  };
  const coolDowns = each(of('cool-down'), refused, (run) =>
    coolDownRun(book, workbook, run, bodyOf(run.run.heater)),
  );
  const cooled = grouped(coolDowns, ({ facts }) => String(facts.lid)).map((group) =>
    coolDownFigure(book, heaterOf(workbook, group), group),
  );
  const lossOf = (heater: string, lid: string | null) => {
    const own = cooled.filter((figure) => figure.heater.id === heater);
    const apart = own.filter((figure) => !knownLossOf(figure).holdsVapour);
    const found = apart.find((figure) => figure.lid === lid) ?? apart[0] ?? null;
    return found && knownLossOf(found);
  };
  return { figures: [...cooled, ...fills], refused, bodyOf, lossOf, fills };
}

/** Holds and boil-offs, which rest on what the first tell and on the heatings of the same setting. */
export function laterMethods(
  book: SourceBook,
  workbook: Workbook,
  stored: readonly StoredRun[],
  first: FirstMethods,
  heatings: readonly RunEvaluation[],
): { readonly figures: readonly MethodFigure[]; readonly refused: readonly RefusedRun[] } {
  const refused: RefusedRun[] = [];
  const of = (method: Method) => stored.filter(({ protocol }) => methodOf(protocol) === method);
  const kappaOf = (heater: string) =>
    first.fills.find((figure) => figure.heater.id === heater && figure.found)?.found?.kappa ?? null;
  const holds = each(of('hold'), refused, (run) => {
    const { heater } = run.run;
    return holdRun(book, workbook, run, { body: first.bodyOf(heater), kappa: kappaOf(heater) });
  });
  const boils = each(of('boil-off'), refused, (run) => boilOffRun(book, workbook, run));
  const held = grouped(holds, ({ run, facts }) => `${run.setting}\n${facts.lid}`).map((group) =>
    holdFigure(book, heaterOf(workbook, group), group),
  );
  const boiled = grouped(boils, ({ run }) => run.setting).map((group) => {
    const { heater, setting } = (group[0] as MethodRun).run;
    return boilOffFigure(book, heaterOf(workbook, group), group, {
      loss: first.lossOf(heater, 'off'),
      body: first.bodyOf(heater),
      heatings: besideBoil(heatings, heater, setting),
    });
  });
  return { figures: [...held, ...boiled], refused };
}

/** Heatings from a rest start at one setting, of the protocol with the most of them. */
function besideBoil(heatings: readonly RunEvaluation[], heater: string, setting: string): RunEvaluation[] {
  const own = heatings.filter(
    ({ run, protocol }) =>
      run.heater === heater && run.setting === setting && run.excluded === null && protocol.start === 'rest',
  );
  const byProtocol = new Map<string, RunEvaluation[]>();
  for (const run of own)
    byProtocol.set(run.protocol.name, [...(byProtocol.get(run.protocol.name) ?? []), run]);
  return [...byProtocol.values()].sort((a, b) => b.length - a.length)[0] ?? [];
}

/** Evaluates each; a run that can't count is listed and stops no other. Excluded ones don't count. */
function each<T>(stored: readonly StoredRun[], refused: RefusedRun[], evaluate: (run: StoredRun) => T): T[] {
  const found: T[] = [];
  for (const one of stored) {
    if (one.run.excluded !== null) continue;
    try {
      found.push(evaluate(one));
    } catch (error) {
      if (!(error instanceof HeatledgerError)) throw error;
      const { id, heater, setting } = one.run;
      refused.push({ run: id, heater, setting, kind: 'refused', reason: error.message, error });
    }
  }
  return found;
}

/** By heater, protocol and its version, and a further key. */
function grouped<T extends MethodRun>(runs: readonly T[], key: (run: T) => string): T[][] {
  const groups = new Map<string, T[]>();
  for (const run of runs) {
    const whole = [run.run.heater, run.protocol.name, run.protocol.version, key(run)].join('\n');
    groups.set(whole, [...(groups.get(whole) ?? []), run]);
  }
  return [...groups.values()];
}

const heaterOf = (workbook: Workbook, group: readonly MethodRun[]) =>
  workbook.heaters.get((group[0] as MethodRun).run.heater) as NonNullable<
    ReturnType<Workbook['heaters']['get']>
  >;
