import { describe, expect, it } from 'vitest';
import {
  airDensity,
  buoyancyFactor,
  pressureAtAltitudePa,
  saturationTemperatureK,
} from '../../src/water/index.js';
import { boilingByAltitude } from '../reference/water.js';

describe('pressure at altitude', () => {
  it.each(boilingByAltitude)('at $altitudeM m', ({ altitudeM, pressurePa, boilingC, tableHPa }) => {
    // two decimals of a pascal and four of a degree are printed
    expect(Math.abs(pressureAtAltitudePa(altitudeM) - pressurePa)).toBeLessThan(0.0051);
    const boiling = saturationTemperatureK(pressureAtAltitudePa(altitudeM)) - 273.15;
    expect(Math.abs(boiling - boilingC)).toBeLessThan(5.1e-5);
    if (tableHPa !== undefined) {
      expect(Math.abs(pressureAtAltitudePa(altitudeM) / 100 - tableHPa)).toBeLessThan(0.0051);
    }
  });

  it.each([-2001, 11001, Number.NaN])('%d m is refused', (altitudeM) => {
    expect(() => pressureAtAltitudePa(altitudeM)).toThrow(/between -2000 and 11000 m/);
  });
});

/** Simplified air density of OIML R 111-1 (2004), eq. E.3-1, p in hPa, φ in %, t in °C; from memory. */
const oimlDensity = (hPa: number, percent: number, tC: number) =>
  (0.34848 * hPa - 0.009 * percent * Math.exp(0.061 * tC)) / (273.15 + tC);

describe('air', () => {
  it('agrees with the approximation of OIML R 111-1 within its and our accuracy', () => {
    for (const hPa of [900, 950, 1013.25, 1050, 1100]) {
      for (const percent of [0, 20, 50, 80]) {
        for (const tC of [10, 20, 30]) {
          const ours = airDensity(hPa * 100, tC + 273.15, percent / 100);
          // 2e-4 of the approximation in this range (OIML, from memory) and our 1e-3
          expect(Math.abs(ours / oimlDensity(hPa, percent, tC) - 1)).toBeLessThan(1.2e-3);
        }
      }
    }
  });

  it('is near 1.2 kg/m³, the conventional value of OIML D 28, at 20 °C', () => {
    expect(airDensity(101325, 293.15, 0.5)).toBeCloseTo(1.2, 2);
  });

  it('is lighter when moist', () => {
    expect(airDensity(101325, 303.15, 1)).toBeLessThan(airDensity(101325, 303.15, 0));
  });

  it.each([
    [() => airDensity(101325, 293.15, 45), /45 % is 0.45/],
    [() => airDensity(101325, 293.15, Number.NaN), /humidity/],
    [() => airDensity(1013.25, 293.15, 0.5), /from 300 to 1100 hPa, but the pressure is 10.1325 hPa/],
    [() => airDensity(101325, 20, 0.5), /from 0 to 60 °C/],
  ])('%s is refused', (call, sentence) => expect(call).toThrow(sentence));
});

describe('buoyancy', () => {
  it('adds about 0.105 % to a mass of water', () => {
    // by hand: 0.99985 / (1 − 1.2/998.2) = 0.99985 / 0.998797836 = 1.00105343
    expect(buoyancyFactor(1.2, 998.2)).toBeCloseTo(1.00105343, 8);
    expect(buoyancyFactor(0, 998.2)).toBe(1);
    expect(buoyancyFactor(1.2, 8000)).toBe(1);
  });

  it.each([
    [-1, 998],
    [998, 1.2],
    [1.2, 1],
    [Number.NaN, 998],
    [1.2, Number.POSITIVE_INFINITY],
  ])('densities %d and %d are refused', (air, water) => {
    expect(() => buoyancyFactor(air, water)).toThrow(/kg\/m³/);
  });
});
