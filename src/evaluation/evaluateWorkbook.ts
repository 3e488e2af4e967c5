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
import type { Figure, RefusedRun, RunEvaluation, WorkbookEvaluation } from './types.js';

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
  const runs: RunEvaluation[] = [];
  const refused: RefusedRun[] = [];
  const warnings: string[] = [];
  const exportsSeen = new Map<string, string>();
  for (const id of options.runs ?? listRuns(workbook.dir)) {
    let run: RunRecord | null = null;
    try {
      const read = readRun(workbook.dir, id);
      run = read.run;
      if (!isWanted(run, options)) continue;
      warnings.push(...read.warnings);
      refuseReused(run, exportsSeen);
      runs.push(evaluateStored(book, workbook, run));
      if (run.excluded) refused.push(exclusionOf(run, run.excluded));
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
    }
  }
  const figures = figuresOf(runs, options.coverage ?? 0.95);
  return { workbook, day: options.day ?? new Date(), figures, runs, refused, warnings };
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

/** Evaluates a run as it lies in the workbook, with its exports read the way they were read when they came in. */
export function evaluateStored(book: SourceBook, workbook: Workbook, run: RunRecord): RunEvaluation {
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
  return evaluateRun({
    book,
    workbook,
    run,
    protocol,
    powerLog: log('powerLog'),
    temperatureLog: log('temperatureLog'),
  });
}

function readKept(dir: string, run: string, attachment: AttachmentRecord): Log {
  const bytes = readAttachment(dir, run, attachment.file, attachment.sha256);
  return readExport(bytes, { ...(attachment.options as ReadOptions), fileName: attachment.originalName });
}

/** One figure a heater, setting and version of a protocol; those of three runs or more tell the others what scatter to assume. */
function figuresOf(runs: readonly RunEvaluation[], coverage: number): Figure[] {
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
    figureOfGroup(group, spread, coverage);
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
function figureOfGroup(group: RunEvaluation[], spread: SpreadAssumption, coverage: number): Figure | null {
  const definition = (group[0] as RunEvaluation).protocol.headline;
  const counting = group.filter((run) => run.run.excluded === null);
  const figure = evaluateFigure(counting, definition, spread, coverage);
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
