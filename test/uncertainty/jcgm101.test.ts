import { describe, expect, it } from 'vitest';
import {
  add,
  constant,
  correlatedErrors,
  divide,
  errorOf,
  multiply,
  power,
  propagate,
  type Quantity,
  simulate,
  type SourceSpec,
  source,
  subtract,
  validate,
} from '../../src/uncertainty/index.js';
import { additive, comparisonLoss, gaugeBlock, type LossCase, weight } from '../reference/jcgm101.js';
import { expectNear, expectPrinted, expectWithinScatter, overSeeds } from './overSeeds.js';

const error = (id: string, spec: Omit<SourceSpec, 'id' | 'name'>) =>
  errorOf(source({ id, name: id, ...spec }));
const about = (value: number, of: Quantity) => add(constant(value), of);
const between = (id: string, { low, high }: { low: number; high: number }) =>
  about((low + high) / 2, error(id, { halfWidth: (high - low) / 2 }));

describe('JCGM 101 9.2, sums of four inputs', () => {
  const rectangular = (id: string, standardUncertainty: number) =>
    error(id, { standardUncertainty, distribution: 'rectangular' });
  const four = (make: (id: string) => Quantity) => add(...['X1', 'X2', 'X3', 'X4'].map(make));

  it('9.2.2: normal inputs', () => {
    const sum = four((id) => error(id, { standardUncertainty: 1 }));
    const { gaussian } = additive;
    expect(propagate(sum).standardUncertainty).toBe(gaussian.u);
    expect(propagate(sum).interval[1]).toBeCloseTo(gaussian.exactHalf, 9);
    const seen = overSeeds(sum);
    expectNear(seen.mean, 0);
    expectNear(seen.u, gaussian.u);
    expectNear(seen.high, gaussian.exactHalf);
    expectNear(seen.low, -gaussian.exactHalf);
    expectPrinted(seen.high, gaussian.ends[1], 0.01);
    expectWithinScatter(seen.shortestHigh, gaussian.exactHalf);
  });

  it('9.2.3: rectangular inputs of the same width', () => {
    const sum = four((id) => rectangular(id, 1));
    const { rectangular: published } = additive;
    expect(propagate(sum).standardUncertainty).toBeCloseTo(published.u, 12);
    expect(propagate(sum).interval[1]).toBeCloseTo(published.firstOrder[1], 2);
    const seen = overSeeds(sum);
    expectNear(seen.u, published.u);
    expectNear(seen.low, -published.exactHalf);
    expectNear(seen.high, published.exactHalf);
    expectPrinted(seen.low, published.ends[0], 0.01);
    expectPrinted(seen.high, published.ends[1], 0.01);
  });

  it('9.2.4: one much wider than the others', () => {
    const sum = add(rectangular('X1', 1), rectangular('X2', 1), rectangular('X3', 1), rectangular('X4', 10));
    const { mixed } = additive;
    expect(propagate(sum).standardUncertainty).toBeCloseTo(mixed.exactU, 10);
    expect(propagate(sum).interval[1]).toBeCloseTo(mixed.firstOrder[1], 1);
    const seen = overSeeds(sum);
    expectNear(seen.u, mixed.exactU);
    expectNear(seen.high, mixed.exactHalf);
    expectNear(seen.low, -mixed.exactHalf);
    expectPrinted(seen.u, mixed.u, 0.1);
    expectPrinted(seen.high, mixed.ends[1], 0.1);
  });
});

