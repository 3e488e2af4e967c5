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
    size = BLOCK,
  ) {
    this.sampler = new Sampler(this.generator, size);
    this.registers = Array.from({ length: program.registers }, () => new Float64Array(size));
    this.zeros = new Float64Array(size);
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
    switch (step.op) {
      case 'draw':
        return this.draw(step);
      case 'drawGroup':
        return this.drawGroup(step);
      case 'linear': {
        const blocks = step.registers.map((register) => this.at(register));
        return kernels.linear(this.at(step.out), step.constant, blocks, step.factors);
      }
      case 'multiply':
        return kernels.multiply(this.at(step.out), step.a, this.of(step.a), step.b, this.of(step.b));
      case 'divide':
        return kernels.divide(this.at(step.out), step.a, this.of(step.a), step.b, this.of(step.b));
      case 'power':
        return kernels.power(this.at(step.out), step.a, this.of(step.a), step.exponent);
      case 'elementary':
        return kernels.elementary(this.at(step.out), step.a, this.of(step.a), step.name);
      case 'series':
        return kernels.series(this.at(step.out), step.a, this.of(step.a), step.series);
      case 'call': {
        const blocks = step.inputs.map((input) => this.of(input));
        return kernels.call(this.at(step.out), step.inputs, blocks, step.evaluate);
      }
    }
  }

  private draw(step: DrawStep): void {
    const out = this.at(step.out);
    const { sampler } = this;
    switch (step.shape) {
      case 'normal':
        return sampler.normal(out);
      case 't':
        return sampler.t(out, step.degreesOfFreedom);
      case 'rectangular':
        return sampler.rectangular(out);
      case 'triangular':
        return sampler.triangular(out);
      case 'trapezoidal':
        return sampler.trapezoidal(out, step.topToBase);
      case 'arcsine':
        return sampler.arcsine(out);
    }
  }

  /** L·z with the lower factor L of the covariance; for a joint t all over one root of chi-squared: JCGM 101 6.4.8. */
  private drawGroup({ outs, factor, degreesOfFreedom }: GroupStep): void {
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
    if (!Number.isFinite(degreesOfFreedom)) return;
    const roots = new Float64Array(this.zeros.length);
    this.sampler.rootsOfChiSquared(roots, degreesOfFreedom);
    for (const out of blocks) for (let k = 0; k < out.length; k++) out[k]! /= roots[k]!;
  }
}
