import type { Workbook } from '../workbook/index.js';
import type { MethodFigure } from './methods/types.js';
import type { Figure, RefusedRun, RunEvaluation } from './types.js';

/** Everything that can be said of a workbook today. */
export interface WorkbookEvaluation {
  readonly workbook: Workbook;
  readonly day: Date;
  readonly figures: readonly Figure[];
  /** What cool-downs, holds, boil-offs and runs at several fills tell; never pooled with the figures. */
  readonly methods: readonly MethodFigure[];
  readonly runs: readonly RunEvaluation[];
  readonly refused: readonly RefusedRun[];
  readonly warnings: readonly string[];
}
