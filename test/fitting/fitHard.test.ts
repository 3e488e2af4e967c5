import { describe, expect, it } from 'vitest';
import { fit as fitModel, linearFit } from '../../src/fitting/index.js';
import { normals } from './seeded.js';

const x = Array.from({ length: 25 }, (_, i) => i / 2);
const normal = normals(7);
const noise = x.map(() => 0.05 * normal());
/** amplitude·exp(−rate·x) */
const decay = {
  model: (t: number, [amplitude, rate]: readonly number[]) => amplitude! * Math.exp(-rate! * t),
  jacobian: (t: number, [amplitude, rate]: readonly number[]) => {
    const e = Math.exp(-rate! * t);
    return [e, -amplitude! * t * e];
  },
  names: ['amplitude', 'rate'],
  x,
  y: x.map((t, i) => 5 * Math.exp(-0.4 * t) + noise[i]!),
};
const free = fitModel({ ...decay, start: [1, 1] });

describe('bounds', () => {
  it('that are not touched change nothing', () => {
    const found = fitModel({ ...decay, start: [1, 1], lower: [0, 0], upper: [100, Infinity] });
    expect(found.atBounds).toEqual([]);
    found.parameters.forEach((b, j) => {
      expect(Math.abs(b / free.parameters[j]! - 1)).toBeLessThan(1e-9);
    });
    expect(found.standardErrors).not.toBeNull();
  });
  it.each([
    ['above', { lower: [-Infinity, 0.6] }, 0.6],
    ['below', { upper: [Infinity, 0.3] }, 0.3],
  ] as const)('hold a parameter whose best value lies %s them, and name it', (_name, bounds, at) => {
    for (const derivatives of [decay, { ...decay, jacobian: undefined }]) {
      const { jacobian, ...rest } = derivatives;
      const found = fitModel({
        ...rest,
        ...(jacobian ? { jacobian } : {}),
        start: [1, at === 0.6 ? 1 : 0.1],
        ...bounds,
      });
      expect(found).toMatchObject({
        converged: true,
        atBounds: ['rate'],
        standardErrors: null,
        covariance: null,
      });
      expect(found.covarianceReason).toMatch('rate lies on a bound');
      expect(found.parameters[1]).toBe(at);
      // With the rate held the amplitude is Σ y·e/Σ e², e = exp(−rate·x).
      const e = x.map((t) => Math.exp(-at * t));
      const best = sum(e.map((value, i) => value * decay.y[i]!)) / sum(e.map((value) => value * value));
      expect(Math.abs(found.parameters[0]! / best - 1)).toBeLessThan(1e-9);
    }
  });
  it('on all sides leave the corner', () => {
    const found = fitModel({ ...decay, start: [1, 1], lower: [0, 0.8], upper: [2, 3] });
    expect(found.parameters).toEqual([2, 0.8]);
    expect(found.atBounds).toEqual(['amplitude', 'rate']);
    expect(found.converged).toBe(true);
    expect(found.covarianceReason).toMatch('amplitude, rate lie on a bound');
  });
  it('can be where the fit begins, and be left again', () => {
    const found = fitModel({ ...decay, start: [1, 0], lower: [0, 0], upper: [50, 2] });
    expect(found.atBounds).toEqual([]);
    expect(found.parameters[1]).toBeCloseTo(free.parameters[1]!, 9);
  });
  it('are never crossed, not for a derivative either', () => {
    const seen: number[] = [];
    fitModel({
      x,
      y: decay.y,
      model: (t, [amplitude, rate]) => {
        seen.push(rate!);
        return amplitude! * Math.exp(-rate! * t);
      },
      start: [1, 0.001],
      lower: [0, 0],
      upper: [100, 0.45],
    });
    expect(seen.length).toBeGreaterThan(100);
    expect(seen.every((rate) => rate >= 0 && rate <= 0.45)).toBe(true);
  });
  it('keep a model where it has a value', () => {
    const root = x.map((t) => Math.sqrt(3 + t));
    const found = fitModel({
      x,
      y: root,
      model: (t, [shift]) => Math.sqrt(shift! + t),
      start: [0],
      lower: [0],
    });
    expect(found.parameters[0]).toBeCloseTo(3, 10);
  });
});

