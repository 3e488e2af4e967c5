import { statSync } from 'node:fs';
import { problem } from '../../errors/index.js';
import { type Log, type LogFile, logCsv } from '../../logs/index.js';
import type { CommonArgs } from '../Outcome.js';
import { resolvePath, writeOutput } from '../writeOutput.js';
import { progressFor } from './progressFor.js';

/** How a CSV of ours begins: our names of columns and no other. */
const ours =
  /^time_s(,time_utc)?(,power_W)?(,energy_Wh)?(,voltage_V)?(,current_A)?(,power_factor)?(,temperature_degC)?\n/;

/** Writes a log as tidy CSV, whole or not at all, never over the export itself, and says so. */
export async function writeLogCsv(
  args: CommonArgs & { readonly csv?: string | undefined },
  exportFile: string,
  log: Log | LogFile,
): Promise<string[]> {
  const { csv } = args;
  if (csv === undefined) return [];
  refuseExport(csv, exportFile);
  let header = '';
  await progressFor(args, (line) => {
    function* pieces() {
      let rows = 0;
      for (const piece of logCsv(log)) {
        if (header === '') header = piece.slice(0, piece.indexOf('\n'));
        yield piece;
        for (let at = piece.indexOf('\n'); at >= 0; at = piece.indexOf('\n', at + 1)) rows += 1;
        line.report({ rows: Math.min(rows, log.rows), done: rows, total: log.rows });
      }
    }
    writeOutput(csv, pieces(), '--csv', ours);
  });
  return [
    `wrote ${log.rows === 1 ? '1 row' : `${log.rows} rows`} to ${csv}: ${header.replaceAll(',', ', ')}`,
  ];
}

/** By any name it may have: a link leads to the same file. */
function refuseExport(csv: string, exportFile: string): void {
  const out = statSync(resolvePath(csv), { throwIfNoEntry: false });
  const own = statSync(exportFile);
  if (out && out.dev === own.dev && out.ino === own.ino)
    throw problem('output-on-export', { file: csv }, { key: '--csv' });
}
