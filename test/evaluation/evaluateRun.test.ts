import { describe, expect, it } from 'vitest';
import { evaluateRun, vapourTemperature } from '../../src/evaluation/index.js';
import { SourceBook } from '../../src/uncertainty/index.js';
import { enthalpy, pressureAtAltitudePa, vapourEnthalpy } from '../../src/water/index.js';
import type { Instrument, RunRecord } from '../../src/workbook/index.js';
import { waterAt101325Pa } from '../reference/water.js';
import {
  bare,
  evaluated,
  heater,
  instruments,
  kelvin,
  kWh,
  plain,
  settlingS,
  shipped,
  workbookOf,
} from './dairy.js';

const root3 = Math.sqrt(3);
const heatOf = (run: ReturnType<typeof evaluated>, name: string) =>
  run.balance.find((booking) => booking.name === name)!.heat;
/** Enthalpy of liquid water at 101 325 Pa from the table of IAPWS-IF97 in test/reference, J/kg. */
const tabled = (celsius: number) => waterAt101325Pa.find((row) => row.tC === celsius)!.enthalpyIf97 * 1000;

/**
 * The hand calculation of `plain`: 6.000 kg in the scale's air, 20 to 60 °C, 0.400 kWh, nothing left as steam.
 * Air of 20 °C, 1013.25 hPa, 50 %: 1.199 kg/m³ (OIML R 111-1, from memory); water of 20 °C: 998.21 kg/m³.
 */
const hand = (() => {
  const buoyancy = (1 - 1.199 / 8000) / (1 - 1.199 / 998.21);
  const waterKg = 6 * buoyancy;
  const riseJPerKg = tabled(60) - tabled(20);
  const inputJ = 0.4 * kWh;
  return { buoyancy, waterKg, riseJPerKg, inputJ, efficiency: (waterKg * riseJPerKg) / inputJ };
})();

describe('a run without steam', () => {
  const run = evaluated();
  const water = run.efficiency.water!;

  it('has the efficiency of the hand calculation', () => {
    // 1.00105, 6.0063 kg, 167.21 kJ/kg, 1440 kJ
    expect(hand.buoyancy).toBeCloseTo(1.001_05, 5);
    expect(hand.efficiency).toBeCloseTo(0.6974, 4);
    expect(water.value).toBeCloseTo(hand.efficiency, 6);
    expect(run.conditions.waterKg).toBeCloseTo(hand.waterKg, 5);
  });

  it('has the uncertainty of the hand calculation', () => {
    // Mass: limits of 2 g empty and full, four roundings to 1 g and repeats of ± 0.5 g; only m2 counts here.
    const massU = Math.hypot(2, 2, 0.5, 0.5, 0.5, 0.5) / root3 / 1000;
    // Temperatures: 0.2 K each and a step of 0.1 K each; c = 4180 J/(kg K) at both ends within 0.2 %.
    const temperatureU = Math.hypot(0.2, 0.2, 0.05, 0.05) / root3;
    // Energy: 1 %, and the triangle of two steps of 0.001 kWh.
    const energyU = Math.hypot((0.01 * hand.inputJ) / root3, 3600 / Math.sqrt(6));
    // A body of unknown heat capacity is taken as 1000 J/K, ± 2 K from the room; enthalpy formulation ± 0.04 %.
    const bodyU = (1000 * 2) / root3;
    const relative = Math.hypot(
      massU / 6,
      (4180 * temperatureU) / hand.riseJPerKg,
      Math.hypot(energyU, bodyU) / hand.inputJ,
      0.0004 / root3,
    );
    expect(Math.abs(water.standardUncertainty / (relative * hand.efficiency) - 1)).toBeLessThan(0.002);
  });

  it('books nothing as steam', () => {
    expect(heatOf(run, 'vapour').value).toBe(0);
    expect(run.efficiency['water+vapour']!.value).toBe(water.value);
    // Unknown is not zero: the weighings leave it open.
    expect(heatOf(run, 'vapour').standardUncertainty).toBeGreaterThan(0);
  });

  it('has no vessel where the material is not known, and says so in a null', () => {
    expect(run.balance.map((booking) => booking.name)).toEqual([
      'water',
      'vapour',
      'room and rest, not separated',
    ]);
    expect(run.efficiency['water+vessel']).toBeNull();
  });
});

