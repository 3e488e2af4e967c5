import {
  type LogRole,
  type Protocol,
  type ReadyExport,
  readBytes,
  readyExport,
} from '../../protocols/index.js';
import type { RunRecord, Workbook } from '../../workbook/index.js';
import { readOptionsOf } from '../readOptions.js';
import { type Plan, chooseMapping, withMapping } from './chooseMapping.js';
import { refuseOtherNames } from './fitting.js';
import type { ImportArgs } from './ImportArgs.js';

/** Reads an export for a run, with the mapping that is saved for its meter where there is one; keeps nothing. */
export async function readForRun(
  args: ImportArgs,
  path: string,
  workbook: Workbook,
  run: RunRecord,
  protocol: Protocol,
): Promise<{ readonly plan: Plan; readonly ready: ReadyExport }> {
  const file = args.file as string;
  const plan = chooseMapping(args, readOptionsOf(args), path, { workbook, run });
  const role: LogRole | undefined = args.as === undefined ? undefined : `${args.as}Log`;
  const ready = await withMapping(plan, () =>
    readyExport(readBytes(path), file, run, protocol, workbook.settings.zone, {
      options: plan.options,
      ...(role === undefined ? {} : { role }),
    }),
  );
  if (plan.saved !== null) refuseOtherNames(ready.log.mapping, file, plan.saved.name, plan.saved.mapping);
  return { plan, ready };
}