describe('JCGM 101 9.3, calibration of a weight', () => {
  const reference = add(
    about(weight.referenceMg.value, error('m_Rc', { standardUncertainty: weight.referenceMg.u })),
    about(weight.addedMg.value, error('δm_Rc', { standardUncertainty: weight.addedMg.u })),
  );
  const air = subtract(between('ρ_a', weight.airDensity), constant(weight.nominalAirDensity));
  const inverse = (id: string, limits: { low: number; high: number }) =>
    divide(constant(1), between(id, limits));
  const buoyancy = multiply(
    air,
    subtract(inverse('ρ_W', weight.densityOfWeight), inverse('ρ_R', weight.densityOfReference)),
  );
  const deviation = subtract(multiply(reference, add(constant(1), buoyancy)), constant(weight.nominalMg));
  const { published, exact } = weight;

  it('by first order', () => {
    const found = propagate(deviation);
    expect(found.value).toBeCloseTo(published.firstOrder.value, 3);
    expect(found.standardUncertainty).toBeCloseTo(published.firstOrder.u, 4);
    expect(found.interval[0]).toBeCloseTo(published.firstOrder.ends[0], 4);
    expect(found.interval[1]).toBeCloseTo(published.firstOrder.ends[1], 4);
  });
  it('by Monte Carlo', () => {
    const seen = overSeeds(deviation);
    expectNear(seen.mean, exact.mean);
    expectNear(seen.u, exact.u);
    expectNear(seen.low, exact.ends[0]);
    expectNear(seen.high, exact.ends[1]);
    expectPrinted(seen.mean, published.monteCarlo.mean, 1e-4);
    expectPrinted(seen.u, published.monteCarlo.u, 1e-4);
    expectPrinted(seen.shortestLow, published.monteCarlo.shortest[0], 1e-4);
    expectPrinted(seen.shortestHigh, published.monteCarlo.shortest[1], 1e-4);
  });
  it('with the published verdict: first order is not validated, and blind to the densities', () => {
    const found = validate(deviation, { seed: 93, digits: 1 });
    expect(found.tolerance).toBe(0.005);
    expect(found.verdict).toBe('not validated');
    // The trials settle an end to a fifth of δ, and the published distances rest on trials settled to δ/5, too.
    expect(Math.abs(found.dLow - published.dLow)).toBeLessThan(2 * 0.001);
    expect(Math.abs(found.dHigh - published.dHigh)).toBeLessThan(2 * 0.001);
    expect(new Set(found.blindTo)).toEqual(new Set(['ρ_a', 'ρ_W']));
    expect(new Set(found.inputs)).toEqual(new Set(['m_Rc', 'δm_Rc', 'ρ_a', 'ρ_W', 'ρ_R']));
  });
});

/** The unit of the last digit of the tables of 9.4, where results are times 1e6. */
const MILLION = 1e6;

function loss({ x1, r }: LossCase): Quantity {
  const standardUncertainties = [0.005, 0.005];
  const correlation = [
    [1, r],
    [r, 1],
  ];
  const [e1, e2] = correlatedErrors({
    id: 'loss',
    names: ['X1', 'X2'],
    correlation,
    standardUncertainties,
  }) as [Quantity, Quantity];
  return add(power(about(x1, e1), 2), power(e2, 2));
}

describe('JCGM 101 9.4, comparison loss, inputs independent and correlated', () => {
  it.each(comparisonLoss)('by first order: x1 = $x1, r = $r', (given) => {
    const found = propagate(loss(given));
    expect(found.value * MILLION).toBeCloseTo(given.firstOrder.value, 9);
    expect(found.standardUncertainty * MILLION).toBeCloseTo(given.firstOrder.u, 9);
    expect(Math.round(found.interval[0] * MILLION)).toBeCloseTo(given.firstOrder.ends[0], 9);
    expect(Math.round(found.interval[1] * MILLION)).toBeCloseTo(given.firstOrder.ends[1], 9);
  });
  it.each(comparisonLoss)('by Monte Carlo: x1 = $x1, r = $r', (given) => {
    const seen = overSeeds(loss(given), 0.95, MILLION);
    const { exact, monteCarlo } = given;
    expectNear(seen.mean, exact.mean);
    expectNear(seen.u, exact.u);
    expectNear(seen.low, exact.symmetric[0]);
    expectNear(seen.high, exact.symmetric[1]);
    expectWithinScatter(seen.shortestLow, exact.shortest[0]);
    expectWithinScatter(seen.shortestHigh, exact.shortest[1]);
    expectPrinted(seen.mean, monteCarlo.mean, 1);
    expectPrinted(seen.u, monteCarlo.u, 1);
    expectPrinted(seen.shortestLow, monteCarlo.shortest[0], 1);
    expectPrinted(seen.shortestHigh, monteCarlo.shortest[1], 1);
  });
  it.each(comparisonLoss.slice(0, 2))('first order is not validated: x1 = $x1', (given) => {
    const found = validate(loss(given), { seed: 94 });
    expect(found.verdict).toBe('not validated');
    expect(found.blindTo).toEqual(given.x1 === 0 ? ['X1', 'X2'] : ['X2']);
    expect(found.sentence).toMatch(/First order is blind to (X1 and )?X2: .* yet the result moves/);
  });
});

