import { problem } from '../../errors/index.js';
import { evaluateCandidate } from '../../evaluation/index.js';
import {
  AnswersBench,
  type Keeper,
  MemoryKeeper,
  type Protocol,
  beginEntry,
  findProtocol,
  instrumentsOfKind,
  parseProtocol,
  readAnswers,
  strayAnswers,
  walk,
} from '../../protocols/index.js';
import {
  type RunRecord,
  RunWriter,
  type Workbook,
  instrumentKinds,
  nextRunId,
  readRun,
  readRunProtocol,
} from '../../workbook/index.js';
import type { TestArgs } from './TestArgs.js';
import { type Outcome, theWorkbook, unitsOf } from '../Outcome.js';
import { exportReader } from './exportReader.js';
import { outcomeOf } from './outcomeOf.js';

type Answers = ReturnType<typeof readAnswers>;

/**
 * A whole run from a file of answers. The file is walked in memory first: what it refuses, with file and line, has
 * changed nothing on disk.
 */
export async function answeredTest(args: TestArgs, file: string): Promise<Outcome> {
  const workbook = theWorkbook(args);
  const answers = readAnswers(file);
  return args.resume === undefined
    ? beginAnswered(args, workbook, answers)
    : resumeAnswered(args, workbook, answers);
}

async function beginAnswered(args: TestArgs, workbook: Workbook, answers: Answers): Promise<Outcome> {
  const { protocol, text } = findProtocol(args.protocol ?? answers.protocol ?? 'water-heating', workbook.dir);
  refuseStray(answers, protocol);
  const heater = args.heater ?? answers.heater;
  const setting = args.setting ?? answers.setting;
  const run = answers.run ?? nextRunId(workbook.dir, heater, setting);
  const entry = beginEntry(workbook, {
    run,
    heater,
    setting,
    protocol,
    protocolText: text,
    instruments: boundInstruments(workbook, answers),
    hand: args.hand ?? answers.hand ?? (workbook.settings.hands[0]?.id as string),
    at: new AnswersBench(answers, () => {}).now(),
  });
  await through(args, workbook, answers, protocol, new MemoryKeeper(entry), true);
  const writer = RunWriter.begin(workbook.dir, entry, text);
  try {
    const said = await through(args, workbook, answers, protocol, writer);
    return outcomeOf(args, workbook, writer.id, said);
  } finally {
    writer.close();
  }
}

async function resumeAnswered(args: TestArgs, workbook: Workbook, answers: Answers): Promise<Outcome> {
  const id = args.resume || answers.run;
  if (!id)
    throw problem(
      'option-missing',
      { option: '--resume', what: 'the run to go on with' },
      { key: '--resume' },
    );
  const { run } = readRun(workbook.dir, id);
  const protocol = parseProtocol(readRunProtocol(workbook.dir, id), `protocol of run ${id}`);
  refuseStray(answers, protocol);
  await through(args, workbook, answers, protocol, new MemoryKeeper(run));
  const writer = RunWriter.open(workbook.dir, id);
  try {
    const said = await through(args, workbook, answers, protocol, writer);
    return outcomeOf(args, workbook, id, [...writer.remarks, ...said]);
  } finally {
    writer.close();
  }
}

/** Walks the protocol with the file's answers; returns what was said about the logs. */
async function through(
  args: TestArgs,
  workbook: Workbook,
  answers: Answers,
  protocol: Protocol,
  keeper: Keeper,
  refuseUnused = false,
): Promise<string[]> {
  const said: string[] = [];
  const bench = new AnswersBench(answers, () => {});
  const hand = args.hand ?? answers.hand ?? keeper.run.hand;
  await walk({
    protocol,
    keeper,
    bench,
    hand,
    zone: workbook.settings.zone,
    units: unitsOf(args, workbook),
    base: answers.base,
    readLog: exportReader(args, workbook, protocol, { base: answers.base, bench: null }),
    aboutLog: (role, log, run) => {
      const candidate = evaluateCandidate(workbook, protocol, run, role, log);
      if (candidate.error) said.push(candidate.error.toText());
      return [];
    },
  });
  if (refuseUnused) bench.refuseUnused();
  return said;
}

function boundInstruments(workbook: Workbook, answers: Answers): RunRecord['instruments'] {
  const bound: Record<string, string> = {};
  for (const kind of instrumentKinds) {
    const id = answers.instruments?.[kind] ?? (instrumentsOfKind(workbook, kind)[0] as string | undefined);
    if (id !== undefined) bound[kind] = id;
  }
  return bound;
}

function refuseStray(answers: Answers, protocol: Protocol): void {
  const steps = protocol.steps.map((step) => step.id);
  const stray = strayAnswers(answers, steps)[0];
  if (!stray) return;
  throw problem(
    'answer-stray',
    { step: stray.step, known: steps.join(', ') },
    { file: answers.file, ...(stray.line === undefined ? {} : { line: stray.line }) },
  );
}