describe('the heat balance', () => {
  const bench = { heater: { ...heater, vessel: { material: 'stainless steel' } } };
  it.each([
    ['rest start', evaluated({ finalKg: 7.86 }, { bench, protocol: shipped('water-heating') }), 0.4 * kWh],
    ['without a second weighing', evaluated({ finalKg: null }, { bench }), 0.4 * kWh],
    [
      'warm start',
      evaluated(
        { bodyC: 50 },
        {
          bench: { heater: { ...bench.heater, bodyHeatCapacity: { value: 1000, halfWidth: 100 } } },
          protocol: shipped('warm-start'),
        },
      ),
      0.4 * kWh + 30_000,
    ],
  ])('adds up to the input: %s', (_name, run, inputJ) => {
    const sum = run.balance.reduce((total, booking) => total + booking.heat.value, 0);
    // The rest is input less all others: exact but for the rounding of four additions.
    expect(Math.abs(sum - inputJ)).toBeLessThan(4 * Number.EPSILON * inputJ);
    const shares = run.balance.reduce((total, booking) => total + booking.share.value, 0);
    expect(Math.abs(shares - 1)).toBeLessThan(8 * Number.EPSILON);
    expect(run.balance.at(-1)!.name).toBe('room and rest, not separated');
  });

  it('books steam at the temperature at which it left, weighted by its pressure', () => {
    const run = evaluated({ finalKg: 7.821 });
    // 50 g lighter on the scale; T in a straight line from switch-on to the reading of T2.
    const course = { timesS: [0, plain.heatingS + settlingS], temperaturesK: [kelvin(20), kelvin(60)] };
    const leaving = vapourTemperature(course, kelvin(20));
    expect(leaving).toBeGreaterThan(kelvin(45));
    const steamKg = 0.05 * hand.buoyancy;
    const heatJ = steamKg * (vapourEnthalpy(leaving) - tabled(20));
    expect(run.conditions.vapourKg).toBeCloseTo(steamKg, 7);
    expect(heatOf(run, 'vapour').value / heatJ).toBeCloseTo(1, 5);
    // The water that stays is what counts as heated.
    expect(heatOf(run, 'water').value / ((hand.waterKg - steamKg) * hand.riseJPerKg)).toBeCloseTo(1, 5);
    // Both weighings are at the level of the full vessel, so its limit cancels in what left.
    const u = (0.001 * Math.hypot(0.5, 0.5, 0.5, 0.5) * (2.6e6 - tabled(20))) / root3;
    const weighing = heatOf(run, 'vapour').budget.filter((row) => row.source.instrument === 'scale-1');
    const found = Math.hypot(...weighing.map((row) => row.contribution));
    expect(Math.abs(found / u - 1)).toBeLessThan(0.02);
  });

  it('takes the interim temperatures where somebody read them', () => {
    const run = evaluated({ finalKg: 7.821 });
    const straight = heatOf(run, 'vapour').value;
    // A heater that is quick at first keeps the water hot for longer: its steam leaves hotter.
    const hot = [400, 800, 1200].map((seconds, i) => ({
      ...run.run.readings[0]!,
      step: 'interimTemperature',
      seq: 100 + i,
      at: new Date(Date.parse('2026-10-05T09:00:00Z') + seconds * 1000).toISOString(),
      si: kelvin([48, 56, 59][i]!),
    }));
    const { run: record } = run;
    const withInterim = evaluateWith({ ...record, readings: [...record.readings, ...hot] });
    expect(heatOf(withInterim, 'vapour').value).toBeGreaterThan(straight);
    const width = (of: typeof run) =>
      heatOf(of, 'vapour').budget.find((row) => row.source.id.endsWith('vapour-temperature'))!.source;
    expect(width(run).standardUncertainty).toBeCloseTo(8 / root3, 12);
    expect(width(withInterim).standardUncertainty).toBeCloseTo(2 / root3, 12);
    expect(width(run).assumed).toBe(true);
  });

  it('books the wetted share of the vessel, with its doubt', () => {
    const run = evaluated({}, { bench, protocol: shipped('water-heating') });
    const vessel = heatOf(run, 'vessel');
    // 1.871 kg · 500 J/(kg K) · 40 K; ± 20 J/(kg K), ± 15 % of it wetted.
    expect(vessel.value).toBeCloseTo(1.871 * 500 * 40, 6);
    const relative = Math.hypot(20 / 500, 0.15) / root3;
    expect(Math.abs(vessel.standardUncertainty / vessel.value / relative - 1)).toBeLessThan(0.01);
  });
  it('leaves a vessel of unknown material in the rest, with a warning', () => {
    const run = evaluated({}, { bench: { heater: { ...heater, vessel: { material: 'soapstone' } } } });
    expect(run.efficiency['water+vessel']).toBeNull();
    expect(run.warnings.join(' ')).toMatch(/"soapstone" is not in the table.*specificHeat/);
  });
});

