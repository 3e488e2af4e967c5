import { problem } from '../../errors/index.js';
import { evaluateCandidate, isPooled } from '../../evaluation/index.js';
import {
  type FirstSitting,
  type Protocol,
  beginEntry,
  findProtocol,
  firstSitting,
  nextStep,
  parseProtocol,
  walk,
} from '../../protocols/index.js';
import {
  type RunRecord,
  RunWriter,
  type Workbook,
  isWorkbook,
  listRuns,
  nextRunId,
  openWorkbook,
  readRun,
  readRunProtocol,
} from '../../workbook/index.js';
import type { TestArgs } from './TestArgs.js';
import { type Outcome, unitsOf, workbookDir } from '../Outcome.js';
import { TerminalBench } from '../TerminalBench.js';
import { choose } from './choose.js';
import { bound, heaterAndSetting } from './chooseBench.js';
import { exportReader } from './exportReader.js';
import { sayForecast } from './sayForecast.js';
import { outcomeOf } from './outcomeOf.js';
import { withDueFill } from './withDueFill.js';

/** A test at a terminal: begun, begun again, or gone on with. */
export async function guidedTest(args: TestArgs): Promise<Outcome> {
  const bench = new TerminalBench();
  try {
    const dir = workbookDir(args);
    if (args.resume !== undefined) return await resume(args, openWorkbook(dir), bench);
    if (args.again === true) return await again(args, openWorkbook(dir), bench);
    return await begin(args, dir, bench);
  } finally {
    bench.close();
  }
}

async function begin(args: TestArgs, dir: string, bench: TerminalBench): Promise<Outcome> {
  if (isWorkbook(dir)) {
    const workbook = openWorkbook(dir);
    const waiting = unfinished(workbook);
    if (waiting !== undefined && args.heater === undefined) {
      bench.say(`Run ${waiting} is not finished.`);
      if ((await choose(bench, 'Go on with it', ['yes', 'no'], 'yes')) === 'yes') {
        return resume({ ...args, resume: waiting }, workbook, bench);
      }
    }
    const { heater, setting } = await heaterAndSetting(args, workbook, bench);
    const fresh = openWorkbook(dir);
    return start(args, fresh, bench, heater, setting, args.protocol ?? lastProtocol(fresh), null);
  }
  if (args.heater !== undefined || args.protocol !== undefined) openWorkbook(dir);
  bench.say('How much of the energy you pay for reaches the water? One heating gives a first answer.');
  bench.say('Press Enter for the answer in brackets. ? explains. Records go to a folder of plain files:');
  bench.say(`  ${dir}`);
  const first = await firstSitting(dir, bench, Intl.DateTimeFormat().resolvedOptions().timeZone || 'UTC');
  return start(args, first.workbook, bench, first.heater, first.setting, 'first-heating', first);
}

/** The protocol of the last run; the short one where nobody has gone beyond it. */
function lastProtocol(workbook: Workbook): string {
  const last = listRuns(workbook.dir)
    .map((id) => readRun(workbook.dir, id).run)
    .sort((a, b) => (a.startedAt < b.startedAt ? -1 : 1))
    .at(-1);
  return last?.protocol.name ?? 'water-heating';
}

