import { describe, expect, it } from 'vitest';
import {
  displayUnit,
  formatDuration,
  formatQuantity,
  fromUnit,
  quantityKinds,
  toUnit,
  unitsOf,
} from '../../src/units/index.js';
import { conversions, fahrenheitCelsius } from '../reference/units.js';

describe('conversion', () => {
  // The sources print at least 13 digits; exact factors meet them to the last one and the rounding of a double.
  it.each(conversions)('1 $unit is $si in SI ($source)', ({ kind, unit, si }) => {
    expect(Math.abs(fromUnit(1, kind, unit) / si - 1)).toBeLessThan(1e-13);
    expect(Math.abs(toUnit(si, kind, unit) - 1)).toBeLessThan(1e-13);
  });

  it.each(fahrenheitCelsius)('%d °F is %d °C', (degF, degC) => {
    const kelvin = fromUnit(degF, 'temperature', '°F');
    expect(kelvin).toBeCloseTo(degC + 273.15, 10);
    expect(toUnit(kelvin, 'temperature', '°C')).toBeCloseTo(degC, 10);
    expect(toUnit(degC + 273.15, 'temperature', '°F')).toBeCloseTo(degF, 10);
  });

  it('keeps absolute and difference temperatures apart', () => {
    expect(fromUnit(9, 'temperatureDifference', '°F')).toBe(5);
    expect(fromUnit(9, 'temperatureDifference', '°C')).toBe(9);
    expect(fromUnit(9, 'temperature', '°C')).toBeCloseTo(282.15, 10);
    expect(fromUnit(-9, 'temperatureDifference', 'K')).toBe(-9);
    expect(() => fromUnit(-9, 'temperature', 'K')).toThrow(/below absolute zero/);
  });

  it('has the exact rational size where decimals allow it', () => {
    expect(fromUnit(4210, 'mass', 'g')).toBe(4.21);
    expect(fromUnit(0.412, 'energy', 'kWh')).toBe(1_483_200);
    expect(fromUnit(1, 'resistance', 'kΩ')).toBe(1000);
    expect(fromUnit(760, 'pressure', 'Torr')).toBe(101_325);
    expect(fromUnit(1, 'heatCapacity', 'Btu/°F')).toBeCloseTo((1055.05585262 * 9) / 5, 9);
    expect(fromUnit(1, 'conductance', 'Btu/(h °F)')).toBeCloseTo((0.29307107017222 * 9) / 5, 12);
  });

  it('refuses a value that is not finite and a unit of another kind', () => {
    expect(() => fromUnit(Number.NaN, 'mass', 'g')).toThrow(/finite/);
    expect(() => toUnit(1, 'mass', 'kW')).toThrow('"kW" measures power; a mass is expected, such as kg.');
    expect(toUnit(Number.NaN, 'mass', 'g')).toBeNaN();
  });
});

describe('the table', () => {
  it.each(quantityKinds)('%s begins with its SI unit and knows its display units', (kind) => {
    expect(fromUnit(1, kind, unitsOf(kind)[0]!)).toBe(1);
    expect(unitsOf(kind)).toContain(displayUnit(kind, 'si'));
    expect(unitsOf(kind)).toContain(displayUnit(kind, 'us'));
    expect(new Set(unitsOf(kind)).size).toBe(unitsOf(kind).length);
  });
});

describe('formatQuantity', () => {
  it('writes a point, a blank and the symbol', () => {
    expect(formatQuantity(4.21, 'mass', 'kg')).toBe('4.21 kg');
    expect(formatQuantity(1234.5678, 'power', 'W', 1)).toBe('1234.6 W');
    expect(formatQuantity(294.65, 'temperature', '°C')).toBe('21.5 °C');
    expect(formatQuantity(0.5, 'ratio', '1')).toBe('0.5');
    expect(formatQuantity(273.15 - 1e-4, 'temperature', '°C', 2)).toBe('0.00 °C');
    expect(formatQuantity(-0.001, 'mass', 'kg', 0)).toBe('0 kg');
    expect(() => formatQuantity(Number.NaN, 'mass', 'kg')).toThrow(/finite/);
  });
});

describe('formatDuration', () => {
  it.each([
    [0, '0:00'],
    [59.6, '1:00'],
    [751, '12:31'],
    [3599.7, '1:00:00'],
    [3751, '1:02:31'],
    [-90, '-1:30'],
    [-0.2, '0:00'],
  ])('%d s is %s', (seconds, text) => expect(formatDuration(seconds)).toBe(text));

  it('refuses what is not a length of time', () =>
    expect(() => formatDuration(Number.NaN)).toThrow(/finite/));
});
