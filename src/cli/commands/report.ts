import { join } from 'node:path';
import type { Argv } from 'yargs';
import { evaluateWorkbook } from '../../evaluation/index.js';
import { renderReport } from '../../report/index.js';
import { version } from '../version.js';
import { writeOutput } from '../writeOutput.js';
import { type CommonArgs, type Outcome, theWorkbook, unitsOf } from '../Outcome.js';
import type { Command } from '../Command.js';
import { checkHeater } from '../../protocols/index.js';

interface Args extends CommonArgs {
  readonly out?: string;
  readonly heater?: string;
}

export const command: Command = {
  builder: (yargs: Argv) =>
    yargs
      .option('out', {
        type: 'string',
        requiresArg: true,
        describe: 'the file to write (else report.html in the workbook)',
      })
      .option('heater', { type: 'string', requiresArg: true, describe: 'only this heater' }),
  handler: async (args: Args): Promise<Outcome> => {
    const workbook = theWorkbook(args);
    if (args.heater !== undefined) checkHeater(workbook, args.heater);
    const evaluation = evaluateWorkbook(workbook, args.heater === undefined ? {} : { heater: args.heater });
    const html = await renderReport(evaluation, {
      units: unitsOf(args, workbook),
      generatedAt: new Date(),
      version: version(),
    });
    const file = args.out ?? join(workbook.dir, 'report.html');
    writeOutput(file, html, '--out', '<meta name="generator" content="heatledger"');
    return {
      data: {
        file,
        bytes: Buffer.byteLength(html),
        figures: evaluation.figures.length,
        refused: evaluation.refused.length,
      },
      lines: [
        `Written: ${file} (${evaluation.figures.length} figures, ${Math.round(Buffer.byteLength(html) / 1000)} kB)`,
      ],
      warnings: [...evaluation.warnings, ...evaluation.refused.map((each) => each.reason)],
      exitCode: evaluation.refused.some((each) => each.error !== null) ? 1 : 0,
    };
  },
};
