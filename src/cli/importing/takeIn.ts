import { evaluateCandidate } from '../../evaluation/index.js';
import { describeLog, logSummary } from '../../logs/index.js';
import { type ReadyExport, attachEntry, exportPath, parseProtocol } from '../../protocols/index.js';
import { type RunRecord, RunWriter, type Workbook, readRun, readRunProtocol } from '../../workbook/index.js';
import type { Outcome } from '../Outcome.js';
import type { Asker } from './Desk.js';
import type { ImportArgs } from './ImportArgs.js';
import { readForRun } from './readForRun.js';
import { readingWords } from './readingWords.js';
import { remember } from './remember.js';
import { settled } from './settled.js';
import { summaryWords } from './summaryWords.js';
import { writeLogCsv } from './writeLogCsv.js';

/** Takes an export in with a run: read, held against the bench, and kept byte for byte with the options that read it. */
export async function takeIn(
  args: ImportArgs,
  workbook: Workbook,
  id: string,
  asker: Asker | null,
): Promise<Outcome> {
  const path = exportPath(args.file as string);
  const { run } = readRun(workbook.dir, id);
  const protocol = parseProtocol(readRunProtocol(workbook.dir, id), `protocol of run ${id}`);
  const { value, chosen } = await settled(args, asker, (now) =>
    readForRun(now, path, workbook, run, protocol),
  );
  const { plan, ready } = value;
  // Compared before a byte is kept: a log that contradicts the bench is refused unless it was asked for.
  const check = evaluateCandidate(workbook, protocol, run, ready.role, ready.log);
  if (check.error !== null && args.disagreeing !== true) throw check.error;
  const remembered = remember(args, workbook, plan, ready.log.mapping);
  const written = await writeLogCsv(args, path, ready.log);
  const replaces = run.attachments.find((each) => each.role === ready.role);
  const { stored, remarks } = keep(workbook, run, ready);
  const saved = remembered?.save() ?? [];
  const summary = logSummary(ready.log);
  return {
    data: {
      ...summary,
      run: id,
      role: ready.role,
      file: stored.file,
      sha256: stored.sha256,
      energy: check.energy,
      savedMapping: plan.saved?.name ?? null,
    },
    lines: [
      ...readingWords(plan, chosen),
      ...describeLog(ready.log),
      ...summaryWords(summary),
      ...check.lines,
      ...(replaces ? [`It stands in for ${replaces.originalName}, which stays in the journal.`] : []),
      `kept ${stored.file} with run ${id} (SHA-256 ${stored.sha256.slice(0, 16)}...)`,
      ...written,
      ...saved,
      '',
      'Next: heatledger result',
    ],
    warnings: [...remarks, ...summary.warnings, ...(check.error ? [check.error.toText()] : [])],
  };
}

function keep(workbook: Workbook, run: RunRecord, ready: ReadyExport) {
  const writer = RunWriter.open(workbook.dir, run.id);
  try {
    const stored = writer.storeExport(ready.name, ready.bytes);
    const hand = workbook.settings.hands[0]?.id ?? run.hand;
    const at = new Date().toISOString();
    writer.append(attachEntry(ready, stored, { at, zone: workbook.settings.zone, hand }));
    return { stored, remarks: writer.remarks };
  } finally {
    writer.close();
  }
}
