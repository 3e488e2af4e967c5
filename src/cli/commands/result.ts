import type { Argv } from 'yargs';
import {
  type Figure,
  type WorkbookEvaluation,
  detailWords,
  evaluateWorkbook,
  plainWords,
} from '../../evaluation/index.js';
import { writeTidyCsv } from '../../logs/index.js';
import { checkHeater } from '../../protocols/index.js';
import { type CommonArgs, type Outcome, theWorkbook } from '../Outcome.js';
import type { Command } from '../Command.js';
import { conformityFor, conformityLines } from '../views/conformityView.js';
import { writeOutput } from '../writeOutput.js';
import { csvOf } from '../views/figureCsv.js';
import { figureData } from '../views/figureData.js';
import { figureTable } from '../views/figureTable.js';
import { withExcludedLine } from '../views/withExcludedLine.js';

interface Args extends CommonArgs {
  readonly heater?: string;
  readonly setting?: string;
  readonly csv?: string;
  readonly atLeast?: string;
  readonly risk?: string;
}

export const command: Command = {
  builder: (yargs: Argv) =>
    yargs
      .option('heater', { type: 'string', requiresArg: true, describe: 'only this heater' })
      .option('setting', { type: 'string', requiresArg: true, describe: 'only this setting' })
      .option('at-least', {
        type: 'string',
        requiresArg: true,
        describe: 'is this efficiency reached, such as 0.80',
      })
      .option('risk', {
        type: 'string',
        requiresArg: true,
        describe: 'risk of calling it met where it is not (else 0.05)',
      })
      .option('csv', {
        type: 'string',
        requiresArg: true,
        describe: 'write the figures to this CSV file too',
      }),
  handler: async (args: Args): Promise<Outcome> => {
    const workbook = theWorkbook(args);
    if (args.heater !== undefined) checkHeater(workbook, args.heater, args.setting);
    const evaluation = evaluateWorkbook(workbook, {
      ...(args.heater !== undefined ? { heater: args.heater } : {}),
      ...(args.setting !== undefined ? { setting: args.setting } : {}),
    });
    if (args.csv !== undefined)
      writeOutput(
        args.csv,
        writeTidyCsv(...csvOf(evaluation.figures)),
        '--csv',
        'heater,setting,protocol,definition',
      );
    return {
      data: resultData(evaluation, args),
      lines: resultLines(evaluation, args),
      warnings: [...evaluation.warnings, ...refusals(evaluation)],
      exitCode: evaluation.refused.some((each) => each.error !== null) ? 1 : 0,
    };
  },
};

function resultData(evaluation: WorkbookEvaluation, args: Args): unknown {
  return {
    figures: evaluation.figures.map((figure) => {
      const judged = conformityFor(figure, args);
      return { ...figureData(figure), ...(judged === null ? {} : { conformity: judged }) };
    }),
    refused: evaluation.refused.map(({ run, heater, setting, kind, reason, error }) => ({
      run,
      heater,
      setting,
      kind,
      reason,
      ...(error ? { error: error.toJSON() } : {}),
    })),
    warnings: evaluation.warnings,
  };
}

function refusals(evaluation: WorkbookEvaluation): string[] {
  return evaluation.refused.map((each) => (each.error ? each.error.toText() : each.reason));
}

function resultLines(evaluation: WorkbookEvaluation, args: Args): string[] {
  const lines: string[] = evaluation.figures.length > 1 ? figureTable(evaluation.figures) : [];
  for (const figure of evaluation.figures) {
    if (lines.length > 0) lines.push('');
    lines.push(`${figure.heater.name}, ${settingName(figure)}`);
    lines.push(...plainWords(figure, evaluation.workbook).map((line) => `  ${line}`));
    lines.push(...withExcludedLine(figure).map((line) => `  ${line}`));
    const warnings = [
      ...figure.warnings,
      ...figure.runs.flatMap((run) => run.warnings.map((each) => `${run.run.id}: ${each}`)),
    ];
    lines.push(...[...new Set(warnings)].map((warning) => `  Note: ${warning}`));
    const judged = conformityFor(figure, args);
    if (judged) lines.push(...conformityLines(judged).map((line) => `  ${line}`));
    if (args.detail === true) lines.push(...detailWords(figure).map((line) => `  ${line}`));
  }
  if (evaluation.figures.length === 0) lines.push('No run counts yet.');
  lines.push('', `Next: heatledger ${nextCommand(evaluation)}`);
  return lines;
}

function settingName(figure: Figure): string {
  return figure.heater.settings.find((each) => each.id === figure.setting)?.name ?? figure.setting;
}

function nextCommand(evaluation: WorkbookEvaluation): string {
  if (evaluation.refused.some((each) => each.kind === 'unfinished')) return 'test --resume';
  if (evaluation.figures.length === 0) return 'test';
  return evaluation.figures.some((figure) => figure.mark !== null) ? 'test --again' : 'report';
}
