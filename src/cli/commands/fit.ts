import type { Argv } from 'yargs';
import { problem } from '../../errors/index.js';
import { curvesOfStored, type RunCurves } from '../../evaluation/index.js';
import { writeTidyCsv } from '../../logs/index.js';
import type { Command } from '../Command.js';
import { curveCsv, curveCsvHead } from '../fitting/curveCsv.js';
import { curveLines } from '../fitting/curveLines.js';
import { curveOptions } from '../fitting/curveOptions.js';
import { type FitArgs, modelWords } from '../fitting/FitArgs.js';
import { fitData } from '../fitting/fitData.js';
import { pickRun } from '../fitting/pickRun.js';
import { type Outcome, theWorkbook, unitsOf } from '../Outcome.js';
import { writeOutput } from '../writeOutput.js';

export const command: Command = {
  builder: (yargs: Argv) => {
    const text = { type: 'string', requiresArg: true } as const;
    return yargs
      .positional('run', {
        type: 'string',
        describe: 'the run (else the last with a log of the temperature)',
      })
      .option('model', { choices: modelWords, describe: 'only this model (else all that the log allows)' })
      .option('from', { ...text, describe: 'fit from here, such as 2min after switch-on' })
      .option('to', { ...text, describe: 'fit to here' })
      .option('leave-out', { ...text, array: true, describe: 'leave this stretch out, such as 0s..6min' })
      .option('block', { ...text, describe: 'length of the means that are fitted (else 60s)' })
      .option('target', { ...text, describe: 'when is this temperature reached, such as 65°C' })
      .option('csv', { ...text, describe: 'write the curve to this CSV file too' });
  },
  handler: async (args: FitArgs): Promise<Outcome> => {
    const workbook = theWorkbook(args);
    const units = unitsOf(args, workbook);
    const options = curveOptions(args, units);
    const id = await pickRun(args, workbook);
    const curves = curvesOfStored(workbook, id, options);
    if (curves.parts.length === 0) throw nothingFitted(curves);
    if (args.csv !== undefined)
      writeOutput(args.csv, writeTidyCsv(...curveCsv(curves)), '--csv', curveCsvHead);
    return { data: fitData(curves), lines: curveLines(curves, units, args.detail === true) };
  },
};

function nothingFitted({ run, skipped }: RunCurves) {
  const why =
    skipped.map((each) => `${each.what}: ${each.why}`).join('; ') ||
    'the log shows neither heating nor cooling';
  return problem(
    'curve-nothing',
    { run: run.id, why: /[.!]$/.test(why) ? why : `${why}.` },
    { file: run.id },
    'A longer log helps; or state the stretch and the model, such as --model cool-down --from 0s --to 40min',
  );
}
