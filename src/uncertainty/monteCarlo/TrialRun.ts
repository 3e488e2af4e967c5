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
    this.values = this.done === 0 ? fresh : this.values.map((old, j) => joined(old, fresh[j]!));
    this.done += blocks;
  }

  /** Trials from..to of an output; a view. */
  of(output: number, from: number, to: number): Float64Array {
    return this.values[output]!.subarray(from, to);
  }
}

function joined(first: Float64Array, second: Float64Array): Float64Array {
  const whole = new Float64Array(first.length + second.length);
  whole.set(first);
  whole.set(second, first.length);
  return whole;
}
