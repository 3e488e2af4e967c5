// Counts campaigns for coverage.mjs: gets the place of a cell and a range of campaigns, sends back their sums.
import { parentPort } from 'node:worker_threads';
import { cells, tally } from './cells.mjs';
import { openLab } from './lab.mjs';

const lab = openLab();
parentPort?.on('message', (job) => {
  if (job === null) parentPort?.close();
  else parentPort?.postMessage(tally(lab, cells[job.cell], job.from, job.to));
});
