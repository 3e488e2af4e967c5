/**
 * Whether intervals hold what they say, in whole campaigns: a true world, instruments with drawn errors, what a person
 * would type, and the evaluation on the road that everybody takes. 36 cells of 5,000 campaigns or more:
 * `node test/bench/coverage.mjs [--campaigns N] [--cells a,b] [--workers N]`, after a build.
 *
 * What the cells are made of: the shipped procedure on a steady heater at 82 %, a rise of 40 K in 5 kg. Fresh in a run are
 * mostly stirring and the body at rest, all rectangular; shared are mostly the certificates of meter (normal) and
 * thermometer, the rest rectangular. Were one rectangular error, such as a meter's data-sheet limit, nearly all there is, the
 * mean's interval would hold the truth nearly always: 1.96 standard deviations reach beyond the ends of a rectangle.
 *
 * Of what the program states, the weather's pressure is not drawn: it moves an efficiency by 0.0001 %.
 */
import { existsSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { parseArgs } from 'node:util';
import { Worker } from 'node:worker_threads';

const chunk = 250;

function optionsOf(args) {
  const { values } = parseArgs({
    args,
    options: {
      campaigns: { type: 'string', default: '5000' },
      cells: { type: 'string', default: '' },
      workers: { type: 'string', default: '2' },
    },
  });
  const count = (name) => {
    const number = Number(values[name]);
    if (!Number.isInteger(number) || number < 1)
      throw new Error(`--${name} ${values[name]}: a whole number of 1 or more is expected.`);
    return number;
  };
  return {
    campaigns: count('campaigns'),
    workers: count('workers'),
    cells: values.cells.split(',').filter((each) => each !== ''),
  };
}

/** Runs the jobs on workers, each taking the next when it is done; the results in the order of the jobs. */
function onWorkers(jobs, count, done) {
  const results = new Array(jobs.length);
  let next = 0;
  const one = () =>
    new Promise((resolve, reject) => {
      const worker = new Worker(new URL('coverage/worker.mjs', import.meta.url));
      let current = -1;
      const give = () => {
        current = next++;
        worker.postMessage(current < jobs.length ? jobs[current] : null);
      };
      worker.on('message', (result) => {
        results[current] = result;
        done();
        give();
      });
      worker.on('error', reject);
      worker.on('exit', resolve);
      give();
    });
  return Promise.all(Array.from({ length: count }, one)).then(() => results);
}

function progress(total) {
  let count = 0;
  const started = performance.now();
  return () => {
    count += 1;
    if (!process.stderr.isTTY) return;
    const left = ((performance.now() - started) / count) * (total - count);
    const end = count === total ? '\n' : '';
    process.stderr.write(`\r${count} of ${total} parts, ${(left / 60_000).toFixed(1)} min left   ${end}`);
  };
}

const columns = {
  campaigns: 0,
  spreadRatio: 3,
  sharedRatio: 3,
  mean: 4,
  prediction: 4,
  meanWidth: 3,
  predictionWidth: 3,
  error: 3,
};

function line(figures, over) {
  const values = Object.entries(columns).map(([key, digits]) =>
    figures[key].toFixed(digits).padStart(Math.max(9, key.length)),
  );
  const broken = Object.entries(over).filter(([, ratio]) => !(ratio <= 1));
  const words = broken.map(([bar, ratio]) => `${bar} at ${ratio.toFixed(2)} of its bar`).join(', ');
  return `${figures.cell.padEnd(24)} ${values.join(' ')}  ${words}`;
}

const head = `${'cell'.padEnd(24)} ${Object.keys(columns)
  .map((key) => key.padStart(9))
  .join(' ')}`;

const rounded = (figures) =>
  Object.fromEntries(
    Object.entries(figures).map(([key, value]) => [
      key,
      typeof value === 'number' ? Number(value.toFixed(4)) : value,
    ]),
  );

async function main() {
  const { cells, figuresOf, overBars, sum } = await import('./coverage/cells.mjs');
  const { freshU } = await import('./coverage/lab.mjs');
  const options = optionsOf(process.argv.slice(2));
  const unknown = options.cells.filter((id) => !cells.some((cell) => cell.id === id));
  if (unknown.length > 0)
    throw new Error(
      `--cells ${unknown.join(',')}: no such cell. There are ${cells.map((c) => c.id).join(' ')}`,
    );
  const chosen = cells.filter((cell) => options.cells.length === 0 || options.cells.includes(cell.id));
  const jobs = chosen.flatMap((cell) => {
    const starts = Array.from({ length: Math.ceil(options.campaigns / chunk) }, (_, i) => i * chunk);
    const place = cells.indexOf(cell);
    return starts.map((from) => ({ cell: place, from, to: Math.min(from + chunk, options.campaigns) }));
  });
  const tallies = await onWorkers(jobs, options.workers, progress(jobs.length));
  process.stdout.write(`${head}\n`);
  const worst = { ratio: 0, of: '' };
  const rows = chosen.map((cell) => {
    const own = tallies.filter((_, i) => jobs[i].cell === cells.indexOf(cell));
    const figures = figuresOf(cell, sum(own), cell.spread * freshU);
    const over = overBars(cell, figures);
    process.stdout.write(`${line(figures, over)}\n`);
    // Written so that an unknown ratio is the worst.
    for (const [bar, ratio] of Object.entries(over))
      if (!(ratio <= worst.ratio)) Object.assign(worst, { ratio, of: `${bar} of ${cell.id}` });
    return rounded(figures);
  });
  const holds = worst.ratio <= 1;
  const ratio = Number(worst.ratio.toFixed(4));
  process.stdout.write(
    `${JSON.stringify({ bench: 'coverage', cells: rows, worst: worst.of, ratio, holds })}\n`,
  );
  if (!holds) process.exitCode = 1;
}

if (!existsSync(fileURLToPath(new URL('../../dist/evaluation/index.js', import.meta.url)))) {
  process.stderr.write('dist is missing: build it first (npm run build).\n');
  process.exitCode = 1;
} else {
  await main().catch((error) => {
    process.stderr.write(`${error instanceof Error ? error.message : String(error)}\n`);
    process.exitCode = 1;
  });
}
