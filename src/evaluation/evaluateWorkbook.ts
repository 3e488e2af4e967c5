import { HeatledgerError, problem } from '../errors/index.js';
import { type Log, type ReadOptions, readExport } from '../logs/index.js';
import { nextStep, parseProtocol } from '../protocols/index.js';
import { SourceBook } from '../uncertainty/index.js';
import {
  type AttachmentRecord,
  type ExclusionRecord,
  type RunRecord,
  type Workbook,
  listRuns,
  readAttachment,
  readRun,
  readRunProtocol,
  sha256,
} from '../workbook/index.js';
import { ASSUMED_RELATIVE_SPREAD, type SpreadAssumption, evaluateFigure } from './evaluateFigure.js';
import { checkRun } from './checkRun.js';
import { evaluateRun } from './evaluateRun.js';
import type { KnownTransfer } from './losses/types.js';
import { lidOf } from './masses.js';
import { byHeaterAndMethod } from './methods/byHeaterAndMethod.js';
import { firstMethods, laterMethods } from './methods/evaluateMethods.js';
import { methodOf } from './methods/methodOf.js';
import { knownTransferOf } from './methods/fillsFigure.js';
import type { StoredRun } from './methods/types.js';
import type { Figure, RefusedRun, RunEvaluation } from './types.js';
import type { WorkbookEvaluation } from './WorkbookEvaluation.js';

export interface EvaluateOptions {
  readonly day?: Date;
  readonly coverage?: number;
  /** Only runs of this heater, setting or these ids. */
  readonly heater?: string;
  readonly setting?: string;
  readonly runs?: readonly string[];
}

/**
 * Evaluates all runs of a workbook and pools them into figures. Runs share the error sources of the instruments they
 * share. A run that can't count is listed with its reason; it never stops the others. Changes nothing on disk.
 *
 * @example
 * const empty = { dir: 'no-such-folder', settings: {}, instruments: new Map(), heaters: new Map() };
 * evaluateWorkbook(empty).figures // => []
 */
export function evaluateWorkbook(workbook: Workbook, options: EvaluateOptions = {}): WorkbookEvaluation {
  const book = new SourceBook();
  const { stored, refused, warnings, order } = storedRuns(workbook, options);
  const first = firstMethods(book, workbook, stored);
  const runs: RunEvaluation[] = [];
  for (const one of stored) {
    const { run, protocol } = one;
    if (run.excluded) refused.push(exclusionOf(run, run.excluded));
    if (methodOf(protocol) !== null) continue;
    attempt(run.id, run, refused, () => {
      const loss = first.lossOf(run.heater, lidOf({ protocol, run }));
      runs.push(evaluateRun({ book, workbook, ...one, loss, body: first.bodyOf(run.heater) }));
    });
  }
  const transferOf = (heater: string, setting: string) =>
    first.fills
      .filter((each) => each.heater.id === heater && each.setting === setting)
      .map(knownTransferOf)[0] ?? null;
  const figures = figuresOf(runs, options.coverage ?? 0.95, transferOf);
  const later = laterMethods(book, workbook, stored, first, runs);
  refused.push(...first.refused, ...later.refused);
  refused.sort((a, b) => order.indexOf(a.run) - order.indexOf(b.run));
  const methods = [...first.figures, ...later.figures].sort(byHeaterAndMethod);
  return { workbook, day: options.day ?? new Date(), figures, methods, runs, refused, warnings };
}

/** The finished runs that are wanted, as they lie in the workbook, and those that can't count. */
function storedRuns(workbook: Workbook, options: EvaluateOptions) {
  const stored: StoredRun[] = [];
  const refused: RefusedRun[] = [];
  const warnings: string[] = [];
  const exportsSeen = new Map<string, string>();
  const order = options.runs ?? listRuns(workbook.dir);
  for (const id of order) {
    const read = attempt(id, null, refused, () => readRun(workbook.dir, id));
    if (!read || !isWanted(read.run, options)) continue;
    warnings.push(...read.warnings);
    attempt(id, read.run, refused, () => {
      refuseReused(read.run, exportsSeen);
      stored.push(readStored(workbook, read.run));
    });
  }
  return { stored, refused, warnings, order };
}

/** What cannot count is listed with its reason and stops no other. */
function attempt<T>(id: string, run: RunRecord | null, refused: RefusedRun[], work: () => T): T | null {
  try {
    return work();
  } catch (error) {
    if (!(error instanceof HeatledgerError)) throw error;
    const unfinished = error.code === 'run-unfinished';
    refused.push({
      run: id,
      heater: run?.heater ?? null,
      setting: run?.setting ?? null,
      kind: unfinished ? 'unfinished' : 'refused',
      reason: error.message,
      error: unfinished ? null : error,
    });
    return null;
  }
}

/** The bytes of one meter export stand for one heating. */
function refuseReused(run: RunRecord, seen: Map<string, string>): void {
  const digest = run.attachments.find((each) => each.role === 'powerLog')?.sha256;
  if (digest === undefined) return;
  const other = seen.get(digest);
  if (other !== undefined) throw problem('export-reused', { run: run.id, other }, {});
  seen.set(digest, run.id);
}

function exclusionOf(run: RunRecord, exclusion: ExclusionRecord): RefusedRun {
  const seen = exclusion.resultSeen ? 'its result had been seen' : 'before its result was seen';
  return {
    run: run.id,
    heater: run.heater,
    setting: run.setting,
    kind: 'excluded',
    reason: `Run ${run.id} was excluded by ${exclusion.hand}, ${seen}: ${exclusion.reason}`,
    error: null,
  };
}

