import * as kernels from './kernels.js';
import { BLOCK, type Affine, type Program, type Step } from './Program.js';
import { Sampler } from './Sampler.js';
import { Xoshiro } from './Xoshiro.js';

type DrawStep = Extract<Step, { op: 'draw' }>;
type GroupStep = Extract<Step, { op: 'drawGroup' }>;

/** Runs a program, one block of trials after the other, each from the random numbers of its own stream. */
export class Machine {
  private readonly generator = new Xoshiro();
  private readonly sampler: Sampler;
  private readonly registers: Float64Array[];
  private readonly zeros: Float64Array;

  constructor(
    private readonly program: Program,
    /** Id of a source whose error is drawn, so that the others stay as they are, and then taken as zero. */
    private readonly muted: string | null = null,
  ) {
    this.sampler = new Sampler(this.generator, BLOCK);
    this.registers = Array.from({ length: program.registers }, () => new Float64Array(BLOCK));
    this.zeros = new Float64Array(BLOCK);
  }

  /** Evaluates the block whose stream starts from the state at `at`; read the outputs before the next. */
  run(states: Uint32Array, at: number): readonly Float64Array[] {
    this.generator.load(states, at);
    for (const step of this.program.steps) this.perform(step);
    return this.program.outputs.map((register) => this.at(register));
  }

  private at(register: number): Float64Array {
    return register < 0 ? this.zeros : (this.registers[register] as Float64Array);
  }

  private of(affine: Affine): Float64Array {
    return this.at(affine.register);
  }

  private perform(step: Step): void {
    if (step.op === 'draw') this.draw(step);
    else if (step.op === 'drawGroup') this.drawGroup(step);
    else this.compute(step, this.at(step.out));
  }

  private compute(step: Exclude<Step, DrawStep | GroupStep>, out: Float64Array): void {
    switch (step.op) {
      case 'linear':
        kernels.linear(out, step.registers.map(this.at, this), step.factors);
        break;
      case 'multiply':
        kernels.multiply(out, step.a, this.of(step.a), step.b, this.of(step.b));
        break;
      case 'divide':
        kernels.divide(out, step.a, this.of(step.a), step.b, this.of(step.b));
        break;
      case 'power':
        kernels.power(out, step.a, this.of(step.a), step.exponent);
        break;
      case 'elementary':
        kernels.elementary(out, step.a, this.of(step.a), step.name);
        break;
      case 'series':
        kernels.series(out, step.a, this.of(step.a), step.series);
        break;
      case 'call':
        kernels.call(out, step.inputs, step.inputs.map(this.of, this), step.evaluate);
        break;
    }
  }

  private draw(step: DrawStep): void {
    const out = this.at(step.out);
    switch (step.shape) {
      case 'normal':
        this.sampler.normal(out);
        break;
      case 't':
        this.sampler.t(out, step.degreesOfFreedom);
        break;
      case 'rectangular':
        this.sampler.rectangular(out);
        break;
      case 'triangular':
        this.sampler.triangular(out);
        break;
      case 'trapezoidal':
        this.sampler.trapezoidal(out, step.topToBase);
        break;
      case 'arcsine':
        this.sampler.arcsine(out);
        break;
    }
    if (step.source === this.muted) out.fill(0);
  }

  /** L·z with the lower factor L of the covariance; for a joint t all over one root of chi-squared: JCGM 101 6.4.8. */
  private drawGroup({ outs, sources, factor, degreesOfFreedom }: GroupStep): void {
    const blocks = outs.map((register) => this.at(register));
    for (const block of blocks) this.sampler.normal(block);
    for (let i = blocks.length - 1; i >= 0; i--) {
      const [out, row] = [blocks[i] as Float64Array, factor[i] as readonly number[]];
      // From the last member up, so that the normals of those before it are still there.
      for (let k = 0; k < out.length; k++) {
        let sum = 0;
        for (let j = 0; j <= i; j++) sum += row[j]! * blocks[j]![k]!;
        out[k] = sum;
      }
    }
    if (Number.isFinite(degreesOfFreedom)) {
      const roots = new Float64Array(BLOCK);
      this.sampler.rootsOfChiSquared(roots, degreesOfFreedom);
      for (const out of blocks) for (let k = 0; k < out.length; k++) out[k]! /= roots[k]!;
    }
    if (this.muted !== null) blocks[sources.indexOf(this.muted)]?.fill(0);
  }
}
