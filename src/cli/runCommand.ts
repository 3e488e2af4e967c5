import yargs, { type Argv } from 'yargs';
import { HeatledgerError, problem } from '../errors/index.js';
import type { Command } from './Command.js';
import { commandTable } from './commandTable.js';
import type { Outcome } from './Outcome.js';
import { plainMessage } from './plainMessage.js';
import { printable } from './printable.js';
import { wrapped } from './wrapped.js';

const modules: Record<string, () => Promise<{ command: Command }>> = {
  test: () => import('./commands/test.js'),
  import: () => import('./commands/import.js'),
  correct: () => import('./commands/correct.js'),
  result: () => import('./commands/result.js'),
  fit: () => import('./commands/fit.js'),
  compare: () => import('./commands/compare.js'),
  plan: () => import('./commands/plan.js'),
  size: () => import('./commands/size.js'),
  report: () => import('./commands/report.js'),
  instrument: () => import('./commands/instrument.js'),
  heater: () => import('./commands/heater.js'),
  protocol: () => import('./commands/protocol.js'),
};

/**
 * Runs one command line and returns the exit code. The only place that prints results: lines for a person, or JSON,
 * errors included.
 */
export async function runCommand(args: readonly string[], version: string): Promise<number> {
  // A reader that has seen enough, such as head, closes the pipe: that is no fault.
  process.stdout.on('error', (error: NodeJS.ErrnoException) => {
    if (error.code === 'EPIPE') process.exit(0);
    throw error;
  });
  // Known before parsing, so that a wrong option is reported in JSON too.
  const json = args.includes('--json');
  const named = commandOf(args);
  let outcome: Outcome | null = null;
  try {
    let parser = yargs([...args])
      .locale('en')
      .scriptName('heatledger')
      .version(version)
      .parserConfiguration({
        // `--column power=3 meter.csv` names a column and then the file.
        'greedy-arrays': false,
        'parse-numbers': false,
        'parse-positional-numbers': false,
      })
      .option('workbook', { type: 'string', requiresArg: true, describe: 'folder of records' })
      .option('json', { type: 'boolean', describe: 'the result, or the error, as JSON' })
      .option('units', { choices: ['si', 'us'] as const, describe: 'units of what is asked and shown' })
      .option('detail', { type: 'boolean', describe: 'the words of metrology too' })
      .demandCommand(1, 'Name a command. heatledger --help lists them.')
      .strict()
      .exitProcess(false)
      .middleware(lastOfEach as never, true)
      .wrap(100)
      .fail((message, error) => {
        // A fault of the command line comes as a message, now and then with an error of the parser beside it.
        if (error && error.name !== 'YError') throw error;
        throw problem('option-bad', { message: plainMessage(error?.message ?? message, named) });
      });
    const module = named === null ? undefined : await modules[named]?.();
    for (const entry of commandTable) {
      const wanted = module !== undefined && entry.name === named;
      parser = parser.command(
        entry.usage,
        entry.describe,
        (builder) => (module && wanted ? module.command.builder(builder as Argv) : builder),
        async (parsed) => {
          if (module && wanted) outcome = await module.command.handler(parsed as never);
        },
      ) as typeof parser;
    }
    await parser.parseAsync();
    return print(outcome, json);
  } catch (error) {
    return complain(error, json);
  }
}

/** Of an option that takes one value and is given twice the last counts; one that takes several keeps them all. */
function lastOfEach(parsed: Record<string, unknown>, parser: Argv): void {
  const lists = new Set((parser as unknown as { getOptions(): { array: string[] } }).getOptions().array);
  for (const [key, value] of Object.entries(parsed))
    if (key !== '_' && Array.isArray(value) && !lists.has(key)) parsed[key] = value.at(-1);
}

/** The command a line names: its first word that is neither an option nor the value of one. Only its module is loaded. */
function commandOf(args: readonly string[]): string | null {
  for (let i = 0; i < args.length; i++) {
    const arg = args[i] as string;
    if (arg === '--workbook' || arg === '--units') i++;
    else if (!arg.startsWith('-')) return Object.hasOwn(modules, arg) ? arg : null;
  }
  return null;
}

function print(outcome: Outcome | null, json: boolean): number {
  if (outcome === null) return 0;
  if (json) process.stdout.write(`${JSON.stringify(outcome.data, null, 2)}\n`);
  else {
    for (const line of outcome.lines) process.stdout.write(`${fitted(line, process.stdout)}\n`);
    for (const warning of outcome.warnings ?? [])
      process.stderr.write(`${fitted(`Note: ${warning}`, process.stderr)}\n`);
  }
  return outcome.exitCode ?? 0;
}

/** Lines break at blanks on a terminal and stay whole in a pipe. */
function fitted(raw: string, stream: NodeJS.WriteStream): string {
  const text = printable(raw);
  if (!stream.isTTY) return text;
  return text
    .split('\n')
    .map((line) => wrapped(line, stream.columns ?? 80))
    .join('\n');
}

function complain(error: unknown, json: boolean): number {
  const known = error instanceof HeatledgerError ? error : systemError(error);
  if (known === null) throw error;
  if (json) process.stdout.write(`${JSON.stringify({ error: known.toJSON() }, null, 2)}\n`);
  else process.stderr.write(`${fitted(known.toText(), process.stderr)}\n`);
  return 1;
}

/** What the operating system refuses is said in a sentence; anything else is a fault of ours and keeps its stack. */
function systemError(error: unknown): HeatledgerError | null {
  const { code, path, message } = error as NodeJS.ErrnoException;
  const place = path === undefined ? {} : { file: path };
  if (code === 'ENOSPC') return problem('disk-refuses', { reason: 'the disk is full' }, place);
  if (code === 'EACCES' || code === 'EPERM' || code === 'EROFS') {
    return problem('disk-refuses', { reason: 'there is no right to write here' }, place);
  }
  return typeof code === 'string' && /^E[A-Z]+$/.test(code)
    ? problem('disk-refuses', { reason: message }, place)
    : null;
}