function evaluateWith(run: RunRecord, protocol = bare) {
  return evaluateRun({
    book: new SourceBook(),
    workbook: workbookOf(),
    run,
    protocol,
    powerLog: null,
    temperatureLog: null,
  });
}

describe('steam that was not weighed', () => {
  // Half of what may have left, give or take the other half: 0.5 % with the lid on, 2 % without.
  it.each([
    ['on', 0.005],
    ['off', 0.02],
    [null, 0.02],
  ])('lid %s', (lid, most) => {
    const run = evaluated({ finalKg: null, lid });
    expect(run.conditions.weighedAfter).toBe(false);
    expect(run.conditions.vapourKg).toBeCloseTo((most / 2) * hand.waterKg, 6);
    expect(run.efficiency.water!.value).toBeCloseTo(hand.efficiency * (1 - most / 2), 6);
    const row = run.efficiency.water!.budget.find((each) => each.source.name.startsWith('steam'))!;
    expect(row.contribution / hand.efficiency).toBeCloseTo(most / 2 / root3, 6);
    expect(row.source).toMatchObject({ scope: 'setting', assumed: true });
  });
  it.each([
    ['on', 0.0025, 19.946],
    ['off', 0.01, 47.415],
  ])(
    'grows with the vapour pressure above 60 °C with the lid %s, above 80 °C without',
    (lid, half, fromKPa) => {
      // p_sat is 19.946, 47.415 and 70.182 kPa at 60, 80 and 90 °C: IAPWS-IF97 steam tables.
      const run = evaluated({ finalKg: null, lid, endC: 90, afterKWh: 13, heatingS: 2800 });
      expect(run.conditions.vapourKg / ((half * 70.182) / fromKPa) / hand.waterKg).toBeCloseTo(1, 3);
    },
  );
  it('is in doubt by nothing where it was weighed', () => {
    const names = evaluated().efficiency.water!.budget.map((row) => row.source.name);
    expect(names.join(' ')).not.toMatch(/not weighed/);
  });
});

describe('a warm start', () => {
  const warm: typeof heater = { ...heater, bodyHeatCapacity: { value: 1150, halfWidth: 150 } };
  const protocol = { ...shipped('warm-start'), allowances: [] };
  it('books the heat that the body brought beside the metered energy', () => {
    const run = evaluated({ bodyC: 45 }, { bench: { heater: warm }, protocol });
    // 1150 J/K · 25 K = 28.75 kJ on 1440 kJ
    expect(run.efficiency.water!.value).toBeCloseTo((hand.efficiency * 1440) / 1468.75, 6);
    const row = run.efficiency.water!.budget.find((each) => each.source.id.includes('body-heat-capacity'))!;
    expect(row.contribution).toBeCloseTo((run.efficiency.water!.value * 150 * 25) / 1.468_75e6 / root3, 7);
    expect(run.conditions.start).toBe('warm');
  });
  it('is refused where the heat capacity of the body is not known', () =>
    expect(() => evaluated({ bodyC: 45 }, { protocol })).toThrow(
      expect.objectContaining({ code: 'body-capacity-missing' }),
    ));
  it('is refused without a reading of the body', () =>
    expect(() => evaluated({}, { bench: { heater: warm }, protocol })).toThrow(
      expect.objectContaining({ code: 'reading-missing' }),
    ));
  it('from a rest start leaves the body within the allowed difference', () => {
    const run = evaluated({}, { bench: { heater: warm } });
    expect(run.efficiency.water!.value).toBeCloseTo(hand.efficiency, 6);
    // ± 2 K of 1150 J/K on 1440 kJ
    const row = run.efficiency.water!.budget.find((each) => each.source.id.endsWith('body-at-rest'))!;
    expect(row.contribution / hand.efficiency).toBeCloseTo((2 * 1150) / 1.44e6 / root3, 8);
  });
});