async function start(
  args: TestArgs,
  workbook: Workbook,
  bench: TerminalBench,
  heater: string,
  setting: string,
  protocolName: string,
  first: FirstSitting | null,
  like?: RunRecord,
): Promise<Outcome> {
  const { protocol, text } = findProtocol(protocolName, workbook.dir);
  const instruments = like?.instruments ?? (await bound(workbook, protocol, bench));
  const hands = workbook.settings.hands.map((hand) => hand.id);
  const hand =
    args.hand ??
    (hands.length === 1
      ? (hands[0] as string)
      : await choose(bench, 'Who takes the readings', hands, like?.hand ?? hands[0]));
  const plan = {
    run: nextRunId(workbook.dir, heater, setting),
    heater,
    setting,
    protocol,
    protocolText: text,
    instruments,
    hand,
    at: bench.now(),
  };
  // Checked before anything is shown or written.
  const entry = beginEntry(workbook, plan);
  bench.say('');
  bench.say(`${protocol.title}: ${workbook.heaters.get(heater)?.name}, ${setting} (run ${plan.run})`);
  if (isPooled(protocol)) sayForecast(bench, workbook, protocol, heater, setting, instruments, first, like);
  bench.say('At every question: ? explains, back goes back, pause stops and keeps everything.');
  const writer = RunWriter.begin(workbook.dir, entry, text);
  return finish(args, workbook, bench, writer, protocol);
}

/** The run begun last that is not at its end. */
function unfinished(workbook: Workbook): string | undefined {
  return listRuns(workbook.dir)
    .map((id) => readRun(workbook.dir, id).run)
    .filter((run) => !run.ended)
    .sort((a, b) => (a.startedAt < b.startedAt ? -1 : 1))
    .at(-1)?.id;
}

async function resume(args: TestArgs, workbook: Workbook, bench: TerminalBench): Promise<Outcome> {
  const id = args.resume || unfinished(workbook);
  if (!id) throw problem('nothing-to-resume', {}, {}, 'Begin one with: heatledger test');
  const writer = RunWriter.open(workbook.dir, id);
  for (const remark of writer.remarks) bench.say(remark);
  const protocol = parseProtocol(readRunProtocol(workbook.dir, id), `protocol of run ${id}`);
  const count = writer.run.readings.length;
  bench.say(`Going on with run ${id}: ${count === 1 ? 'one reading is' : `${count} readings are`} kept.`);
  for (const reading of writer.run.readings.slice(-3)) bench.say(`  ${reading.step}: ${reading.typed}`);
  return finish(args, workbook, bench, writer, protocol);
}

async function again(args: TestArgs, workbook: Workbook, bench: TerminalBench): Promise<Outcome> {
  const last = listRuns(workbook.dir)
    .map((id) => readRun(workbook.dir, id).run)
    .filter((run) => run.ended && (args.heater === undefined || run.heater === args.heater))
    .sort((a, b) => (a.startedAt < b.startedAt ? -1 : 1))
    .at(-1);
  if (!last) throw problem('nothing-to-repeat', {}, {}, 'Begin with: heatledger test');
  return start(
    args,
    workbook,
    bench,
    last.heater,
    args.setting ?? last.setting,
    args.protocol ?? last.protocol.name,
    null,
    last,
  );
}

/** Walks to the end or to a pause, and says what came of it. */
async function finish(
  args: TestArgs,
  workbook: Workbook,
  bench: TerminalBench,
  writer: RunWriter,
  protocol: Protocol,
): Promise<Outcome> {
  try {
    const outcome = await walk({
      protocol: withDueFill(protocol, workbook, writer.run, bench),
      keeper: writer,
      bench,
      hand: args.hand ?? writer.run.hand,
      zone: workbook.settings.zone,
      units: unitsOf(args, workbook),
      base: process.cwd(),
      readLog: exportReader(args, workbook, protocol, { base: process.cwd(), bench }),
      aboutLog: (role, log, run) => {
        const candidate = evaluateCandidate(workbook, protocol, run, role, log);
        return candidate.error
          ? [
              candidate.error.toText(),
              'The log is kept. Type back to mend a reading; until they agree this run does not count.',
            ]
          : candidate.lines;
      },
    });
    if (outcome === 'paused') {
      const waiting = nextStep(protocol, writer.run);
      return {
        data: { run: writer.id, paused: true, step: waiting?.id ?? null },
        lines: ['', `Paused. Everything typed is kept. Next: heatledger test --resume ${writer.id}`],
      };
    }
    return outcomeOf(args, workbook, writer.id);
  } finally {
    writer.close();
  }
}
