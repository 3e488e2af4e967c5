import { HeatledgerError } from '../errors/index.js';
import { type CurveInputs, curvesOfRun, curvesOfStored, type RunCurves } from '../evaluation/index.js';
import { SourceBook } from '../uncertainty/index.js';
import type { Page } from './Page.js';

/** A run with its curves, or why it has none. */
export interface PageCurves {
  readonly run: CurveInputs['run'];
  readonly curves: RunCurves | { readonly why: string };
}

/** Every run of the page that has a logged temperature, in the order of the page; each is fitted once. */
export function curvesOfPage({ evaluation }: Page): PageCurves[] {
  const { workbook, runs, methods } = evaluation;
  const heated = runs
    .filter(({ powerLog, temperatureLog }) => temperatureLog?.temperatureK || powerLog?.temperatureK)
    .map((one) => attempt(one.run, () => curvesOfRun({ ...one, workbook, book: new SourceBook() })));
  const others = methods
    .filter(({ method }) => method === 'cool-down' || method === 'two-fills')
    .flatMap((figure) => figure.runs)
    .filter(({ run }) => run.attachments.some(({ role }) => role === 'temperatureLog'))
    .map(({ run }) => attempt(run, () => curvesOfStored(workbook, run.id)));
  return [...heated, ...others];
}

/** A log that can't be fitted is no fault of the report: it says why. */
function attempt(run: CurveInputs['run'], curves: () => RunCurves): PageCurves {
  try {
    return { run, curves: curves() };
  } catch (error) {
    if (error instanceof HeatledgerError) return { run, curves: { why: error.message } };
    throw error;
  }
}
