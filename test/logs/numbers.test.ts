import { describe, expect, it } from 'vitest';
import { exportUnit } from '../../src/logs/exportUnits.js';
import { numberCell } from '../../src/logs/numberCell.js';
import { errorOf, logOf } from './exportOf.js';

describe('numbers in cells', () => {
  it.each<[string, '.' | ',', number | null | undefined]>([
    ['12', '.', 12],
    [' 12.50 ', '.', 12.5],
    ['-0.5', '.', -0.5],
    ['\u22120,5', ',', -0.5],
    ['+7', '.', 7],
    ['.5', '.', 0.5],
    ['5.', '.', 5],
    ['1,234.5', '.', 1234.5],
    ['1.234,5', ',', 1234.5],
    ['1 234 567,5', ',', 1234567.5],
    ['1\u202f234,5', ',', 1234.5],
    ["1'234.5", '.', 1234.5],
    ['9.0E+02', '.', 900],
    ['12.3 W', '.', 12.3],
    ['12,3kW', ',', 12.3],
    ['', '.', null],
    ['-', '.', null],
    ['---', ',', null],
    ['NaN', '.', null],
    ['OL', '.', null],
    ['1,5', '.', undefined],
    ['1.5', ',', undefined],
    ['1,23,456', '.', undefined],
    ['1,234.567,8', '.', undefined],
    ['0x10', '.', undefined],
    ['12 apples', '.', undefined],
    ['1e999', '.', undefined],
    ['.', '.', null],
    ['12.3.4', '.', undefined],
    // No number in groups of three begins with a zero.
    ['0.123', ',', undefined],
    ['0,123', '.', undefined],
    ['0,123', ',', 0.123],
    ['0.123', '.', 0.123],
    ['012.345', ',', undefined],
    ['1.234', ',', 1234],
    ['1.234', '.', 1.234],
    ['1’234', '.', 1234],
    ['1\u2009234', '.', 1234],
    ['>>>', '.', null],
    ['-OL', '.', null],
    ['Überlast', '.', null],
    ['UEBERLAST', '.', null],
    ['hors gamme', ',', null],
    ['Débordement', ',', null],
    ['fuera de rango', ',', null],
    ['fora da escala', ',', null],
    ['fuori scala', ',', null],
    ['buiten bereik', ',', null],
    ['przeciążenie', ',', null],
    ['přetížení', ',', null],
    ['överbelastning', ',', null],
    ['uden for område', ',', null],
    ['utenfor område', ',', null],
    ['#N/A', '.', null],
  ])('%j with decimal %s', (cell, decimal, expected) => {
    const got = numberCell(cell, decimal);
    if (expected === null || expected === undefined) expect(got).toBe(expected);
    else expect(got?.value).toBe(expected);
  });
});

describe('1.234 and 1,234', () => {
  const watts = (text: string) => [...logOf(text).powerW!];
  it('are settled by any other cell that is a number with one sign only', () => {
    expect(watts('t [s];P [W]\n0;1,234\n1;1,2\n')).toEqual([1.234, 1.2]);
    expect(watts('t [s];P [W]\n0;1,234\n1;0,234\n')).toEqual([1.234, 0.234]);
    expect(watts('t [s];P [W]\n0;1,234\n1;1,234.5\n')).toEqual([1234, 1234.5]);
    expect(watts('t [s];P [W]\n0;1.234\n1;1.234,5\n')).toEqual([1234, 1234.5]);
    expect(watts('t [s];P [W];T (°C)\n0;1.234;20.5\n1;1.234;20.6\n')).toEqual([1.234, 1.234]);
  });
  it('stay open in quotes between commas, and where no other cell says more', () => {
    for (const text of [
      't [s],P [W]\n0,"1,234"\n1,"1,235"\n',
      't [s];P [W]\n0;1.234\n1;1.235\n',
      't [s];P [W];T (°C)\n0;1.234;20\n1;1.235;21\n',
    ]) {
      const error = errorOf(() => logOf(text));
      expect(error.code).toBe('log-two-readings');
      expect(error.toText()).toMatch(/1\.234.*1234[\s\S]*--decimal|1234.*1\.234[\s\S]*--decimal/);
    }
  });
  it('are decimals in a file parted by commas that has points only', () => {
    expect(watts('t [s],P [W]\n0,1.234\n1,1.235\n')).toEqual([1.234, 1.235]);
  });
});

