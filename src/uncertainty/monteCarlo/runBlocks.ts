import { askHelpers } from './helpers.js';
import { Machine } from './Machine.js';
import { BLOCK, type Program } from './Program.js';
import { type Job, work, workBlock } from './work.js';

/** With no block finished for so long, the calling thread makes up for a helper that has died. */
const PATIENCE_MS = 2000;

/**
 * Runs one block for each state and returns the trials of each output. A program that calls a function runs in this thread
 * alone; any other is shared out among `threads`. The bits are the same for any number.
 */
export function runBlocks(program: Program, states: Uint32Array, threads: number): Float64Array[] {
  const blocks = states.length / 4;
  const alone = threads === 1 || !program.portable || blocks === 1;
  const room = (bytes: number) => (alone ? new ArrayBuffer(bytes) : new SharedArrayBuffer(bytes));
  const sharedStates = new Uint32Array(room(states.byteLength));
  sharedStates.set(states);
  const job: Job = {
    program,
    states: sharedStates,
    values: program.outputs.map(() => new Float64Array(room(8 * blocks * BLOCK))),
    counters: new Int32Array(room(8)),
    finished: new Int8Array(room(blocks)),
  };
  if (!alone) askHelpers(job, Math.min(threads, blocks) - 1);
  work(job);
  return alone ? [...job.values] : finishedBy(job);
}

/** Waits for the blocks that others have taken. */
function finishedBy(job: Job): Float64Array[] {
  const { counters, finished } = job;
  for (;;) {
    const done = Atomics.load(counters, 1);
    if (done >= finished.length) return [...job.values];
    if (Atomics.wait(counters, 1, done, PATIENCE_MS) === 'timed-out') return finishAlone(job);
  }
}

/** The blocks that are missing, again, into arrays that no other thread sees. */
function finishAlone(job: Job): Float64Array[] {
  // The flags first: a block that counts as finished is then whole in the copy of the values.
  const finished = Int8Array.from(job.finished);
  const own: Job = { ...job, finished, values: job.values.map((array) => Float64Array.from(array)) };
  const machine = new Machine(job.program);
  for (let block = 0; block < own.finished.length; block++)
    if (own.finished[block] === 0) workBlock(own, machine, block);
  return [...own.values];
}
