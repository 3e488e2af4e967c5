import { describe, expect, it } from 'vitest';
import { HeatledgerError } from '../../src/errors/index.js';
import { type QuantityKind, readingsOf, readQuantity } from '../../src/units/index.js';

const grams = { kind: 'mass', unit: 'g' } as const;
const celsius = { kind: 'temperature', unit: '°C' } as const;
const minutes = { kind: 'time', unit: 'min' } as const;

function read(text: string, kind: QuantityKind, unit: string) {
  const { value, unit: symbol } = readQuantity(text, { kind, unit });
  return `${Number(value.toPrecision(12))} ${symbol}`;
}

function errorOf(text: string, kind: QuantityKind, unit: string): HeatledgerError {
  try {
    readQuantity(text, { kind, unit });
  } catch (error) {
    if (error instanceof HeatledgerError) return error;
    throw error;
  }
  throw new Error(`"${text}" was read`);
}

describe('numbers', () => {
  it.each([
    ['1484', 1484],
    ['1.484', 1.484],
    ['1.484,5', 1484.5],
    ['1,484.5', 1484.5],
    ['1 484', 1484],
    ['1\u00a0484', 1484],
    ['1\u2009484,25', 1484.25],
    ['1\u202f484.25', 1484.25],
    ["1'484", 1484],
    ['1\u2019484.5', 1484.5],
    ['1 484,500', 1484.5],
    ['0,412', 0.412],
    ['12,5', 12.5],
    ['1484,250', 1484.25],
    ['1,234,567', 1234567],
    ['.5', 0.5],
    [',5', 0.5],
    ['5.', 5],
    ['+5', 5],
    ['-5', -5],
    ['\u22125', -5],
    ['1.5e3', 1500],
    ['2E-1', 0.2],
    ['007', 7],
    ['-0', 0],
    ['  42  ', 42],
  ])('"%s" is %d', (text, value) => {
    const readings = readingsOf(text, grams);
    expect(readings.map((r) => r.value)).toEqual([value]);
    expect(readings[0]).toMatchObject({ kind: 'mass', unit: 'g', typed: text.trim() });
    expect(readings[0]?.si).toBe(value / 1000);
  });

  it('reads a comma before three digits in two ways, and only then', () => {
    expect(readingsOf('1,484', grams).map((r) => r.si)).toEqual([1.484, 0.001484]);
    expect(readingsOf('999,999 kg', grams).map((r) => r.value)).toEqual([999999, 999.999]);
    expect(readingsOf('1,484 + 1,200', grams).map((r) => r.value)).toEqual([2684, 2.684]);
    // one term shows what the comma means in the other
    expect(readingsOf('1,484 + 12,5', grams).map((r) => r.value)).toEqual([13.984]);
    expect(readingsOf('1,484 + 12.5', grams).map((r) => r.value)).toEqual([1496.5]);
    // the first reading would be below absolute zero
    expect(readingsOf('-1,484', celsius).map((r) => r.value)).toEqual([-1.484]);
  });

  it('shows both readings where nobody can be asked', () => {
    const place = { file: 'answers.yaml', line: 12 };
    expect(() => readQuantity('1,484', grams, place)).toThrow('"1,484" may mean 1484 g or 1.484 g');
    try {
      readQuantity('1,484', grams, place);
    } catch (error) {
      expect(error).toMatchObject({ code: 'number-ambiguous', place });
    }
  });

  it.each([
    ['', 'quantity-empty'],
    [' \u00a0 ', 'quantity-empty'],
    ['NaN', 'number-missing'],
    ['Infinity', 'number-missing'],
    ['-', 'number-missing'],
    ['ten', 'number-missing'],
    ['1e999', 'number-out-of-range'],
    ['1e-999', 'number-out-of-range'],
    ['1e308 t', 'number-out-of-range'],
    ['5e-324 mg', 'number-out-of-range'],
    ['0x10', 'number-unreadable'],
    ['-0b1', 'number-unreadable'],
    ['1.2.3', 'number-unreadable'],
    ['1.484.500', 'number-unreadable'],
    ['1,2,3', 'number-unreadable'],
    ['1,00,000', 'number-unreadable'],
    ['5,', 'number-unreadable'],
    ['12.5 + 12,5', 'number-marks-mixed'],
    ['\uff15 g', 'number-foreign-digits'],
    ['\u0665', 'number-foreign-digits'],
    ['--5', 'quantity-unreadable'],
    ['5 +', 'quantity-unreadable'],
    ['5 6', 'quantity-unreadable'],
    ['1 484 20', 'quantity-unreadable'],
    ['g 5', 'quantity-unreadable'],
    ['9'.repeat(101), 'quantity-unreadable'],
    ['1/2 lb', 'unit-unknown'],
    ['20\u201325 g', 'unit-unknown'],
  ])('"%s" is refused: %s', (text, code) => expect(errorOf(text, 'mass', 'g').code).toBe(code));
});

