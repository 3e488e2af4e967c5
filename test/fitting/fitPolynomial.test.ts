import { describe, expect, it } from 'vitest';
import { fitPolynomial } from '../../src/fitting/index.js';
import { strdLinear, thermometerH3 } from '../reference/strd-linear.js';

/** Relative to the wanted value; an exact zero is judged against `scale`. */
function expectDigits(got: number, wanted: number, digits: number, scale: number): void {
  const allowed = 10 ** -digits * (wanted === 0 ? scale : Math.abs(wanted));
  expect(Math.abs(got - wanted), `got ${got}, wanted ${wanted}`).toBeLessThanOrEqual(allowed);
}

describe('NIST linear regression sets', () => {
  it.each(Object.entries(strdLinear))(
    '%s: certified values and certified standard deviations',
    (_name, set) => {
      const degree = set.parameters.length - 1;
      const fit = fitPolynomial({ x: set.x, y: set.y, degree });
      const largest = Math.max(...set.y.map(Math.abs));
      // Powers of x up to 20⁵ add up to y: nine digits of a constant of 1 are what doubles leave.
      set.parameters.forEach((b, j) => {
        expectDigits(fit.parameters[j]!, b, 9, 1);
      });
      // Where NIST certifies an exact fit the residuals are rounding: 1e-14 of the largest y.
      expectDigits(fit.residualStandardDeviation!, set.residualStandardDeviation, 9, 1e-5 * largest);
      expectDigits(fit.residualSumOfSquares, set.residualSumOfSquares, 9, 1e-9 * largest);
      if (set.residualStandardDeviation > 0)
        set.standardErrors.forEach((u, j) => {
          expectDigits(fit.standardErrors![j]!, u, 9, 1);
        });
      expect(fit).toMatchObject({
        degreesOfFreedom: set.degreesOfFreedom,
        converged: true,
        covarianceReason: null,
        evaluations: 1,
      });
    },
  );
});

describe('the thermometer of JCGM 100:2008, H.3', () => {
  const x = thermometerH3.temperaturesC.map((t) => t - 20);
  const fit = fitPolynomial({ x, y: thermometerH3.corrections, degree: 1 });
  const covariance = fit.covariance!;
  it('has the printed intercept, slope and their uncertainties', () => {
    expect(fit.parameters[0]).toBeCloseTo(thermometerH3.intercept, 4);
    expect(fit.parameters[1]).toBeCloseTo(thermometerH3.slope, 5);
    expect(fit.standardErrors![0]).toBeCloseTo(thermometerH3.interceptU, 4);
    expect(fit.standardErrors![1]).toBeCloseTo(thermometerH3.slopeU, 5);
    expect(fit.residualStandardDeviation).toBeCloseTo(thermometerH3.residualStandardDeviation, 4);
    expect(fit.degreesOfFreedom).toBe(thermometerH3.degreesOfFreedom);
  });
  it('has the printed correlation, and the correction at 30 °C that needs it', () => {
    const r = covariance[0]![1]! / (fit.standardErrors![0]! * fit.standardErrors![1]!);
    expect(r).toBeCloseTo(thermometerH3.correlation, 2);
    expect(fit.parameters[0]! + 10 * fit.parameters[1]!).toBeCloseTo(thermometerH3.at30, 4);
    const variance = covariance[0]![0]! + 20 * covariance[0]![1]! + 100 * covariance[1]![1]!;
    expect(Math.sqrt(variance)).toBeCloseTo(thermometerH3.at30U, 4);
  });
});

describe('weights', () => {
  const x = [0, 1, 2, 3, 4];
  const y = [1, 3.2, 4.9, 7.3, 8.8];
  it('of whole numbers count a point that often', () => {
    const weighted = fitPolynomial({ x, y, weights: [1, 2, 1, 3, 1], degree: 1 });
    const repeated = fitPolynomial({
      x: [0, 1, 1, 2, 3, 3, 3, 4],
      y: [1, 3.2, 3.2, 4.9, 7.3, 7.3, 7.3, 8.8],
      degree: 1,
    });
    weighted.parameters.forEach((b, j) => {
      expect(b).toBeCloseTo(repeated.parameters[j]!, 12);
    });
    expect(weighted.residualSumOfSquares).toBeCloseTo(repeated.residualSumOfSquares, 12);
  });
  it('are relative', () => {
    const one = fitPolynomial({ x, y, weights: [1, 2, 1, 3, 1], degree: 2 });
    const other = fitPolynomial({ x, y, weights: [1e6, 2e6, 1e6, 3e6, 1e6], degree: 2 });
    one.standardErrors!.forEach((u, j) => {
      expect(other.standardErrors![j]! / u).toBeCloseTo(1, 10);
    });
  });
});

describe('what cannot be known is null, with the reason', () => {
  it('no degrees of freedom', () => {
    const fit = fitPolynomial({ x: [0, 1, 2], y: [1, 2, 5], degree: 2 });
    expect(fit.parameters[2]).toBeCloseTo(1, 12);
    expect(fit).toMatchObject({ standardErrors: null, covariance: null, residualStandardDeviation: null });
    expect(fit.covarianceReason).toMatch('no degrees of freedom');
    expect(fit.converged).toBe(true);
  });
  it('points too close together to tell the powers apart', () => {
    const fit = fitPolynomial({ x: [0, 1 - 1e-15, 1 - 5e-16, 1, 0], y: [1, 2, 2, 2, 1], degree: 2 });
    expect(fit).toMatchObject({ converged: false, standardErrors: null, covariance: null });
    expect(fit.covarianceReason).toMatch('x^2 cannot be told from the lower powers');
    expect(fit.stopReason).toBe(fit.covarianceReason);
  });
});

describe('what is refused', () => {
  const x = [0, 1, 2];
  it('names what is wrong', () => {
    expect(() => fitPolynomial({ x, y: [1, 2], degree: 1 })).toThrow('3 and 2 entries');
    expect(() => fitPolynomial({ x, y: x, weights: [1], degree: 1 })).toThrow('x and weights');
    expect(() => fitPolynomial({ x, y: [1, Number.NaN, 2], degree: 1 })).toThrow('y, point 2');
    expect(() => fitPolynomial({ x, y: x, weights: [1, 0, 1], degree: 1 })).toThrow('The weight of point 2');
    expect(() => fitPolynomial({ x, y: x, degree: 1.5 })).toThrow('The degree must be a whole number');
    expect(() => fitPolynomial({ x, y: x, degree: 3 })).toThrow(
      'needs at least 4 points at different x, but there are 3',
    );
    expect(() => fitPolynomial({ x: [1, 1, 1], y: x, degree: 1 })).toThrow('but there are 1');
  });
});
