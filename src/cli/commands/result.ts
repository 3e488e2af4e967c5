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
import { type CommonArgs, type Outcome, theWorkbook, unitsOf } from '../Outcome.js';
import type { Command } from '../Command.js';
import { conformityFor, conformityLines } from '../views/conformityView.js';
import { writeOutput } from '../writeOutput.js';
import { csvOf } from '../views/figureCsv.js';
import { figureData } from '../views/figureData.js';
import { methodData, methodLines } from '../views/methodView.js';
import { figureTable } from '../views/figureTable.js';
import { type AskedHeating, heatingRequest } from '../views/heatingRequest.js';
import { type Predicted, predictionFor } from '../views/predictionView.js';
import { withExcludedLine } from '../views/withExcludedLine.js';

interface Args extends CommonArgs {
  readonly heater?: string;
  readonly setting?: string;
  readonly csv?: string;
  readonly atLeast?: string;
  readonly risk?: string;
  readonly predict?: string;
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
      .option('predict', {
        type: 'string',
        requiresArg: true,
        describe: 'what another heating would take, such as "8 kg, 12 °C to 65 °C, 900 W"',
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
    const predict = predictor(args, unitsOf(args, workbook), evaluation.figures);
    if (args.csv !== undefined)
      writeOutput(
        args.csv,
        writeTidyCsv(...csvOf(evaluation.figures)),
        '--csv',
        'heater,setting,protocol,definition',
      );
    return {
      data: resultData(evaluation, args, predict),
      lines: resultLines(evaluation, args, predict),
      warnings: [...evaluation.warnings, ...refusals(evaluation)],
      exitCode: evaluation.refused.some((each) => each.error !== null) ? 1 : 0,
    };
  },
};

type Predict = (figure: Figure) => Predicted | null;

/** Foretells the heating that --predict asks for. Refused where no figure can tell. */
function predictor(args: Args, units: 'si' | 'us', figures: readonly Figure[]): Predict {
  if (args.predict === undefined) return () => null;
  const asked: AskedHeating = heatingRequest(args.predict, units);
  const found = new Map(
    figures.map((figure) => [figure, predictionFor(figure, asked, { units, detail: args.detail === true })]),
  );
  const errors = [...found.values()].map(({ error }) => error);
  if (errors[0] && errors.every((error) => error !== null)) throw errors[0];
  return (figure) => found.get(figure) ?? null;
}

function resultData(evaluation: WorkbookEvaluation, args: Args, predict: Predict): unknown {
  return {
    figures: evaluation.figures.map((figure) => {
      const judged = conformityFor(figure, args);
      const predicted = predict(figure);
      return {
        ...figureData(figure),
        ...(judged === null ? {} : { conformity: judged }),
        ...(predicted === null ? {} : { predicted: predicted.data }),
      };
    }),
    methods: evaluation.methods.map(methodData),
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

function resultLines(evaluation: WorkbookEvaluation, args: Args, predict: Predict): string[] {
  const lines: string[] = evaluation.figures.length > 1 ? figureTable(evaluation.figures) : [];
  for (const figure of evaluation.figures) {
    if (lines.length > 0) lines.push('');
    lines.push(`${figure.heater.name}, ${settingName(figure)}`);
    lines.push(...plainWords(figure, evaluation.workbook).map((line) => `  ${line}`));
    lines.push(...withExcludedLine(figure).map((line) => `  ${line}`));
    lines.push(...(predict(figure)?.lines ?? []).map((line) => `  ${line}`));
    const warnings = [
      ...figure.warnings,
      ...figure.runs.flatMap((run) => run.warnings.map((each) => `${run.run.id}: ${each}`)),
    ];
    lines.push(...[...new Set(warnings)].map((warning) => `  Note: ${warning}`));
    const judged = conformityFor(figure, args);
    if (judged) lines.push(...conformityLines(judged).map((line) => `  ${line}`));
    if (args.detail === true) lines.push(...detailWords(figure).map((line) => `  ${line}`));
  }
  const methods = methodLines(evaluation.methods, args.detail === true);
  if (methods.length > 0) lines.push(...(lines.length > 0 ? [''] : []), ...methods);
  if (lines.length === 0) lines.push('No run counts yet.');
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
