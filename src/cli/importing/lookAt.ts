import { type Log, type LogFile, alignLogs, describeLog, logSummary, openExport } from '../../logs/index.js';
import { exportPath } from '../../protocols/index.js';
import { type RunRecord, type Workbook, isWorkbook, openWorkbook, readRun } from '../../workbook/index.js';
import { type Outcome, theWorkbook, workbookDir } from '../Outcome.js';
import { readOptionsOf } from '../readOptions.js';
import { type Plan, chooseMapping, withMapping } from './chooseMapping.js';
import { besideWords } from './besideWords.js';
import type { Asker } from './Desk.js';
import { refuseOtherNames } from './fitting.js';
import type { ImportArgs } from './ImportArgs.js';
import { progressFor } from './progressFor.js';
import { remember } from './remember.js';
import { readingWords } from './readingWords.js';
import { settled } from './settled.js';
import { statedLimits } from './statedLimits.js';
import { summaryWords } from './summaryWords.js';
import { writeLogCsv } from './writeLogCsv.js';

interface Seen {
  readonly plan: Plan;
  readonly log: Log | LogFile;
}

/** Shows what an export holds, of any size, and keeps nothing of it; a mapping or a CSV where they are asked for. */
export async function lookAt(args: ImportArgs, asker: Asker | null): Promise<Outcome> {
  const file = args.file as string;
  const path = exportPath(file);
  const workbook = workbookFor(args);
  const run = args.run === undefined ? null : readRun(theWorkbook(args).dir, args.run).run;
  const { value, chosen } = await settled(args, asker, (now) => see(now, path, workbook, run));
  const { plan, log } = value;
  const remembered = remember(args, workbook, plan, log.mapping);
  const limits = statedLimits(args);
  const beside = args.beside === undefined ? null : await seeBeside(args.beside, plan, log);
  const summary = logSummary(log, {
    ...(limits ? { limits } : {}),
    ...(beside ? { temperatureLog: { log: beside.log, alignment: beside.clocks } } : {}),
  });
  const written = await writeLogCsv(args, path, log);
  const saved = remembered?.save() ?? [];
  const words = describeLog(log);
  return {
    data: {
      ...summary,
      start: log.startUtcMs === null ? null : new Date(log.startUtcMs).toISOString(),
      mapping: log.mapping,
      words,
      savedMapping: plan.saved?.name ?? null,
      ...(beside ? { beside: { file: args.beside, ...beside.clocks } } : {}),
    },
    lines: [
      ...readingWords(plan, chosen),
      ...words,
      ...summaryWords(summary),
      ...(beside ? besideWords(args.beside as string, beside.clocks) : []),
      ...written,
      ...saved,
      written.length + saved.length === 0 ? 'Nothing was kept (--look).' : 'The export itself was not kept.',
    ],
    warnings: summary.warnings,
  };
}

/** Another export of the same heating, read in its own way, and how its clock stands to this one. */
async function seeBeside(file: string, plan: Plan, log: Log | LogFile) {
  const { zone } = plan.options;
  const other = await openExport(exportPath(file), { ...(zone ? { zone } : {}), fileName: file });
  return { log: other, clocks: alignLogs(log, other) };
}

/** A workbook is of help where there is one, and needed where something of it is named. */
function workbookFor(args: ImportArgs): Workbook | null {
  const isNeeded =
    args.run !== undefined || args.remember !== undefined || !['none', undefined].includes(args.like);
  if (isNeeded) return theWorkbook(args);
  const dir = workbookDir(args);
  return isWorkbook(dir) ? openWorkbook(dir) : null;
}

async function see(
  args: ImportArgs,
  path: string,
  workbook: Workbook | null,
  run: RunRecord | null,
): Promise<Seen> {
  const file = args.file as string;
  const plan = chooseMapping(args, readOptionsOf(args), path, { workbook, run });
  const log = await progressFor(args, (line) =>
    withMapping(plan, () =>
      openExport(path, {
        ...plan.options,
        fileName: file,
        onProgress: ({ rows, bytes, totalBytes }) => line.report({ rows, done: bytes, total: totalBytes }),
      }),
    ),
  );
  if (plan.saved !== null) refuseOtherNames(log.mapping, file, plan.saved.name, plan.saved.mapping);
  return { plan, log };
}
