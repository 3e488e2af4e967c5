// Counts campaigns for fitCoverage.mjs: gets a cell and a range of campaigns, sends back what each stated.
import { parentPort } from 'node:worker_threads';
import * as fitting from 'heatledger/fitting';
import * as uncertainty from 'heatledger/uncertainty';
import { campaign, misfit } from './campaign.mjs';
import { instruments, perfect } from './truth.mjs';

const program = { ...fitting, ...uncertainty };

parentPort?.on('message', (job) => {
  if (job === null) {
    parentPort?.close();
    return;
  }
  const { kind, cell, seed, from, to } = job;
  const numbers = Array.from({ length: to - from }, (_, i) => from + i);
  parentPort?.postMessage(
    numbers.map((number) =>
      kind === 'misfit'
        ? misfit(program, cell, seed, number)
        : campaign(program, cell, seed, number, kind === 'perfect' ? perfect : instruments),
    ),
  );
});
