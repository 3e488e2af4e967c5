import type { Argv } from 'yargs';
import { problem } from '../../errors/index.js';
import { evaluateWorkbook, percentText } from '../../evaluation/index.js';
import { RunWriter, listRuns } from '../../workbook/index.js';
import { askFor } from '../askFor.js';
import { type CommonArgs, type Outcome, theWorkbook } from '../Outcome.js';
import type { Command } from '../Command.js';
import { withExcludedLine } from '../views/withExcludedLine.js';

interface Args extends CommonArgs {
  readonly run?: string;
  readonly exclude?: boolean;
  readonly include?: boolean;
  readonly reason?: string;
  readonly hand?: string;
}

export const command: Command = {
  builder: (yargs: Argv) =>
    yargs
      .positional('run', { type: 'string', describe: 'the run' })
      .option('exclude', { type: 'boolean', describe: 'take the run out of its figure' })
      .option('include', { type: 'boolean', describe: 'let it count again' })
      .option('reason', { type: 'string', requiresArg: true, describe: 'why; it stands in the report' })
      .option('hand', { type: 'string', requiresArg: true, describe: 'who decides it' })
      .conflicts('exclude', 'include'),
  handler: async (args: Args): Promise<Outcome> => {
    const workbook = theWorkbook(args);
    if (args.exclude !== true && args.include !== true) {
      throw problem(
        'option-missing',
        { option: '--exclude or --include', what: 'what is to be corrected' },
        { key: '--exclude' },
      );
    }
    const id = args.run ?? (await askFor(args, 'run', 'Which run', 'the run', listRuns(workbook.dir).at(-1)));
    const reason = (args.reason ?? (await askFor(args, '--reason', 'Why', 'the reason'))).trim();
    if (reason === '')
      throw problem('option-missing', { option: '--reason', what: 'the reason' }, { key: '--reason' });
    const hand = handOf(
      args,
      workbook.settings.hands.map((each) => each.id),
    );
    const writer = RunWriter.open(workbook.dir, id);
    try {
      keep(
        writer,
        args.exclude === true,
        { at: new Date().toISOString(), zone: workbook.settings.zone, hand },
        reason,
      );
      return outcome(args, id, args.exclude === true, writer.remarks);
    } finally {
      writer.close();
    }
  },
};

function handOf(args: Args, hands: readonly string[]): string {
  const hand = args.hand ?? (hands[0] as string);
  if (!hands.includes(hand))
    throw problem('hand-unknown', { got: hand, known: hands.join(', ') }, { key: '--hand' });
  return hand;
}

function keep(
  writer: RunWriter,
  exclude: boolean,
  stamp: { at: string; zone: string; hand: string },
  reason: string,
): void {
  const { run } = writer;
  if (exclude === (run.excluded !== null)) {
    throw problem(
      'exclusion-stands',
      { run: run.id, state: exclude ? 'is excluded already' : 'counts already' },
      { key: exclude ? '--exclude' : '--include' },
    );
  }
  // A finished run has shown its result: the guided test ends with it.
  if (exclude) writer.append({ event: 'exclude', ...stamp, reason, resultSeen: run.ended });
  else writer.append({ event: 'include', ...stamp, reason });
}

function outcome(args: Args, id: string, excluded: boolean, remarks: readonly string[]): Outcome {
  const evaluation = evaluateWorkbook(theWorkbook(args));
  const figure = evaluation.figures.find(
    (each) =>
      each.runs.some((run) => run.run.id === id) || each.withExcluded?.runs.some((run) => run.run === id),
  );
  const lines = [
    excluded
      ? `Run ${id} is excluded. It stays in the records and in the report, with the reason.`
      : `Run ${id} counts again.`,
  ];
  if (figure) {
    const half = (figure.prediction.interval[1] - figure.prediction.interval[0]) / 2;
    lines.push(
      `${figure.heater.name}, ${figure.setting}: now ${percentText(figure.efficiency.value, half)} % from ${figure.runs.length} runs`,
    );
    lines.push(...withExcludedLine(figure));
  }
  lines.push('', 'Next: heatledger result');
  return {
    data: {
      run: id,
      excluded,
      figure: figure ? { value: figure.efficiency.value, withExcluded: figure.withExcluded } : null,
    },
    lines,
    warnings: remarks,
  };
}
