// One reading of one export by heatledger, start-up included: energy by integration and by counter, mean, gaps, phases.
// node logsOurs.mjs FILE; prints one line of JSON.
const dist = new URL('../../dist/logs/index.js', import.meta.url);
const { counterEnergy, integrateEnergy, onOffEdges, openExport, phases } = await import(dist.href);

const log = await openExport(process.argv[2], { zone: 'Europe/Vienna' });
const edges = onOffEdges(log);
const limits = { fromS: edges.onS, toS: edges.offS };
const integral = integrateEnergy(log, limits);
const counter = counterEnergy(log, { fromS: edges.onBracketS[0], toS: edges.offBracketS[1] });
const found = phases(log);
const result = {
  rows: log.rows,
  integralWh: integral.energyJ / 3600,
  counterWh: counter.energyJ / 3600,
  meanW: integral.meanPowerW,
  gaps: integral.gaps.length,
  onS: edges.onBracketS[1],
  offS: edges.offBracketS[0],
  phases: found.phases.length,
  peakMB: process.resourceUsage().maxRSS / 1024,
};
process.stdout.write(`${JSON.stringify(result)}\n`);
