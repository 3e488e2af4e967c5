import { Worker } from 'node:worker_threads';
import type { Job } from './work.js';

const helpers: Worker[] = [];

/**
 * Sends a job to `count` other threads, which are started on first need and kept; they don't keep the process alive.
 * Nobody waits for them: a thread that is still starting, or can't start at all, simply takes no blocks. Run from
 * the TypeScript sources there is no compiled file to start, and the calling thread does everything.
 */
export function askHelpers(job: Job, count: number): void {
  if (import.meta.url.endsWith('.ts')) return;
  while (helpers.length < count) helpers.push(startHelper());
  for (const helper of helpers.slice(0, count)) helper.postMessage(job);
}

function startHelper(): Worker {
  const helper = new Worker(new URL('./worker.js', import.meta.url), { execArgv: [] });
  helper.unref();
  helper.on('error', () => {
    helpers.splice(helpers.indexOf(helper), 1);
  });
  return helper;
}
