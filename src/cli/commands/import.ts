import type { Argv } from 'yargs';
import { evaluateCandidate } from '../../evaluation/index.js';
import { type Log, type ReadOptions, describeLog, logSummary, readExport } from '../../logs/index.js';
import { type LogRole, attachEntry, parseProtocol, readBytes, readyExport } from '../../protocols/index.js';
import { formatDuration, formatQuantity } from '../../units/index.js';
import {
  RunWriter,
  isWorkbook,
  listRuns,
  openWorkbook,
  readRun,
  readRunProtocol,
} from '../../workbook/index.js';
import { type CommonArgs, type Outcome, theWorkbook, workbookDir } from '../Outcome.js';
import type { Command } from '../Command.js';
import { askFor } from '../askFor.js';
import { readOptionsOf } from '../readOptions.js';

interface Args extends CommonArgs {
  readonly file?: string;
  readonly run?: string;
  readonly look?: boolean;
  readonly as?: 'power' | 'temperature';
  readonly disagreeing?: boolean;
  readonly zone?: string;
}

export const command: Command = {
  builder: (yargs: Argv) =>
    yargs
      .positional('file', { type: 'string', describe: 'the CSV export' })
      .option('run', { type: 'string', requiresArg: true, describe: 'the run it belongs to' })
      .option('look', { type: 'boolean', describe: 'show what it holds and keep nothing' })
      .option('as', { choices: ['power', 'temperature'] as const, describe: 'what it is taken in for' })
      .option('zone', {
        type: 'string',
        requiresArg: true,
        describe: 'time zone of its clock, such as Europe/Vienna',
      })
      .option('time-form', {
        type: 'string',
        requiresArg: true,
        describe: 'how its times are written, such as day-first',
      })
      .option('delimiter', { type: 'string', requiresArg: true, describe: 'what parts its columns' })
      .option('decimal', { choices: ['.', ','] as const, describe: 'its decimal sign' })
      .option('column', {
        type: 'string',
        array: true,
        requiresArg: true,
        describe: 'role=header or role=number',
      })
      .option('unit', { type: 'string', array: true, requiresArg: true, describe: 'role=unit' })
      .option('disagreeing', {
        type: 'boolean',
        describe: 'keep it although its energy contradicts the bench; the run will not count',
      }),
  handler: async (args: Args): Promise<Outcome> => {
    const file = args.file ?? (await askFor(args, 'file', 'Which CSV export', 'a CSV export'));
    return args.look === true ? look(file, args) : take(file, args);
  },
};

/** Zone of clocks without one: the option, else that of the workbook if there is one. */
function zoneOf(args: Args): string | undefined {
  if (args.zone !== undefined) return args.zone;
  const dir = workbookDir(args);
  return isWorkbook(dir) ? openWorkbook(dir).settings.zone : undefined;
}

function look(file: string, args: Args): Outcome {
  const zone = zoneOf(args);
  const options: ReadOptions = {
    ...readOptionsOf(args),
    ...(zone === undefined ? {} : { zone }),
    fileName: file,
  };
  const log = readExport(readBytes(file), options);
  const summary = logSummary(log);
  return {
    data: summary,
    lines: [...describeLog(log), ...summaryLines(log), 'Nothing was kept (--look).'],
    warnings: summary.warnings,
  };
}

function summaryLines(log: Log): string[] {
  const summary = logSummary(log);
  const lines = [`${summary.rows} rows over ${formatDuration(summary.durationS)}`];
  if (summary.energyWh !== null && summary.meanPowerW !== null) {
    const energy = formatQuantity(summary.energyWh * 3600, 'energy', 'kWh', 4);
    lines.push(
      `energy from switch-on to switch-off ${energy}, mean power ${formatQuantity(summary.meanPowerW, 'power', 'W', 1)}`,
    );
  }
  return lines;
}

async function take(file: string, args: Args): Promise<Outcome> {
  const workbook = theWorkbook(args);
  const runs = listRuns(workbook.dir);
  const id = args.run ?? (await askFor(args, '--run', 'To which run does it belong', 'the run', runs.at(-1)));
  const { run } = readRun(workbook.dir, id);
  const protocol = parseProtocol(readRunProtocol(workbook.dir, id), `protocol of run ${id}`);
  const role: LogRole | undefined = args.as === undefined ? undefined : `${args.as}Log`;
  const ready = readyExport(readBytes(file), file, run, protocol, args.zone ?? workbook.settings.zone, {
    options: readOptionsOf(args),
    ...(role === undefined ? {} : { role }),
  });
  // Compared before a byte is kept: a log that contradicts the bench is refused unless it was asked for.
  const check = evaluateCandidate(workbook, protocol, run, ready.role, ready.log);
  if (check.error !== null && args.disagreeing !== true) throw check.error;
  const replaces = run.attachments.find((each) => each.role === ready.role);
  const writer = RunWriter.open(workbook.dir, id);
  try {
    const stored = writer.storeExport(ready.name, ready.bytes);
    const hand = workbook.settings.hands[0]?.id ?? run.hand;
    writer.append(
      attachEntry(ready, stored, { at: new Date().toISOString(), zone: workbook.settings.zone, hand }),
    );
    const summary = logSummary(ready.log);
    return {
      data: {
        ...summary,
        run: id,
        role: ready.role,
        file: stored.file,
        sha256: stored.sha256,
        energy: check.energy,
      },
      lines: [
        ...describeLog(ready.log),
        ...summaryLines(ready.log),
        ...check.lines,
        ...(replaces ? [`It stands in for ${replaces.originalName}, which stays in the journal.`] : []),
        `kept ${stored.file} with run ${id} (SHA-256 ${stored.sha256.slice(0, 16)}...)`,
        '',
        'Next: heatledger result',
      ],
      warnings: [...writer.remarks, ...summary.warnings, ...(check.error ? [check.error.toText()] : [])],
    };
  } finally {
    writer.close();
  }
}
