import { BLOCK, type Program } from './Program.js';
import { runBlocks } from './runBlocks.js';
import { Xoshiro } from './Xoshiro.js';

/**
 * The trials of a program, which grow on demand. Block k always starts from the seed's state k jumps ahead, so that the first
 * trials are the same however many are asked for, in whatever portions, by however many threads.
 */
export class TrialRun {
  private readonly generator: Xoshiro;
  private values: Float64Array[];
  private done = 0;

  constructor(
    readonly program: Program,
    seed: number,
    private readonly threads: number,
  ) {
    this.generator = Xoshiro.seeded(seed);
    this.values = program.outputs.map(() => new Float64Array(0));
  }

  /** Makes sure that at least so many trials are there. */
  extendTo(trials: number): void {
    const blocks = Math.ceil(trials / BLOCK) - this.done;
    if (blocks <= 0) return;
    const states = new Uint32Array(4 * blocks);
    for (let k = 0; k < blocks; k++) {
      this.generator.store(states, 4 * k);
      this.generator.jump();
    }
    const fresh = runBlocks(this.program, states, this.threads);
    const before = this.done * BLOCK;
    this.values = before === 0 ? fresh : this.values.map((old, j) => appended(old, before, fresh[j]!));
    this.done += blocks;
  }

  /** Trials from..to of an output; a view. */
  of(output: number, from: number, to: number): Float64Array {
    return this.values[output]!.subarray(from, to);
  }
}

/** The first `used` values and then the others, in place where there is room, else with as much room again. */
function appended(values: Float64Array, used: number, others: Float64Array): Float64Array {
  const total = used + others.length;
  let room = values;
  if (total > values.length) {
    room = new Float64Array(Math.max(total, 2 * used));
    room.set(values.subarray(0, used));
  }
  room.set(others, used);
  return room;
}