describe('the step that a column can show', () => {
  const step = (...values: (number | string)[]) =>
    logOf(`t [s],P [W]\n${values.map((value, index) => `${index},${value}`).join('\n')}\n`).resolution.powerW;
  it('is the decimals shown', () => expect(step('900.0', '901.0', '902.5')).toBeCloseTo(0.1, 12));
  it('is a coarser one where ten values agree on it', () => {
    expect(step(...Array.from({ length: 12 }, (_, i) => (800 + 0.5 * i).toFixed(1)))).toBeCloseTo(0.5, 12);
  });
  it('is not the jump between two levels', () => expect(step(0, 900, 0, 900)).toBe(1));
  it('is null where no number was seen', () =>
    expect(logOf('t [s],P [W],E [Wh]\n0,900,-\n1,901,-\n').resolution.energyJ).toBeNull());
  it('is in the units of the log', () => {
    const log = logOf('t [s],P [kW],T (°F),E [kWh]\n0,0.90,50.0,0.001\n1,0.91,50.1,0.002\n');
    expect(log.resolution.powerW).toBeCloseTo(10, 12);
    expect(log.resolution.temperatureK).toBeCloseTo(0.5 / 9, 12);
    expect(log.resolution.energyJ).toBeCloseTo(3600, 9);
  });
});

describe('units in exports', () => {
  // Exact by definition: SI brochure (9th edition) for the prefixes and the hour; °F by NIST SP 811, B.8.
  it.each([
    ['kWh', 3.6e6, 0],
    ['Wh', 3600, 0],
    ['mWh', 3.6, 0],
    ['MJ', 1e6, 0],
    ['mV', 1e-3, 0],
    ['degC', 1, 273.15],
    ['ºC', 1, 273.15],
    ['Â°C', 1, 273.15],
    ['kilowatts', 1e3, 0],
  ])('%s', (symbol, factor, offset) => expect(exportUnit(symbol)).toMatchObject({ factor, offset }));
  it('keep milli and mega apart', () => {
    expect(exportUnit('mW')?.factor).toBe(1e-3);
    expect(exportUnit('MW')?.factor).toBe(1e6);
    expect(exportUnit('mw')).toBeUndefined();
  });
  it('set freezing and boiling of water where they are', () => {
    const unit = exportUnit('°F')!;
    expect(32 * unit.factor + unit.offset).toBeCloseTo(273.15, 10);
    expect(212 * unit.factor + unit.offset).toBeCloseTo(373.15, 10);
  });
});

describe('headers', () => {
  it.each([
    ['P [W]', 'power'],
    ['Power (kW)', 'power'],
    ['Leistung in W', 'power'],
    ['Puissance (W)', 'power'],
    ['Potencia activa [W]', 'power'],
    ['active_power_W', 'power'],
    ['Watts', 'power'],
    ['Stromverbrauch (kWh)', 'energy'],
    ['Énergie [Wh]', 'energy'],
    ['Zählerstand kWh', 'energy'],
    ['Spannung [V]', 'voltage'],
    ['Supply power voltage (V)', 'voltage'],
    ['Strom in A', 'current'],
    ['mA', 'current'],
    ['Temp °C', 'temperature'],
    ['T1/°F', 'temperature'],
    ['T [°C]', 'temperature'],
    ['Température (°C)', 'temperature'],
    ['Leistungsfaktor', 'powerFactor'],
    ['cos φ', 'powerFactor'],
    ['Potência ativa (kW)', 'power'],
    ['Moc czynna [W]', 'power'],
    ['Činný výkon (W)', 'power'],
    ['Aktiv effekt (W)', 'power'],
    ['Consumo de energía (kWh)', 'energy'],
    ['Licznik [kWh]', 'energy'],
    ['Zużycie energii (Wh)', 'energy'],
    ['Spotřeba (kWh)', 'energy'],
    ['Mätarställning (kWh)', 'energy'],
    ['Målerstand (kWh)', 'energy'],
    ['Verbruik (kWh)', 'energy'],
    ['Tensão [V]', 'voltage'],
    ['Napięcie [V]', 'voltage'],
    ['Napětí (V)', 'voltage'],
    ['Spänning (V)', 'voltage'],
    ['Spænding (V)', 'voltage'],
    ['Natężenie prądu [A]', 'current'],
    ['Proud (A)', 'current'],
    ['Strøm (A)', 'current'],
    ['Teplota (°C)', 'temperature'],
    ['Føler 2 (°C)', 'temperature'],
    ['Czujnik 1 [°C]', 'temperature'],
    ['Effektfaktor', 'powerFactor'],
    ['Współczynnik mocy', 'powerFactor'],
    ['Moc bierna [W]', 'ignored'],
    ['Zdánlivý výkon (W)', 'ignored'],
    ['Wilgotność (%)', 'ignored'],
    ['Kmitočet', 'ignored'],
    ['ΔT (°C)', 'ignored'],
    ['Interval energy (Wh)', 'ignored'],
    ['Scheinleistung (VA)', 'ignored'],
    ['Pmax / Peak power (W)', 'ignored'],
    ['Phase A', 'ignored'],
    ['T min', 'ignored'],
    ['Colour', 'ignored'],
  ])('%s is %s', (header, role) => {
    const log = logOf(`t [s];${header};Other power (kW);Other energy (J)\n0;1;1;1\n1;1;2;2\n`, {
      columns:
        role === 'power'
          ? { energy: '4', ignored: '3' }
          : role === 'energy'
            ? { power: '3', ignored: '4' }
            : {},
    });
    expect(log.mapping.columns[1]!.role).toBe(role);
  });
});