describe('what cannot be found is said, not thrown', () => {
  it('two parameters that do the same: one is named, nothing is made up', () => {
    const found = fitModel({
      x,
      y: decay.y,
      names: ['a', 'b', 'rate'],
      model: (t, [a, b, rate]) => (a! + b!) * Math.exp(-rate! * t),
      start: [1, 1, 1],
    });
    expect(found).toMatchObject({
      converged: false,
      stopCode: 'undetermined',
      standardErrors: null,
      covariance: null,
    });
    expect(['a', 'b']).toContain(found.stuckParameter);
    expect(found.stopReason).toMatch(`${found.stuckParameter} cannot be told from the other parameters`);
    expect(found.residualSumOfSquares).toBeCloseTo(free.residualSumOfSquares, 9);
    expect(found.restarts).toBeGreaterThan(0);
  });
  it('a parameter that the model does not use', () => {
    const found = fitModel({
      x,
      y: decay.y,
      names: ['amplitude', 'rate', 'idle'],
      model: decay.model,
      start: [1, 1, 1],
    });
    expect(found).toMatchObject({ converged: false, stuckParameter: 'idle', standardErrors: null });
    expect(found.covarianceReason).toMatch('does not depend on idle');
  });
  it('data that are the same everywhere', () => {
    const found = fitModel({ ...decay, y: x.map(() => 3), start: [1, 1] });
    expect(found.parameters[0]).toBeCloseTo(3, 9);
    expect(found.parameters[1]).toBeCloseTo(0, 9);
    expect(found.converged).toBe(true);
  });
  it('data that are zero everywhere leave the rate undetermined', () => {
    const found = fitModel({ ...decay, y: x.map(() => 0), start: [1, 1] });
    expect(found).toMatchObject({ converged: false, stuckParameter: 'rate', standardErrors: null });
  });
  it('too few iterations', () => {
    const found = fitModel({ ...decay, start: [1e-3, 30], iterations: 1, restart: false });
    expect(found).toMatchObject({
      converged: false,
      stopCode: 'iterations',
      standardErrors: null,
      restarts: 0,
    });
    expect(found.covarianceReason).toMatch('did not converge');
  });
  it('a model that has no value beside the start', () => {
    const found = fitModel({
      x,
      y: decay.y,
      model: (_t, [b]) => (b === 1 ? 1 : Number.NaN),
      start: [1],
      restart: false,
    });
    expect(found).toMatchObject({ converged: false, stopCode: 'model-undefined', standardErrors: null });
  });
  it('columns that are combinations of others', () => {
    const columns = [x.map(() => 1), x, x.map((t) => 2 - 3 * t)];
    const found = linearFit({ columns, y: decay.y, names: ['one', 'x', 'both'] });
    expect(found).toMatchObject({ converged: false, stopCode: 'undetermined', standardErrors: null });
    expect(['one', 'x', 'both']).toContain(found.stuckParameter);
  });
});

describe('restarts', () => {
  it('find a decay whose start is a thousand times off', () => {
    for (const rate of [400, 1e-4])
      for (const amplitude of [1e-3, 5e3]) {
        const found = fitModel({ ...decay, start: [amplitude, rate] });
        expect(found.converged, `from ${amplitude}, ${rate}`).toBe(true);
        expect(found.parameters[1]).toBeCloseTo(free.parameters[1]!, 8);
      }
  });
  it('are counted, and none where the first descent is good', () => {
    expect(free.restarts).toBe(0);
    // exp(−800·x) is zero beyond the first point in double precision.
    const lost = { ...decay, start: [1, 800] };
    expect(fitModel(lost).restarts).toBeGreaterThan(0);
    expect(fitModel({ ...lost, restart: false })).toMatchObject({ restarts: 0, converged: false });
  });
});

function sum(values: readonly number[]): number {
  return values.reduce((a, b) => a + b, 0);
}
