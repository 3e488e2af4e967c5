import { askHelpers } from './helpers.js';
import { Machine } from './Machine.js';
import { BLOCK, type Program } from './Program.js';
import { type Job, work, workBlock } from './work.js';

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
    next: new Int32Array(room(4)),
    finished: new Int8Array(room(blocks)),
  };
  if (alone) {
    work(job);
    return [...job.values];
  }
  askHelpers(job, Math.min(threads, blocks) - 1);
  work(job);
  finish(job);
  return [...job.values];
}

/**
 * Runs again what others have taken and not yet finished, instead of waiting for them: a block is quick, and a thread may be
 * held up for long, or may have died. If it comes back it writes the same bits to the same place.
 */
function finish(job: Job): void {
  const machine = new Machine(job.program);
  for (let block = 0; block < job.finished.length; block++)
    if (Atomics.load(job.finished, block) === 0) workBlock(job, machine, block);
}
