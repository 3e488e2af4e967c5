/**
 * The main job from end to end on the invented dairy: `npm run demo`. Every run is walked from its raw readings and
 * exports; then the result, the supply for a vat of milk, and the report.
 */
import { mkdirSync, rmSync } from 'node:fs';
import { dirname, join, relative } from 'node:path';
import { fileURLToPath } from 'node:url';
import { fillWorkbook, heatledger } from './lib/fill.mjs';

const reports = join(dirname(dirname(fileURLToPath(import.meta.url))), 'reports');
const workbook = join(reports, 'dairy');
const shown = (path) => relative(process.cwd(), path) || path;

console.log('A small hill dairy tests its 900 W vat warmer (all of it invented).');
console.log('Nine runs, from the typed readings and the raw exports of meter and thermometer:');
mkdirSync(reports, { recursive: true });
fillWorkbook(workbook, (run, { figure, reason, error }) => {
  // Somebody may have changed a sample to see what happens: then the run is refused, and the demo goes on.
  if (!figure) return console.log(`  ${run.padEnd(23)} ${reason ?? error?.message}`);
  const mine = figure.runs.find((each) => each.run === run);
  const { used, logged, typed } = mine.energyJ;
  const kWh = ((used === 'logged' ? logged : typed).value / 3.6e6).toFixed(3);
  console.log(
    `  ${run.padEnd(23)} ${kWh} kWh metered, ${(100 * mine.efficiency.water.value).toFixed(1)} % reached the water`,
  );
});

const step = (...args) => {
  console.log(
    `\n$ heatledger ${args.map((arg) => (/[ ()]/.test(arg) ? `"${arg}"` : arg)).join(' ')} --workbook ${shown(workbook)}`,
  );
  const { printed, code } = heatledger([...args, '--workbook', workbook]);
  process.stdout.write(printed);
  if (code !== 0) process.exitCode = code;
};

const files = { html: join(reports, 'dairy-report.html'), csv: join(reports, 'dairy-figures.csv') };
for (const file of Object.values(files)) rmSync(file, { force: true });
step('report', '--out', shown(files.html));
step('result', '--csv', shown(files.csv));
step(
  ...['size', '--figure', 'vat-warmer/full', '--mass', '12 kg', '--start', '6 °C', '--end', '63 °C'],
  ...['--specific-heat', '3.9 kJ/(kg K)', '--cell', '90 Wh', '--converter', '90 %', '--reserve', '20 %'],
);
console.log(`\nThe report: ${shown(files.html)}\nThe truth behind the invented data: samples/truth.json`);
