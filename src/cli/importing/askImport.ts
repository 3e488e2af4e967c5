import { existsSync } from 'node:fs';
import { HeatledgerError, problem } from '../../errors/index.js';
import { exportPath } from '../../protocols/index.js';
import { type Workbook, listRuns, readRun } from '../../workbook/index.js';
import type { Asker } from './Desk.js';

/** Which file: asked for until there is one that can be read. */
export async function askFile(asker: Asker | null): Promise<string> {
  if (asker === null)
    throw problem('option-missing', { option: 'file', what: 'a CSV export' }, { key: 'file' });
  const help =
    'The path of the CSV file that the meter or the logger has written. A file dragged into this window will do.';
  return asker.ask({ step: 'file', text: 'Which CSV export', kind: 'text', help }, (typed) => {
    if (typed === '') return { refused: 'An answer is needed here.' };
    const file = unquoted(typed);
    try {
      exportPath(file);
      return file;
    } catch (error) {
      if (error instanceof HeatledgerError) return { refused: error.message };
      throw error;
    }
  });
}

/** A path as windows write it where a file is dragged into a terminal: in quotes, or with its blanks marked. */
function unquoted(typed: string): string {
  const inside = /^(['"])(.+)\1$/.exec(typed)?.[2];
  if (inside !== undefined && !existsSync(typed)) return inside;
  return existsSync(typed) ? typed : typed.replace(/\\(.)/g, '$1');
}

/** Which run: the one begun last unless another is named. */
export async function askRun(asker: Asker | null, workbook: Workbook): Promise<string> {
  if (asker === null) throw problem('option-missing', { option: '--run', what: 'the run' }, { key: '--run' });
  const begun = listRuns(workbook.dir)
    .map((id) => readRun(workbook.dir, id).run)
    .sort((a, b) => (a.startedAt < b.startedAt ? -1 : 1))
    .map(({ id }) => id);
  const last = begun.at(-1);
  if (last === undefined) {
    const hint = 'Begin one with: heatledger test. To look at the export and keep nothing: --look.';
    throw problem('run-unknown', { got: '', known: 'none yet' }, { file: workbook.dir }, hint);
  }
  const latest = begun.reverse();
  return asker.ask(
    { step: 'run', text: 'To which run does it belong', kind: 'text', default: last, options: latest },
    (typed) => {
      const found = latest.find((id) => id === typed.toLowerCase());
      return (
        found ?? { refused: `There is no run "${typed}". Choose one of: ${latest.slice(0, 12).join(', ')}.` }
      );
    },
  );
}
