import { describe, expect, it } from 'vitest';
import { fit as fitModel } from '../../src/fitting/index.js';
import { strdModels } from '../reference/strdModels.mjs';
import { strdNonlinear } from '../reference/strdNonlinear.js';
import {
  agreement,
  deviationDigits,
  type NonlinearSet,
  parameterDigits,
  readNonlinear,
} from '../support/strd.mjs';

/** All 27 sets where the environment says where they are, the 18 typed ones in any case. */
const folder = process.env.STRD_DIR;
const typed: Readonly<Record<string, NonlinearSet>> = strdNonlinear;
const sets: Readonly<Record<string, NonlinearSet>> = { ...typed, ...(folder ? readNonlinear(folder) : {}) };

describe('the nonlinear sets of NIST StRD', () => {
  it('are as many as they should be', () => {
    expect(Object.keys(typed)).toHaveLength(18);
    expect(Object.keys(sets)).toHaveLength(folder ? 27 : 18);
    expect(Object.keys(sets).filter((name) => !strdModels[name])).toEqual([]);
  });
  describe.each(Object.entries(sets))('%s', (name, set) => {
    it.each([
      [1, 'derivatives by hand'],
      [2, 'derivatives by hand'],
      [1, 'numerical derivatives'],
      [2, 'numerical derivatives'],
    ] as const)('from start %i with %s', (start, derivatives) => {
      const { model, jacobian } = strdModels[name]!;
      const found = fitModel({
        model,
        ...(derivatives === 'derivatives by hand' ? { jacobian } : {}),
        x: set.x,
        y: set.y,
        start: set.parameters.map((row) => row[start - 1]!),
      });
      const reached = agreement(found, set.parameters);
      expect(found, found.stopReason).toMatchObject({ converged: true, covarianceReason: null });
      expect(reached.parameters).toBeGreaterThanOrEqual(parameterDigits);
      expect(reached.deviations).toBeGreaterThanOrEqual(deviationDigits(name));
      expect(found.degreesOfFreedom).toBe(set.y.length - set.parameters.length);
      // The printed sum of Lanczos1, 1.4e-25, is that of residuals of three digits in doubles.
      const allowed = name === 'Lanczos1' ? 1e-2 : 1e-6;
      expect(Math.abs(found.residualSumOfSquares / set.residualSumOfSquares - 1)).toBeLessThan(allowed);
    });
  });
});

if (folder)
  describe('the typed sets', () => {
    it('are those of the folder', () => {
      const read = readNonlinear(folder);
      for (const [name, { x, y, parameters, residualSumOfSquares }] of Object.entries(typed))
        expect({ x, y, parameters, residualSumOfSquares }, name).toEqual(read[name]);
    });
  });
