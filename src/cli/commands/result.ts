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
import { atomicWrite } from '../../workbook/index.js';
import { type CommonArgs, type Outcome, theWorkbook } from '../Outcome.js';
import type { Command } from '../Command.js';
import { csvOf } from '../views/figureCsv.js';
import { figureData } from '../views/figureData.js';
import { figureTable } from '../views/figureTable.js';
import { withExcludedLine } from '../views/withExcludedLine.js';

interface Args extends CommonArgs {
  readonly heater?: string;
  readonly setting?: string;
  readonly csv?: string;
}

export const command: Command = {
  builder: (yargs: Argv) =>
    yargs
      .option('heater', { type: 'string', requiresArg: true, describe: 'only this heater' })
      .option('setting', { type: 'string', requiresArg: true, describe: 'only this setting' })
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
    if (args.csv !== undefined) atomicWrite(args.csv, writeTidyCsv(...csvOf(evaluation.figures)));
    return {
      data: resultData(evaluation),
      lines: resultLines(evaluation, args.detail === true),
      warnings: [...evaluation.warnings, ...refusals(evaluation)],
      exitCode: evaluation.refused.some((each) => each.error !== null) ? 1 : 0,
    };
  },
};

function resultData(evaluation: WorkbookEvaluation): unknown {
  return {
    figures: evaluation.figures.map(figureData),
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

function resultLines(evaluation: WorkbookEvaluation, detail: boolean): string[] {
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
    if (detail) lines.push(...detailWords(figure).map((line) => `  ${line}`));
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