describe('the pressure', () => {
  const barometer: Instrument = {
    schema: 1,
    id: 'barometer-1',
    kind: 'barometer',
    name: 'barometer',
    assumed: false,
    resolution: 10,
    limits: { absolute: 200 },
  };
  const withSettings = (settings: { pressure?: number; altitude?: number }) =>
    evaluated({}, { bench: { settings: { pressure: undefined, ...settings } as never } }).conditions;

  it('is that of the barometer where it was read', () => {
    const run = evaluated({ pressurePa: 88_000 }, { bench: { barometer } });
    expect(run.conditions).toMatchObject({ pressurePa: 88_000, pressureFrom: 'barometer' });
    const ids = run.efficiency.water!.budget.map((row) => row.source.instrument);
    expect(ids).toContain('barometer-1');
  });
  it('is that of the workbook, then that of its altitude, then a broad guess', () => {
    expect(withSettings({ pressure: 90_000, altitude: 1150 })).toMatchObject({
      pressurePa: 90_000,
      pressureFrom: 'pressure of the workbook',
    });
    expect(withSettings({ altitude: 1150 })).toMatchObject({
      pressurePa: pressureAtAltitudePa(1150),
      pressureFrom: 'standard atmosphere at 1150 m',
    });
    expect(withSettings({})).toMatchObject({
      pressurePa: pressureAtAltitudePa(300),
      pressureFrom: 'assumed, as at 300 m',
    });
  });
  it('matters by the density of air, and by what pressure does to the enthalpy', () => {
    const [low, high] = [70_000, 105_000].map((pressure) =>
      evaluated({}, { bench: { settings: { pressure } } }),
    );
    // 350 hPa of dry air of 28.965 g/mol at 20 °C; and v·(1 − αT), 0.000941 m³/kg at 20 °C and 0.000840 m³/kg at
    // 60 °C (v = 1.0018 and 1.0171 litres, α = 0.207 and 0.523 per mille: from memory), over the rise.
    const air = ((35_000 * 0.028965) / (8.3145 * kelvin(20))) * (1 / 998.21 - 1 / 8000);
    const compression = ((0.000_84 - 0.000_941) * 35_000) / hand.riseJPerKg;
    const change = high!.efficiency.water!.value / low!.efficiency.water!.value - 1;
    expect(change).toBeCloseTo(air + compression, 6);
  });
});

describe('what a run is refused for', () => {
  const refusal = (code: string, sentence: RegExp) =>
    expect.objectContaining({ code, message: expect.stringMatching(sentence) });
  it.each([
    ['an end below the start', { startC: 60, endC: 20 }, 'rise-not-positive', /20\.00 °C.*60\.00 °C/],
    ['an end at the start', { endC: 20 }, 'rise-not-positive', /no warmer/],
    ['no water', { fullKg: 1.871, finalKg: 1.871 }, 'mass-negative', /1\.871 kg/],
    ['a negative mass', { fullKg: 1.5, finalKg: 1.5 }, 'mass-negative', /1\.5 kg.*1\.871 kg/],
    ['water above boiling', { endC: 104 }, 'above-boiling', /104\.0 °C.*boils at 100\.0 °C/],
    ['a counter that stood still', { afterKWh: 12.3 }, 'energy-not-positive', /0 kWh/],
    ['a counter that went back', { afterKWh: 12.1 }, 'energy-not-positive', /-0\.2 kWh/],
    ['times that go backward', { heatingS: -5 }, 'times-backward', /before it was switched on/],
  ])('%s', (_what, readings, code, sentence) =>
    expect(() => evaluated(readings)).toThrow(refusal(code, sentence)),
  );
  it('water above boiling in the mountains', () =>
    expect(() => evaluated({ endC: 92 }, { bench: { settings: { pressure: 70_000 } } })).toThrow(
      refusal('above-boiling', /boils at 89\.9 °C/),
    ));
  it.each([
    ['a heater', { heater: 'nobody' }, 'heater-unknown', /"nobody".*vat-warmer/],
    ['a setting', { setting: 'turbo' }, 'setting-unknown', /"turbo".*gentle, full/],
    ['a wattmeter', { instruments: { wattmeter: 'lost' } }, 'instrument-unknown', /"lost".*meter-1/],
    ['no wattmeter', { instruments: {} }, 'reading-missing', /wattmeter/],
    ['a reading', { readings: [] }, 'reading-missing', /startTemperature/],
  ])('%s that the workbook does not know', (_what, change, code, sentence) => {
    const { run } = evaluated();
    expect(() => evaluateWith({ ...run, ...change })).toThrow(refusal(code, sentence));
  });
});