describe('JCGM 101 9.5, calibration of a gauge block', () => {
  /** A rectangle whose limits are not known exactly, JCGM 101 6.4.3: its half-width is spread, too. */
  const uncertainLimits = (
    id: string,
    each: { halfWidth: number; limitHalfWidth: number; degreesOfFreedom: number },
  ) =>
    multiply(
      about(each.halfWidth, error(`${id} limits`, { halfWidth: each.limitHalfWidth })),
      error(id, { halfWidth: 1, degreesOfFreedom: each.degreesOfFreedom }),
    );
  const t = (id: string, each: { u: number; degreesOfFreedom: number }) =>
    error(id, { standardUncertainty: each.u, degreesOfFreedom: each.degreesOfFreedom });
  const standard = about(gaugeBlock.standard.value, t('L_s', gaugeBlock.standard));
  const difference = add(
    about(gaugeBlock.difference.value, t('D', gaugeBlock.difference)),
    t('d1', gaugeBlock.random),
    t('d2', gaugeBlock.systematic),
  );
  const temperature = add(
    about(gaugeBlock.temperature.value, error('θ0', { standardUncertainty: gaugeBlock.temperature.u })),
    error('Δ', { halfWidth: gaugeBlock.cyclic.halfWidth, distribution: 'arcsine' }),
  );
  const strain = add(
    multiply(uncertainLimits('δα', gaugeBlock.expansionDifference), temperature),
    multiply(between('α_s', gaugeBlock.expansion), uncertainLimits('δθ', gaugeBlock.temperatureDifference)),
  );
  const length = add(subtract(standard, multiply(standard, strain)), difference);
  const deviation = subtract(length, constant(gaugeBlock.nominal));
  const { published, computed, coverage } = gaugeBlock;

  it('by first order', () => {
    const found = propagate(deviation, { coverage });
    expect(found.value).toBe(published.firstOrder.value);
    expect(Math.round(found.standardUncertainty)).toBe(published.firstOrder.u);
    // The supplement takes 16 degrees of freedom and u = 32, both rounded; one unit of the last digit for that.
    expect(Math.abs(found.interval[0] - published.firstOrder.ends[0])).toBeLessThan(1);
    expect(Math.abs(found.interval[1] - published.firstOrder.ends[1])).toBeLessThan(1);
  });
  it('by Monte Carlo', () => {
    const seen = overSeeds(deviation, coverage);
    expectNear(seen.mean, ...computed.mean);
    expectNear(seen.u, ...computed.u);
    expectNear(seen.low, ...computed.low);
    expectNear(seen.high, ...computed.high);
    expectWithinScatter(seen.shortestLow, ...computed.shortestLow);
    expectWithinScatter(seen.shortestHigh, ...computed.shortestHigh);
    expectPrinted(seen.mean, published.monteCarlo.mean, 1);
    expectPrinted(seen.u, published.monteCarlo.u, 1);
    expectPrinted(seen.shortestLow, published.monteCarlo.shortest[0], 1);
    expectPrinted(seen.shortestHigh, published.monteCarlo.shortest[1], 1);
  });
});

describe('JCGM 101 7.9, the adaptive scheme', () => {
  const sum = add(...['X1', 'X2', 'X3', 'X4'].map((id) => error(id, { standardUncertainty: 1 })));
  it('stops when the digits asked for are stable', () => {
    const one = simulate(sum, { seed: 5, digits: 1 });
    const two = simulate(sum, { seed: 5, digits: 2 });
    expect([one.converged, two.converged]).toEqual([true, true]);
    expect(one.trials).toBe(100_000);
    // Twice the standard error of the ends below δ = 0.05 for two digits of u = 2.0; s of an end with 10^4 trials is
    // 2·√(0.025·0.975)/(0.0584·100) = 0.0534, so (2·0.0534/0.05)² = 4.6 groups are enough: ten are the least.
    expect(two.trials).toBe(100_000);
    // Three digits: δ = 0.005, about 460 groups; the rule sees s with the scatter of its groups, one fifth at most.
    const three = simulate(sum, { seed: 5, digits: 3 });
    expect(three.converged).toBe(true);
    expect(three.trials / 10_000).toBeGreaterThan(460 * 0.64);
    expect(three.trials / 10_000).toBeLessThan(460 * 1.44);
    expect(Math.abs(three.symmetric[1] - additive.gaussian.exactHalf)).toBeLessThan(2 * 0.005);
  });
  it('says so when the trials are not enough', () => {
    const found = simulate(sum, { seed: 5, digits: 4, mostTrials: 200_000 });
    expect(found.converged).toBe(false);
    expect(found.trials).toBe(200_000);
  });
});
