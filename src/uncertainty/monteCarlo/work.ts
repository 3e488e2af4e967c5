import { Machine } from './Machine.js';
import { BLOCK, type Program } from './Program.js';

/** Blocks of trials to be run by whoever is free; all arrays are seen by every thread that takes part. */
export interface Job {
  readonly program: Program;
  /** State of the generator at the start of each block, four words a block. */
  readonly states: Uint32Array;
  /** One array for each output. */
  readonly values: readonly Float64Array[];
  /** The next block to be taken. */
  readonly next: Int32Array;
  /** 1 for each finished block. */
  readonly finished: Int8Array;
}

/** Takes one block after the other until none is left. A block gives the same bits whoever runs it. */
export function work(job: Job): void {
  const machine = new Machine(job.program);
  for (;;) {
    const block = Atomics.add(job.next, 0, 1);
    if (block >= job.finished.length) return;
    workBlock(job, machine, block);
  }
}

export function workBlock({ states, values, finished }: Job, machine: Machine, block: number): void {
  const outputs = machine.run(states, 4 * block);
  outputs.forEach((output, j) => {
    values[j]!.set(output, block * BLOCK);
  });
  Atomics.store(finished, block, 1);
}
