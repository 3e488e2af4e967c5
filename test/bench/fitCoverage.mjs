/**
 * Whether intervals of fitted κ (two fills), UA and τ hold what they say, and whether a curve that doesn't fit is called
 * so: `node test/bench/fitCoverage.mjs [--campaigns N] [--cells a,b] [--workers N]`, after a build; 1,000 campaigns a cell.
 *
 * Truth is a heater body and a load with an integrator of their own (fitCoverage/truth.mjs). Cells: AR(1) noise of 0.05 K
 * with ρ 0.5, 0.8 and 0.95 at 10 s, and a logger of 0.1 K steps; errors of all instruments drawn anew for each campaign.
 * A second line for each cell has instruments without errors, so that the scatter of the log is not hidden behind them: there only
 * the lower bar is asked. Last, loads with a body of a quarter of their heat capacity, fitted by one node.
 */
import { existsSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { parseArgs } from 'node:util';
import { Worker } from 'node:worker_threads';
import { cells } from './fitCoverage/truth.mjs';

const chunk = 50;
const bars = { low: 0.925, high: 0.985, unfit: 0.95 };
const figures = ['kappa', 'body', 'ua', 'tau'];
/** Those that the bars are about; the body's heat capacity is shown beside them. */
const judged = ['kappa', 'ua', 'tau'];
/** Seeds, chosen before any result was seen: the decimals of e, five by five. */
const seeds = [71828, 18284, 59045, 23536, 2874, 71352, 66249, 77572, 47093, 69995, 95749, 66967];

function optionsOf(args) {
  const { values } = parseArgs({
    args,
    options: {
      campaigns: { type: 'string', default: '1000' },
      cells: { type: 'string', default: Object.keys(cells).join(',') },
      workers: { type: 'string', default: '2' },
    },
  });
  const count = (name) => {
    const number = Number(values[name]);
    if (!Number.isInteger(number) || number < 1)
      throw new Error(`--${name} ${values[name]}: a whole number of 1 or more is expected.`);
    return number;
  };
  const chosen = values.cells.split(',');
  const unknown = chosen.filter((name) => !(name in cells));
  if (unknown.length > 0)
    throw new Error(`--cells ${unknown.join(',')}: no such cell. There are ${Object.keys(cells).join(' ')}`);
  return { campaigns: count('campaigns'), workers: count('workers'), cells: chosen };
}

/** Runs the jobs on workers, each taking the next when it is done; the results in the order of the jobs. */
async function onWorkers(jobs, count) {
  const results = new Array(jobs.length);
  let next = 0;
  const one = () =>
    new Promise((resolve, reject) => {
      const worker = new Worker(new URL('fitCoverage/worker.mjs', import.meta.url));
      let current = -1;
      const give = () => {
        current = next++;
        worker.postMessage(current < jobs.length ? jobs[current] : null);
      };
      worker.on('message', (result) => {
        results[current] = result;
        if (process.stderr.isTTY) process.stderr.write(`\r${current + 1} of ${jobs.length} parts `);
        give();
      });
      worker.on('error', reject);
      worker.on('exit', resolve);
      give();
    });
  await Promise.all(Array.from({ length: count }, one));
  return results;
}

const share = (list) => list.filter(Boolean).length / list.length;
const mean = (list) => list.reduce((sum, value) => sum + value, 0) / list.length;
const rounded = (value) => Number(value.toPrecision(4));

function coverageRow(kind, cell, rows) {
  const of = Object.fromEntries(
    figures.map((name) => {
      const own = rows.map((row) => row.figures[name]);
      return [
        name,
        {
          holds: rounded(share(own.map(({ holds }) => holds))),
          halfWidth: rounded(mean(own.map(({ halfWidth }) => halfWidth))),
          rmsError: rounded(Math.sqrt(mean(own.map(({ error }) => error ** 2)))),
          scatterShare: rounded(mean(own.map(({ scatterShare }) => scatterShare))),
        },
      ];
    }),
  );
  return { kind, cell, campaigns: rows.length, fits: rounded(share(rows.map(({ fits }) => fits))), ...of };
}

/** How far a row is from its bars, 1 at the bar. */
function overBars(row) {
  if (row.kind === 'misfit') return { unfit: (1 - row.unfit) / (1 - bars.unfit) };
  const middle = (bars.low + bars.high) / 2;
  const over = (holds) =>
    row.kind === 'perfect' ? (1 - holds) / (1 - bars.low) : Math.abs(holds - middle) / (bars.high - middle);
  return Object.fromEntries(judged.map((name) => [name, over(row[name].holds)]));
}

function line(row) {
  const head = `${row.cell.padEnd(9)} ${row.kind.padEnd(11)}`;
  if (row.kind === 'misfit') return `${head} ${row.campaigns} one-node fits, called unfit: ${row.unfit}`;
  const parts = figures.map((name) => {
    const { holds, halfWidth, rmsError } = row[name];
    return `${name} ${holds.toFixed(3)} ±${(100 * halfWidth).toFixed(3)} % (rms ${(100 * rmsError).toFixed(3)})`;
  });
  return `${head} ${parts.join('  ')}  called fit: ${row.fits}`;
}

async function main() {
  const options = optionsOf(process.argv.slice(2));
  const kinds = ['instruments', 'perfect', 'misfit'];
  const jobs = kinds.flatMap((kind, k) =>
    options.cells.flatMap((cell) =>
      Array.from({ length: Math.ceil(options.campaigns / chunk) }, (_, i) => ({
        kind,
        cell,
        seed: seeds[4 * k + Object.keys(cells).indexOf(cell)],
        from: i * chunk,
        to: Math.min((i + 1) * chunk, options.campaigns),
      })),
    ),
  );
  const results = await onWorkers(jobs, options.workers);
  const worst = { ratio: 0, of: '' };
  const table = kinds.flatMap((kind) =>
    options.cells.map((cell) => {
      const rows = results.filter((_, i) => jobs[i].kind === kind && jobs[i].cell === cell).flat();
      const row =
        kind === 'misfit'
          ? { kind, cell, campaigns: rows.length, unfit: rounded(share(rows.map(({ unfit }) => unfit))) }
          : coverageRow(kind, cell, rows);
      process.stdout.write(`${line(row)}\n`);
      // Written so that an unknown ratio is the worst.
      for (const [bar, ratio] of Object.entries(overBars(row)))
        if (!(ratio <= worst.ratio)) Object.assign(worst, { ratio, of: `${bar} of ${cell}, ${kind}` });
      return row;
    }),
  );
  const holds = worst.ratio <= 1;
  const ratio = rounded(worst.ratio);
  process.stdout.write(
    `${JSON.stringify({ bench: 'fit-coverage', cells: table, worst: worst.of, ratio, holds })}\n`,
  );
  if (!holds) process.exitCode = 1;
}

if (!existsSync(fileURLToPath(new URL('../../dist/fitting/index.js', import.meta.url)))) {
  process.stderr.write('dist is missing: build it first (npm run build).\n');
  process.exitCode = 1;
} else {
  await main().catch((error) => {
    process.stderr.write(`${error instanceof Error ? error.message : String(error)}\n`);
    process.exitCode = 1;
  });
}