function isWanted(run: RunRecord, options: EvaluateOptions): boolean {
  if (options.heater !== undefined && run.heater !== options.heater) return false;
  return options.setting === undefined || run.setting === options.setting;
}

/** A finished run as it lies in the workbook, with its exports read the way they were read when they came in. */
function readStored(workbook: Workbook, run: RunRecord): StoredRun {
  const text = readRunProtocol(workbook.dir, run.id);
  const file = `protocol of run ${run.id}`;
  if (sha256(text) !== run.protocol.sha256) throw problem('protocol-changed', { run: run.id }, { file });
  const protocol = parseProtocol(text, file);
  checkRun(workbook, protocol, run);
  const waiting = nextStep(protocol, run);
  if (!run.ended || waiting !== null) {
    throw problem('run-unfinished', { run: run.id, step: waiting?.id ?? 'the end' }, { file: run.id });
  }
  const log = (role: AttachmentRecord['role']): Log | null => {
    const attachment = run.attachments.find((each) => each.role === role);
    return attachment ? readKept(workbook.dir, run.id, attachment) : null;
  };
  return { run, protocol, powerLog: log('powerLog'), temperatureLog: log('temperatureLog') };
}

/** Evaluates one run for its efficiency as it lies in the workbook, knowing nothing of the others. */
export function evaluateStored(book: SourceBook, workbook: Workbook, run: RunRecord): RunEvaluation {
  return evaluateRun({ book, workbook, ...readStored(workbook, run) });
}

function readKept(dir: string, run: string, attachment: AttachmentRecord): Log {
  const bytes = readAttachment(dir, run, attachment.file, attachment.sha256);
  return readExport(bytes, { ...(attachment.options as ReadOptions), fileName: attachment.originalName });
}

/** One figure a heater, setting and version of a protocol; those of three runs or more tell the others what scatter to assume. */
function figuresOf(
  runs: readonly RunEvaluation[],
  coverage: number,
  transferOf: (heater: string, setting: string) => KnownTransfer | null,
): Figure[] {
  const groups = new Map<string, RunEvaluation[]>();
  for (const run of runs) {
    const key = [run.run.heater, run.run.setting, run.protocol.name, run.protocol.version].join('\n');
    groups.set(key, [...(groups.get(key) ?? []), run]);
  }
  const plain: SpreadAssumption = {
    relative: ASSUMED_RELATIVE_SPREAD,
    words: `assumed ${ASSUMED_RELATIVE_SPREAD * 100} % of the value (common practice, no source)`,
  };
  const figureOf = (group: RunEvaluation[], spread: SpreadAssumption) =>
    figureOfGroup(group, spread, coverage, transferOf);
  const counting = (group: RunEvaluation[]) => group.filter((run) => run.run.excluded === null).length;
  const seen = [...groups.values()]
    .filter((group) => counting(group) >= 3)
    .map((group) => figureOf(group, plain))
    .filter((figure): figure is Figure => figure !== null);
  const spread = spreadOf(seen) ?? plain;
  return [...groups.values()]
    .map((group) => (counting(group) >= 3 ? figureOf(group, plain) : figureOf(group, spread)))
    .filter((figure): figure is Figure => figure !== null)
    .sort(byHeaterAndSetting);
}

/** Heaters by id, their settings as the heater's record lists them. */
function byHeaterAndSetting(a: Figure, b: Figure): number {
  if (a.heater.id !== b.heater.id) return a.heater.id < b.heater.id ? -1 : 1;
  const place = (figure: Figure) => figure.heater.settings.findIndex((each) => each.id === figure.setting);
  return place(a) - place(b) || (a.protocol.name < b.protocol.name ? -1 : 1);
}

/** The figure of the runs that count, and what it would be with those that a person took out. */
function figureOfGroup(
  group: RunEvaluation[],
  spread: SpreadAssumption,
  coverage: number,
  transferOf: (heater: string, setting: string) => KnownTransfer | null,
): Figure | null {
  const { protocol, run } = group[0] as RunEvaluation;
  const definition = protocol.headline;
  const counting = group.filter((run) => run.run.excluded === null);
  const figure = evaluateFigure(counting, definition, spread, coverage, transferOf(run.heater, run.setting));
  if (figure === null || counting.length === group.length) return figure;
  const whole = evaluateFigure(group, definition, spread, coverage);
  if (whole === null) return figure;
  const out = group.filter((run) => run.run.excluded !== null);
  return {
    ...figure,
    withExcluded: {
      runs: out.map((run) => ({
        run: run.run.id,
        value: run.efficiency[definition]?.value ?? Number.NaN,
        exclusion: run.run.excluded as ExclusionRecord,
      })),
      value: whole.efficiency.value,
      interval: whole.efficiency.interval,
      prediction: whole.prediction.interval,
    },
  };
}

/** What the other heaters of the workbook say about scatter, pooled over their figures; never below the plain assumption. */
function spreadOf(figures: readonly Figure[]): SpreadAssumption | null {
  if (figures.length === 0) return null;
  let squares = 0;
  let weight = 0;
  for (const figure of figures) {
    const degrees = figure.runs.length - 1;
    squares += degrees * (figure.spread.standardDeviation / figure.efficiency.value) ** 2;
    weight += degrees;
  }
  const relative = Math.sqrt(squares / weight);
  if (relative <= ASSUMED_RELATIVE_SPREAD) return null;
  return {
    relative,
    words: `assumed ${(relative * 100).toFixed(1)} % of the value, as other figures of this workbook show`,
  };
}