describe('units', () => {
  it.each<[string, QuantityKind, string, string]>([
    ['5 KG', 'mass', 'g', '5 kg'],
    ['5kg', 'mass', 'g', '5 kg'],
    ['9.3 lbs.', 'mass', 'kg', '9.3 lb'],
    ['61 °F', 'temperature', '°C', '61 °F'],
    ['61f', 'temperature', '°C', '61 °F'],
    ['61 deg F', 'temperature', '°C', '61 °F'],
    ['20 c', 'temperature', '°F', '20 °C'],
    ['20 degC', 'temperature', '°F', '20 °C'],
    ['20 Celsius', 'temperature', '°F', '20 °C'],
    ['20 ℃', 'temperature', '°F', '20 °C'],
    ['20\u00a0°c', 'temperature', '°F', '20 °C'],
    ['-20', 'temperature', '°C', '-20 °C'],
    ['0,72 kwh', 'energy', 'J', '0.72 kWh'],
    ['1 kW·h', 'energy', 'J', '1 kWh'],
    ['12 BTU', 'energy', 'kWh', '12 Btu'],
    ['3 mW', 'power', 'W', '3 mW'],
    ['3 MW', 'power', 'W', '3 MW'],
    ['1013 hpa', 'pressure', 'Pa', '1013 hPa'],
    ['29,92 inhg', 'pressure', 'hPa', '29.92 inHg'],
    ['4.18 kJ/(kg·K)', 'specificHeat', 'J/(kg K)', '4.18 kJ/(kg K)'],
    ['4186 J kg⁻¹ K⁻¹', 'specificHeat', 'J/(kg K)', '4186 J/(kg K)'],
    ['1 m3', 'volume', 'L', '1 m³'],
    ['1 cm³', 'volume', 'L', '1 mL'],
    ['2 us gal', 'volume', 'L', '2 US gal'],
    ['5 μV', 'voltage', 'V', '5 µV'],
    ['5 \u00b5V', 'voltage', 'V', '5 µV'],
    ['47 \u2126', 'resistance', 'kΩ', '47 Ω'],
    ['47 ohms', 'resistance', 'kΩ', '47 Ω'],
    ['3000 mah', 'charge', 'Ah', '3000 mAh'],
    ['56%', 'ratio', '1', '56 %'],
    ['56', 'ratio', '%', '56 %'],
    ['0.3 C', 'temperatureDifference', 'K', '0.3 °C'],
  ])('"%s" as %s', (text, kind, unit, expected) => expect(read(text, kind, unit)).toBe(expected));

  it.each<[string, QuantityKind, string, RegExp]>([
    ['5 mw', 'power', 'W', /write mW or MW/],
    ['5 mj', 'energy', 'J', /write mJ or MJ/],
    ['5 MG', 'mass', 'g', /write mg/],
    ['5 MAh', 'charge', 'Ah', /write mAh/],
    ['5 gal', 'volume', 'L', /write US gal or imp gal/],
    ['5 ton', 'mass', 'kg', /write t or US ton or imp ton/],
    ['5 cal', 'energy', 'J', /write cal_IT or cal_th/],
    ['5 Cal', 'energy', 'J', /write kcal_IT or kcal_th/],
  ])('"%s" can be meant in more than one way', (text, kind, unit, sentence) => {
    const error = errorOf(text, kind, unit);
    expect(error.code).toBe('unit-ambiguous');
    expect(error.message).toMatch(sentence);
  });

  it('says what a unit of another kind measures', () => {
    expect(errorOf('5 kW', 'energy', 'kWh').message).toBe(
      '"kW" measures power; an energy is expected, such as kWh.',
    );
    expect(errorOf('5 °C', 'mass', 'kg').message).toContain('measures temperature; a mass is expected');
    expect(errorOf('5 m', 'time', 'min').message).toContain('measures length; a time is expected');
  });

  it('lists the known units and the nearest spelling', () => {
    const error = errorOf('5 khw', 'energy', 'kWh');
    expect(error.code).toBe('unit-unknown');
    expect(error.message).toMatch(/"khw".*known are J, mJ, kJ/);
    expect(error.hint).toBe('Perhaps "kWh" was meant.');
    expect(errorOf('20 celcius', 'temperature', '°C').hint).toBe('Perhaps "°C" was meant.');
    expect(errorOf('5 furlongs', 'mass', 'kg').hint).toBeUndefined();
  });

  it('ends temperatures at absolute zero', () => {
    expect(readQuantity('-459.67 °F', celsius).si).toBe(0);
    expect(readQuantity('-273.15', celsius).si).toBe(0);
    for (const text of ['-273.16', '-460 °F', '-1 K']) {
      expect(errorOf(text, 'temperature', '°C').code).toBe('below-absolute-zero');
    }
    expect(readQuantity('-300', { kind: 'temperatureDifference', unit: 'K' }).si).toBe(-300);
  });
});

