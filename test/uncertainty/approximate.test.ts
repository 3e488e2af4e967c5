import { describe, expect, it } from 'vitest';
import {
  add,
  approximate,
  constant,
  errorOf,
  lift,
  propagate,
  type Quantity,
  scale,
  simulate,
  source,
} from '../../src/uncertainty/index.js';
import { chebyshevSeries } from '../../src/uncertainty/monteCarlo/chebyshevSeries.js';
import { compile } from '../../src/uncertainty/monteCarlo/compile.js';
import { polynomialAt } from '../../src/uncertainty/monteCarlo/kernels.js';
import {
  enthalpy,
  enthalpyDerivatives,
  saturationTemperatureK,
  vapourEnthalpy,
} from '../../src/water/index.js';

const normal = (id: string, standardUncertainty: number) =>
  errorOf(source({ id, name: id, standardUncertainty }));
const about = (value: number, of: Quantity) => add(constant(value), of);

/** The largest distance of the polynomial from its function over the range, at points it was not made or checked at. */
function missOf(quantity: Quantity): number {
  const series = chebyshevSeries(quantity)!;
  const { low, high } = quantity.smooth!;
  const others = quantity.inputs.slice(1).map((input) => input.value);
  let most = 0;
  for (let i = 0; i <= 1999; i++) {
    const z = (2 * i) / 1999 - 1;
    const exact = quantity.evaluate!([low + ((z + 1) / 2) * (high - low), ...others]);
    most = Math.max(most, Math.abs(polynomialAt(series.coefficients, z) - exact));
  }
  return most;
}

function water(temperature: Quantity, pressure: Quantity): Quantity {
  const { dT, dp } = enthalpyDerivatives(temperature.value, pressure.value);
  return lift('enthalpy', ([t, p]) => enthalpy(t!, p!), [dT, dp], temperature, pressure);
}

describe('a polynomial in place of the enthalpy of water', () => {
  const temperature = about(340, normal('t', 0.2));
  it.each([
    [60_000, 14],
    [101_325, 14],
    [60_000, 16],
    [101_325, 16],
    [108_000, 16],
  ])('at %d Pa and degree %d is within 1e-8 kJ/kg from 0 °C to above boiling', (pressurePa, degree) => {
    const high = saturationTemperatureK(pressurePa) + 2.9;
    const smooth = { low: 273.15, high, degree, tolerance: 1e-5 };
    expect(missOf(approximate(water(temperature, constant(pressurePa)), smooth))).toBeLessThan(1e-5);
  });
  it('serves the saturated vapour as well', () => {
    const exact = lift('vapour', ([t]) => vapourEnthalpy(t!), [1800], temperature);
    expect(
      missOf(approximate(exact, { low: 273.15, high: 393.15, degree: 16, tolerance: 1e-5 })),
    ).toBeLessThan(1e-5);
  });
  it('gives what the function gives, trial by trial, with pressure along its tangent', () => {
    const pressure = about(95_000, normal('p', 300));
    const exact = water(temperature, pressure);
    const quick = approximate(exact, { low: 273.15, high: 374, degree: 16, tolerance: 1e-5 });
    expect(compile([exact]).portable).toBe(false);
    expect(compile([quick]).portable).toBe(true);
    const difference = simulate(add(quick, scale(exact, -1)), { seed: 1, trials: 4000 });
    // By pressure and temperature together: 2.2e-6 J/(kg Pa K) is the change of the slope, times 4·300 Pa and 4·0.2 K.
    expect(Math.max(...difference.symmetric.map(Math.abs))).toBeLessThan(2.2e-6 * 1200 * 0.8);
    expect(propagate(quick).standardUncertainty).toBe(propagate(exact).standardUncertainty);
  });
});

describe('a polynomial in place of a function', () => {
  const x = about(0.5, normal('x', 0.3));
  const exponential = lift('exp', ([v]) => Math.exp(v!), [Math.exp(0.5)], x);
  it('goes on along the tangents beyond its ends', () => {
    const quick = approximate(exponential, { low: 0, high: 1, degree: 12, tolerance: 1e-10 });
    const tangent = (v: number) => (v < 0 ? 1 + v : v > 1 ? Math.E * v : Math.exp(v));
    const slow = lift('with tangents', ([v]) => tangent(v!), [Math.exp(0.5)], x);
    const found = simulate(add(quick, scale(slow, -1)), { seed: 2, trials: 20_000 });
    expect(Math.max(...found.shortest.map(Math.abs), Math.abs(found.mean!))).toBeLessThan(1e-9);
  });
  it('is not taken where it misses by more than allowed', () => {
    const rough = approximate(exponential, { low: 0, high: 1, degree: 2, tolerance: 1e-6 });
    expect(compile([rough]).portable).toBe(false);
    const exact = simulate(exponential, { seed: 3, trials: 2000 });
    expect(simulate(rough, { seed: 3, trials: 2000 })).toEqual(exact);
  });
  it('is not taken where the function has no value everywhere', () => {
    const root = lift('root', ([v]) => Math.sqrt(v! - 0.2), [0.9], x);
    expect(compile([approximate(root, { low: 0, high: 1, degree: 12, tolerance: 1 })]).portable).toBe(false);
  });
  it.each([
    { low: 1, high: 0, degree: 3, tolerance: 1 },
    { low: 0, high: Number.NaN, degree: 3, tolerance: 1 },
    { low: 0, high: 1, degree: 0, tolerance: 1 },
    { low: 0, high: 1, degree: 3, tolerance: 0 },
  ])('is refused for %j', (smooth) =>
    expect(() => approximate(exponential, smooth)).toThrow(
      expect.objectContaining({
        code: 'approximation-bad',
        message: expect.stringMatching(/exp needs a range/),
      }),
    ),
  );
  it('is refused for what is no function', () =>
    expect(() => approximate(x, { low: 0, high: 1, degree: 3, tolerance: 1 })).toThrow(
      expect.objectContaining({ code: 'approximation-bad' }),
    ));
});