describe('what a run is warned of', () => {
  it('nothing, where nothing is amiss', () => expect(evaluated().warnings).toEqual([]));
  it.each([
    ['a small rise', { endC: 45, afterKWh: 12.56 }, /rise was 25\.0 K.*at least 30\.0 K/],
    ['a hot end', { endC: 85, afterKWh: 12.95, heatingS: 2600 }, /end was at 85\.0 °C.*80\.0 °C/],
    ['a hot start', { startC: 48, endC: 79 }, /hot at the start/],
    [
      'more heat than energy',
      { afterKWh: 12.5 },
      /More heat is booked than the meter saw: 0\.0790 kWh too much/,
    ],
    ['an efficiency above one', { afterKWh: 12.5 }, /More than all of the metered energy/],
    ['a power above the plate', { heatingS: 1200 }, /would have been 1200 W.*rated at 900 W/],
  ])('%s', (_what, readings, sentence) => expect(evaluated(readings).warnings.join(' ')).toMatch(sentence));
  it('an instrument whose calibration had ended on the day of the run', () => {
    const meter = { ...instruments.meter, due: '2026-10-01' };
    const run = evaluated({}, { bench: { meter } });
    expect(run.warnings).toEqual([
      'plug-in wattmeter (meter-1) was 4 days past due when this run was made: its calibration ended on 2026-10-01.',
    ]);
    // It counts all the same.
    expect(run.efficiency.water!.value).toBeCloseTo(hand.efficiency, 6);
    const onTheDay = { ...instruments.meter, due: '2026-10-05' };
    expect(evaluated({}, { bench: { meter: onTheDay } }).warnings).toEqual([]);
  });
});

describe('what the two temperatures share', () => {
  const budgetOf = (limits: object) =>
    evaluated({}, { bench: { thermometer: { ...instruments.thermometer, limits } } }).efficiency.water!;
  const part = (found: ReturnType<typeof budgetOf>, what: string) =>
    Math.hypot(
      ...found.budget
        .filter((row) => row.source.id.startsWith(`instrument:thermometer-1:${what}`))
        .map((row) => row.contribution),
    );
  it('cancels: a common offset leaves only the curvature of the enthalpy', () => {
    const absolute = part(budgetOf({ absolute: 0.5 }), 'absolute');
    const offset = part(budgetOf({ offset: 0.5 }), 'offset');
    // c_p at 60 and 20 °C differ by 0.1 %; two independent errors add up to √2 of one.
    expect(absolute).toBeGreaterThan(0.005);
    expect(offset).toBeLessThan(0.002 * absolute);
    // by hand: (c_p(60) − c_p(20))·0.5 K/√3 over the rise
    const slope = (t: number) =>
      (enthalpy(kelvin(t) + 0.5, 101_325) - enthalpy(kelvin(t) - 0.5, 101_325)) / 1;
    const byHand = (Math.abs(slope(60) - slope(20)) * 0.5) / root3 / hand.riseJPerKg;
    expect(offset / (byHand * hand.efficiency)).toBeCloseTo(1, 2);
  });
});
