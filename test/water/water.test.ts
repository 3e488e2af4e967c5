import { describe, expect, it } from 'vitest';
import {
  density,
  enthalpy,
  enthalpyDerivatives,
  formulationUncertainty,
  heatCapacity,
  latentHeat,
  saturationPressurePa,
  saturationTemperatureK,
  steamEnthalpy,
  vapourEnthalpy,
} from '../../src/water/index.js';
import {
  boilingByPressure,
  iapws95Table8,
  saturation,
  table5,
  table15,
  table35,
  table36,
  tanakaDensity,
  waterAt101325Pa,
} from '../reference/water.js';

/** Relative difference. */
const off = (got: number, expected: number) => Math.abs(got / expected - 1);

/** The tables of the release print nine digits: half a unit of the last is at most 5e-9 of the value. */
const NINE_DIGITS = 5e-9;

describe('the verification tables of IAPWS R7-97(2012)', () => {
  it.each(table5)('table 5: liquid at $temperatureK K, $pressureMPa MPa', (row) => {
    const p = row.pressureMPa * 1e6;
    expect(off(1 / density(row.temperatureK, p), row.volume)).toBeLessThan(NINE_DIGITS);
    expect(off(enthalpy(row.temperatureK, p), row.enthalpyKJ * 1e3)).toBeLessThan(NINE_DIGITS);
    expect(off(heatCapacity(row.temperatureK, p), row.heatCapacityKJ * 1e3)).toBeLessThan(NINE_DIGITS);
  });

  it.each(table15)('table 15: steam at $temperatureK K, $pressureMPa MPa', (row) => {
    const h = steamEnthalpy(row.temperatureK, row.pressureMPa * 1e6);
    expect(off(h, row.enthalpyKJ * 1e3)).toBeLessThan(NINE_DIGITS);
  });

  it.each(table35)('table 35: saturation pressure at $temperatureK K', ({ temperatureK, pressureMPa }) => {
    expect(off(saturationPressurePa(temperatureK), pressureMPa * 1e6)).toBeLessThan(NINE_DIGITS);
  });

  it.each(table36)(
    'table 36: saturation temperature at $pressureMPa MPa',
    ({ temperatureK, pressureMPa }) => {
      expect(off(saturationTemperatureK(pressureMPa * 1e6), temperatureK)).toBeLessThan(NINE_DIGITS);
    },
  );
});

describe('liquid water at 101 325 Pa', () => {
  // Every column prints nine significant digits but for the smallest enthalpy, which is small beside that of 1 °C.
  it.each(waterAt101325Pa)('$tC °C', (row) => {
    const t = row.tC + 273.15;
    expect(off(density(t, 101325), row.densityIf97)).toBeLessThan(NINE_DIGITS);
    expect(Math.abs(enthalpy(t, 101325) / 1e3 - row.enthalpyIf97)).toBeLessThan(1e-6);
    expect(off(heatCapacity(t, 101325), row.heatCapacityIf97 * 1e3)).toBeLessThan(NINE_DIGITS);
  });

  it.each(tanakaDensity)('has at %d °C the density of the CIPM formula', (tC, published) => {
    // IF97 states 0.001 % for the density of the liquid (IAPWS R7-97(2012), section 5, from memory).
    expect(off(density(tC + 273.15, 101325), published)).toBeLessThan(1e-5);
  });

  it('has the stated difference to IAPWS-95', () => {
    const at95 = waterAt101325Pa.find((row) => row.tC === 95)!;
    const relative = off(enthalpy(368.15, 101325) / 1e3, at95.enthalpyIapws95);
    expect(relative).toBeCloseTo(0.000177, 6);
  });

  it('keeps the difference of enthalpy differences inside the stated half-width', () => {
    const relatives: number[] = [];
    for (const low of waterAt101325Pa.filter((row) => row.tC >= 5 && row.tC <= 30)) {
      for (const high of waterAt101325Pa.filter((row) => row.tC >= 45 && row.tC <= 95)) {
        const rise = enthalpy(high.tC + 273.15, 101325) - enthalpy(low.tC + 273.15, 101325);
        relatives.push(off(rise / 1e3, high.enthalpyIapws95 - low.enthalpyIapws95));
      }
    }
    expect(relatives).toHaveLength(6 * 11);
    const largest = Math.max(...relatives);
    expect(largest).toBeCloseTo(0.00036, 5);
    expect(largest).toBeLessThan(formulationUncertainty.relativeHalfWidth);
    // a half-width far too wide would be as wrong
    expect(largest).toBeGreaterThan(formulationUncertainty.relativeHalfWidth / 2);
    expect(formulationUncertainty.relativeStandard).toBeCloseTo(
      formulationUncertainty.relativeHalfWidth / 3 ** 0.5,
      15,
    );
  });
});

