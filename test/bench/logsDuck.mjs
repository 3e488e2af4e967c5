// The same figures from the same export by DuckDB with two threads, start-up included.
// node logsDuck.mjs FOLDER FILE FORM, where FOLDER has @duckdb/node-api installed; prints one line of JSON.
import { createRequire } from 'node:module';
import { join } from 'node:path';

const [folder, file, form] = process.argv.slice(2);
const { DuckDBInstance } = createRequire(join(folder, 'package.json'))('@duckdb/node-api');
const instance = await DuckDBInstance.create(':memory:', { threads: '2' });
const connection = await instance.connect();
const names = ['U [V]', 'I [A]', 'P [W]', 'E [Wh]'];
const columns = `columns={'time':'TIMESTAMP', ${names.map((name) => `'${name}':'DOUBLE'`).join(', ')}}`;
// Every way to make it quicker that we know of: types stated, one pass, the window in the order of the file.
const how =
  form === 'dayFirst'
    ? `delim=';', decimal_separator=',', timestampformat='%d.%m.%Y %H:%M:%S,%g', ${columns}`
    : columns;
const answer = await connection.runAndReadAll(`
  WITH rows AS (
    SELECT "P [W]" AS p, "E [Wh]" AS e, epoch_us("time") AS t FROM read_csv('${file}', header=true, ${how})
  ), pairs AS (
    SELECT p, e, t, lag(p) OVER () AS p0, lag(t) OVER () AS t0 FROM rows
  )
  SELECT count(*) AS n, sum((p + p0) / 2 * (t - t0)) / 3.6e9 AS integral, max(e) - min(e) AS counter, avg(p) AS mean,
    count(*) FILTER (t - t0 > 2000000) AS gaps, min(t) FILTER (p > 90) AS first, max(t) FILTER (p > 90) AS last, min(t) AS t0
  FROM pairs`);
const [row] = answer.getRowObjectsJson();
const result = {
  rows: Number(row.n),
  integralWh: row.integral,
  counterWh: row.counter,
  gaps: Number(row.gaps),
  onS: (Number(row.first) - Number(row.t0)) / 1e6,
  offS: (Number(row.last) - Number(row.t0)) / 1e6,
  peakMB: process.resourceUsage().maxRSS / 1024,
};
process.stdout.write(`${JSON.stringify(result)}\n`);
