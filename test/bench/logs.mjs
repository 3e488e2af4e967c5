// A large export to energy by integration and by counter, mean, gaps and phases: heatledger beside DuckDB, and beside pandas
// where it is there. Each reading is a process of its own, start-up included. DuckDB is installed for this bench only,
// beside the project's packages; where that fails its column stays empty and nothing is compared.
import { spawnSync } from 'node:child_process';
import { existsSync, mkdirSync, mkdtempSync, rmSync, statSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { median, verdict } from './bench.mjs';
import { writeLogFile } from './logFile.mjs';

const here = (/** @type {string} */ name) => fileURLToPath(new URL(name, import.meta.url));
const duckVersion = '1.5.6-r.1';
const duckFolder = here('../../node_modules/.cache/heatledger/duckdb');
const python = process.env.PYTHON ?? '/usr/bin/python3';
const ROUNDS = 5;
const MEMORY_MB = 150;
const DAY_FIRST_FACTOR = 3;
const print = (/** @type {string} */ line) => process.stdout.write(`${line}\n`);

function installDuck() {
  const there = join(duckFolder, 'node_modules/@duckdb/node-api/package.json');
  if (existsSync(there)) return true;
  mkdirSync(duckFolder, { recursive: true });
  writeFileSync(join(duckFolder, 'package.json'), '{ "private": true }\n');
  const args = ['install', '--no-audit', '--no-fund', `@duckdb/node-api@${duckVersion}`];
  const done = spawnSync('npm', args, { cwd: duckFolder, encoding: 'utf8' });
  if (done.status === 0) return true;
  print(`DuckDB could not be installed: ${done.stderr.trim().split('\n')[0]}`);
  return false;
}

const hasPandas = () => spawnSync(python, ['-c', 'import pandas']).status === 0;

/**
 * @param {string} command @param {string[]} args
 * @returns {{ seconds: number, result: any }}
 */
function timed(command, args) {
  const start = performance.now();
  const done = spawnSync(command, args, { encoding: 'utf8' });
  const seconds = (performance.now() - start) / 1000;
  if (done.status !== 0) throw new Error(`${command} ${args.join(' ')} failed: ${done.stderr}`);
  return { seconds, result: JSON.parse(done.stdout.trim().split('\n').at(-1) ?? '') };
}

const folder = mkdtempSync(join(tmpdir(), 'heatledger-bench-'));
const files = [
  { rows: 10_000, form: 'iso' },
  { rows: 100_000, form: 'iso' },
  { rows: 2_000_000, form: 'iso' },
  { rows: 5_000_000, form: 'iso' },
  { rows: 5_000_000, form: 'dayFirst' },
].map(({ rows, form }) => ({ rows, form, path: join(folder, `${form}-${rows}.csv`) }));

try {
  for (const { path, rows, form } of files)
    writeLogFile(path, rows, /** @type {'iso' | 'dayFirst'} */ (form));
  const duck = installDuck();
  const pandas = hasPandas();
  /** @type {Map<string, { file: typeof files[number], reader: string, seconds: number[], peakMB: number[], result: any }>} */
  const seen = new Map();
  const read = (/** @type {string} */ reader, /** @type {typeof files[number]} */ file) => {
    const { seconds, result } =
      reader === 'heatledger'
        ? timed(process.execPath, [here('logsOurs.mjs'), file.path])
        : reader === 'DuckDB'
          ? timed(process.execPath, [here('logsDuck.mjs'), duckFolder, file.path, file.form])
          : timed(python, [here('logsPandas.py'), file.path]);
    const key = `${reader} ${file.path}`;
    const known = seen.get(key) ?? { file, reader, seconds: [], peakMB: [], result };
    known.seconds.push(seconds);
    known.peakMB.push(result.peakMB);
    seen.set(key, known);
  };
  // In turn, so that a machine that slows down slows all; a first round, which warms the file cache, isn't counted.
  for (let round = -1; round < ROUNDS; round += 1) {
    for (const file of files) {
      const readers = ['heatledger', ...(duck ? ['DuckDB'] : [])];
      for (const reader of round % 2 ? readers.reverse() : readers) read(reader, file);
    }
    if (round === -1) seen.clear();
  }
  if (pandas) for (const file of files.filter(({ form }) => form === 'iso')) read('pandas', file);

  print('reader      form          rows      s   rows/s     MB/s  peak MB');
  for (const { file, reader, seconds, peakMB } of seen.values()) {
    const s = median(seconds);
    const megabytes = statSync(file.path).size / 1e6;
    const cells = [
      reader.padEnd(11),
      file.form.padEnd(9),
      String(file.rows).padStart(8),
      s.toFixed(2).padStart(6),
      `${(file.rows / s / 1e6).toFixed(2)} M`.padStart(8),
      (megabytes / s).toFixed(0).padStart(8),
      Math.max(...peakMB)
        .toFixed(0)
        .padStart(8),
    ];
    print(cells.join(' '));
  }
  const of = (/** @type {string} */ reader, /** @type {number} */ index) => {
    const found = seen.get(`${reader} ${files[index]?.path}`);
    return found
      ? { s: median(found.seconds), peakMB: Math.max(...found.peakMB), result: found.result }
      : null;
  };
  const ours = of('heatledger', 3);
  const dayFirst = of('heatledger', 4);
  const half = of('heatledger', 2);
  const theirs = of('DuckDB', 3);
  if (!ours || !dayFirst || !half) throw new Error('A reading is missing.');
  // DuckDB integrates from the first row to the last, heatledger over the heating: what is alike in both is compared.
  const alike = theirs
    ? ours.result.rows === theirs.result.rows &&
      Math.abs(ours.result.onS - theirs.result.onS) < 1e-6 &&
      Math.abs(ours.result.offS - theirs.result.offS) < 1e-6
    : true;
  if (theirs) {
    print(
      `heating, heatledger: ${ours.result.integralWh.toFixed(4)} Wh by integration, ${ours.result.counterWh.toFixed(4)} Wh by counter, from ${ours.result.onS} s to ${ours.result.offS} s`,
    );
    print(
      `all rows, DuckDB:    ${theirs.result.integralWh.toFixed(4)} Wh by integration, ${theirs.result.counterWh.toFixed(4)} Wh by counter, heating from ${theirs.result.onS} s to ${theirs.result.offS} s`,
    );
  } else print('DuckDB: none here, nothing is compared');
  const outcome = theirs ? verdict(ours.s, theirs.s) : { ratio: null, holds: true };
  const peaks = files.map((_, index) => of('heatledger', index)?.peakMB ?? Number.NaN);
  const dayFirstRatio = dayFirst.s / ours.s;
  // Time a row at 5 million against 2 million; memory may not follow the rows.
  const growth = ours.s / 5 / (half.s / 2);
  const memoryGrowth = ours.peakMB / half.peakMB;
  const round = (/** @type {number} */ value) => Number(value.toFixed(3));
  const holds =
    outcome.holds &&
    alike &&
    Math.max(...peaks) < MEMORY_MB &&
    dayFirstRatio <= DAY_FIRST_FACTOR &&
    growth < 1.3 &&
    memoryGrowth < 1.2;
  const figures = {
    bench: 'logs',
    rows: 5_000_000,
    megabytes: round(statSync(files[3]?.path ?? '').size / 1e6),
    heatledgerS: round(ours.s),
    duckdbS: theirs ? round(theirs.s) : null,
    duckdbPeakMB: theirs ? round(theirs.peakMB) : null,
    dayFirstS: round(dayFirst.s),
    dayFirstRatio: round(dayFirstRatio),
    timeGrowth: round(growth),
    memoryGrowth: round(memoryGrowth),
    peakMB: round(Math.max(...peaks)),
    sameEdges: alike,
    pandas,
    ...outcome,
    holds,
  };
  print(JSON.stringify(figures));
  if (!holds) process.exitCode = 1;
} finally {
  rmSync(folder, { recursive: true, force: true });
}