describe('sums and compounds', () => {
  it.each<[string, QuantityKind, string, number, string]>([
    ['2104+2098 g', 'mass', 'kg', 4.202, '4202 g'],
    ['2104 + 2098', 'mass', 'g', 4.202, '4202 g'],
    ['2104 g + 2098 g', 'mass', 'kg', 4.202, '4202 g'],
    ['2104 g + 2098', 'mass', 'g', 4.202, '4202 g'],
    ['2104.1+2098.2', 'mass', 'g', 4.2023, '4202.3 g'],
    ['4202.3 - 2098.2 g', 'mass', 'kg', 2.1041, '2104.1 g'],
    ['4202\u22122104', 'mass', 'g', 2.098, '2098 g'],
    ['2.104 kg + 98 g', 'mass', 'g', 2.202, '2.202 kg'],
    ['4 lb 3 oz', 'mass', 'kg', (67 * 0.45359237) / 16, '4.1875 lb'],
    ['4lb3oz', 'mass', 'kg', (67 * 0.45359237) / 16, '4.1875 lb'],
    ['-4 lb 3 oz', 'mass', 'kg', (-67 * 0.45359237) / 16, '-4.1875 lb'],
    ['4 lb 3 oz + 1 lb', 'mass', 'kg', (83 * 0.45359237) / 16, '5.1875 lb'],
    ['5 ft 3 in', 'length', 'm', 1.6002, '5.25 ft'],
    ['1 h 20 min', 'time', 's', 4800, '1.33333333333 h'],
    ['1h20min30s', 'time', 's', 4830, '1.34166666667 h'],
    ['5 °C + 9 °F', 'temperatureDifference', 'K', 10, '10 °C'],
  ])('"%s" (%s, %s)', (text, kind, unit, si, shown) => {
    expect(readQuantity(text, { kind, unit }).si).toBeCloseTo(si, 13);
    expect(read(text, kind, unit)).toBe(shown);
  });

  it.each<[string, QuantityKind, string, string]>([
    ['4 lb 3', 'mass', 'kg', 'unit-missing'],
    ['4.21 kg + 200', 'mass', 'g', 'unit-missing'],
    ['3 oz 4 lb', 'mass', 'kg', 'unit-order'],
    ['20 °C + 3 °C', 'temperature', '°C', 'temperature-sum'],
    ['20+3', 'temperature', '°C', 'temperature-sum'],
    ['2104 g + 3 s', 'mass', 'g', 'unit-of-other-kind'],
  ])('"%s" is refused', (text, kind, unit, code) => expect(errorOf(text, kind, unit).code).toBe(code));
});

describe('clock times', () => {
  it('reads hours, minutes and seconds', () => {
    expect(readQuantity('1:20:30', minutes)).toMatchObject({ si: 4830, value: 80.5, unit: 'min' });
    expect(readQuantity('0:00:01,5', minutes).si).toBe(1.5);
  });

  it('asks whether two parts are minutes and seconds or hours and minutes', () => {
    expect(readingsOf('12:31', minutes).map((r) => r.si)).toEqual([751, 45060]);
    expect(readingsOf('12:31', { kind: 'time', unit: 'h' }).map((r) => r.si)).toEqual([45060, 751]);
    expect(readingsOf('0:00', minutes).map((r) => r.si)).toEqual([0]);
  });

  it.each(['1:75', '1:2', '1:20:60', '12:31+1', '1:20:30:40', '1:20 h'])('"%s" is refused', (text) => {
    expect(errorOf(text, 'time', 'min').code).toBe('clock-unreadable');
  });

  it('knows a clock only where a time is asked for', () => {
    expect(errorOf('1:20', 'mass', 'kg').code).toBe('unit-unknown');
  });
});
