import { spawnSync } from 'node:child_process';
import { cpSync, existsSync, readdirSync, rmSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';

const samples = dirname(dirname(fileURLToPath(import.meta.url)));
/** The program as built. */
export const program = join(dirname(samples), 'dist', 'cli', 'main.js');

/**
 * Runs the program: what it printed and its exit code. What it says on stderr goes through, but for JSON, where the
 * error is in what it printed.
 * @param {string[]} args
 * @returns {{ printed: string, code: number }}
 */
export function heatledger(args) {
  const quiet = args.includes('--json') ? 'ignore' : 'inherit';
  const ended = spawnSync(process.execPath, [program, ...args], {
    encoding: 'utf8',
    stdio: ['ignore', 'pipe', quiet],
    maxBuffer: 64e6,
  });
  if (ended.error) throw ended.error;
  return { printed: ended.stdout, code: ended.status ?? 1 };
}

/**
 * Makes the dairy's workbook anew in a folder: its records, then every run walked by the program from its file of
 * answers, exports taken in on the way. Days first, as they would come at the bench.
 * @param {string} dir
 * @param {(run: string, outcome: any) => void} [tell]
 */
export function fillWorkbook(dir, tell = () => {}) {
  if (!existsSync(program)) throw new Error('The program is not built: npm run build');
  rmSync(dir, { recursive: true, force: true });
  cpSync(join(samples, 'records'), dir, { recursive: true });
  const answers = readdirSync(join(samples, 'answers')).sort();
  for (const file of answers) {
    const { printed } = heatledger([
      'test',
      '--workbook',
      dir,
      '--answers',
      join(samples, 'answers', file),
      '--json',
    ]);
    tell(file.replace(/\.yaml$/, ''), JSON.parse(printed));
  }
}
