import { type Figure, evaluateWorkbook, plainWords } from '../../evaluation/index.js';
import { type Workbook, openWorkbook } from '../../workbook/index.js';
import type { CommonArgs, Outcome } from '../Outcome.js';
import { figureData } from '../views/figureData.js';
import { methodData, methodLines } from '../views/methodView.js';
import { detailLines } from '../views/detailLines.js';

/** What a finished run comes to: the figure of its heater and setting as it stands now, in plain words. */
export function outcomeOf(
  args: CommonArgs,
  workbook: Workbook,
  id: string,
  said: readonly string[] = [],
): Outcome {
  const fresh = openWorkbook(workbook.dir);
  const evaluation = evaluateWorkbook(fresh);
  const figure = evaluation.figures.find((each) => each.runs.some((run) => run.run.id === id));
  const refused = evaluation.refused.find((each) => each.run === id);
  const method = evaluation.methods.find((each) => each.runs.some(({ run }) => run.id === id));
  if (method) {
    return {
      data: { run: id, figure: null, method: methodData(method), said },
      lines: ['', ...methodLines([method], args.detail === true), 'Next: heatledger result'],
      warnings: said,
    };
  }
  if (!figure) {
    const reason = refused?.error?.toText() ?? refused?.reason ?? 'It does not count.';
    return {
      data: { run: id, figure: null, reason, said },
      lines: [`Run ${id} is kept.`, reason],
      warnings: said.filter((each) => each !== reason),
      exitCode: refused?.error ? 1 : 0,
    };
  }
  const run = figure.runs.find((each) => each.run.id === id);
  return {
    data: { run: id, figure: figureData(figure), said },
    lines: ['', ...plainWords(figure, fresh), ...(args.detail ? detailLines(figure) : []), next(figure)],
    warnings: [...said, ...(run?.warnings ?? [])],
  };
}

function next(figure: Figure): string {
  return figure.mark === null ? 'Next: heatledger report' : 'Next: heatledger test --again';
}
