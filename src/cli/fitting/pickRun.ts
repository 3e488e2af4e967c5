import { problem } from '../../errors/index.js';
import { listRuns, readRun, type Workbook } from '../../workbook/index.js';
import { askFor } from '../askFor.js';
import { atTerminal } from '../Outcome.js';
import type { FitArgs } from './FitArgs.js';

/** The run that is named; at a terminal the one that is typed; else the last that has a log of the temperature. */
export async function pickRun(args: FitArgs, workbook: Workbook): Promise<string> {
  if (args.run !== undefined) return args.run;
  const logged = listRuns(workbook.dir)
    .map((id) => readRun(workbook.dir, id).run)
    .filter(({ attachments }) => attachments.some(({ role }) => role === 'temperatureLog'))
    .sort((a, b) => Date.parse(a.startedAt) - Date.parse(b.startedAt))
    .map(({ id }) => id);
  const last = logged.at(-1);
  if (atTerminal(args)) return askFor(args, 'run', 'Which run', 'the run', last);
  if (last === undefined)
    throw problem('runs-without-temperature', {}, {}, 'Take one in with: heatledger import FILE --run RUN');
  return last;
}