describe('saturation', () => {
  // Eight digits are printed: half a unit of the last is at most 5e-8 of the value.
  it.each(saturation)('$tC °C', (row) => {
    const t = row.tC + 273.15;
    expect(off(saturationPressurePa(t), row.pressureKPa * 1e3)).toBeLessThan(5e-8);
    expect(off(vapourEnthalpy(t), row.vapour * 1e3)).toBeLessThan(5e-8);
    expect(off(latentHeat(t), row.latent * 1e3)).toBeLessThan(5e-8);
    expect(off(enthalpy(t, saturationPressurePa(t)), row.liquid * 1e3)).toBeLessThan(5e-8);
    // the two formulations differ by 0.003 % at most in this column
    expect(off(latentHeat(t), row.latentIapws95 * 1e3)).toBeLessThan(4e-5);
  });

  it.each(iapws95Table8)('is near table 8 of IAPWS R6-95 at $temperatureK K', (row) => {
    // 0.2 kJ/kg, the tolerance of the skeleton tables for both enthalpies (IAPWS R7-97(2012), from memory)
    expect(Math.abs(vapourEnthalpy(row.temperatureK) / 1e3 - row.vapourKJ)).toBeLessThan(0.2);
    expect(Math.abs(enthalpy(row.temperatureK, row.pressureMPa * 1e6) / 1e3 - row.liquidKJ)).toBeLessThan(
      0.2,
    );
    expect(off(saturationPressurePa(row.temperatureK), row.pressureMPa * 1e6)).toBeLessThan(2e-4);
  });

  it.each(boilingByPressure)('under %d kPa water boils at %d °C', (kPa, tC) => {
    expect(Math.abs(saturationTemperatureK(kPa * 1e3) - 273.15 - tC)).toBeLessThan(6e-7);
  });

  it('inverts its own pressure', () => {
    for (let t = 273.16; t < 647; t += 7.3) {
      // The release calls the pair exactly consistent: both solve the same quadratic.
      expect(off(saturationTemperatureK(saturationPressurePa(t)), t)).toBeLessThan(1e-11);
    }
  });
});

describe('the derivatives', () => {
  it.each([
    [280, 101325],
    [330, 84000],
    [372, 101325],
    [450, 5e6],
  ])('at %d K and %d Pa are the slopes of the enthalpy', (t, p) => {
    const { dT, dp } = enthalpyDerivatives(t, p);
    // Central differences: the truncation and the rounding of h (1e-16 x 1e6 J/kg) are below 1e-6 of these slopes.
    expect(off(dT, (enthalpy(t + 0.01, p) - enthalpy(t - 0.01, p)) / 0.02)).toBeLessThan(1e-6);
    const step = p / 10;
    expect(off(dp, (enthalpy(t, p + step) - enthalpy(t, p - step)) / (2 * step))).toBeLessThan(1e-5);
    expect(heatCapacity(t, p)).toBe(dT);
  });

  it('obey the thermodynamic identity (∂h/∂p) = v − T (∂v/∂T)', () => {
    const [t, p] = [330, 101325];
    const v = (at: number) => 1 / density(at, p);
    const expected = v(t) - (t * (v(t + 0.05) - v(t - 0.05))) / 0.1;
    expect(off(enthalpyDerivatives(t, p).dp, expected)).toBeLessThan(1e-6);
  });
});

describe('ranges', () => {
  it.each([
    [() => enthalpy(272, 101325), /from 0 to 350 °C, but the temperature is -1.15 °C/],
    [() => enthalpy(Number.NaN, 101325), /temperature is NaN/],
    [() => enthalpy(293.15, 100), /from 6.11213 to 1000000 hPa, but the pressure is 1 hPa/],
    [() => enthalpy(293.15, Number.NaN), /pressure is NaN/],
    [() => density(378.15, 101325), /at 105 °C is not liquid under 1013.25 hPa: it boils at 99.97 °C/],
    [() => heatCapacity(363.15, 50000), /not liquid/],
    [() => saturationPressurePa(650), /373.95 °C/],
    [() => saturationTemperatureK(100), /hPa/],
    [() => saturationTemperatureK(23e6), /hPa/],
    [() => vapourEnthalpy(630), /350 °C/],
    [() => latentHeat(270), /0 to 350 °C/],
    [() => steamEnthalpy(300, 4000), /35.3659 hPa, but the pressure is 40 hPa/],
    [() => steamEnthalpy(700, 40e6), /hPa/],
    [() => steamEnthalpy(1100, 1e5), /800 °C/],
  ])('%s is refused', (call, sentence) => expect(call).toThrow(sentence));

  it('allows for a thermometer that reads a little above the boiling point', () => {
    expect(enthalpy(375.15, 101325)).toBeGreaterThan(enthalpy(373.15, 101325));
  });

  it('covers the ends of the range', () => {
    expect(enthalpy(273.15, 101325)).toBeLessThan(enthalpy(273.16, 101325));
    expect(saturationTemperatureK(saturationPressurePa(273.15))).toBeCloseTo(273.15, 8);
    expect(saturationPressurePa(647.096)).toBeCloseTo(22.064e6, -2);
  });
});
