import { describe, expect, it } from 'vitest';
import {
  regnaultPfaundler,
  standingLoss,
  standingLossAt,
  type ThermalData,
  thermalDataOf,
} from '../../src/fitting/index.js';
import { standingLossExample } from '../reference/lumpedCooling.js';
import { Draw } from '../bench/coverage/random.mjs';

/** A load in a calorimeter: k of the loss, heated from `onS` to `offS`, integrated exactly for a constant heating. */
function calorimeter(noiseK: number, seed = 1) {
  const [k, roomK, startK, onS, offS, rate] = [1.2e-4, 292, 290, 1200, 2100, 0.03];
  const draw = new Draw(seed, 3);
  const timesS = Array.from({ length: 481 }, (_, i) => 10 * i);
  const towards = (from: number, to: number, t: number) => to + (from - to) * Math.exp(-k * t);
  const atOn = towards(startK, roomK, onS);
  const atOff = towards(atOn, roomK + rate / k, offS - onS);
  const truth = (t: number) =>
    t < onS
      ? towards(startK, roomK, t)
      : t < offS
        ? towards(atOn, roomK + rate / k, t - onS)
        : towards(atOff, roomK, t - offS);
  return {
    temperature: { timesS, temperaturesK: timesS.map((t) => truth(t) + draw.normal(noiseK)) },
    k,
    roomK,
    rise: rate * (offS - onS),
    forePeriod: { fromS: 0, toS: 1190 },
    afterPeriod: { fromS: 2400, toS: 4800 },
  };
}

describe('the loss correction of Regnault and Pfaundler', () => {
  it('gives the rise without loss, k and the temperature of the room', () => {
    const it = calorimeter(0);
    const result = regnaultPfaundler(it);
    // With half a period's length a, a parabola makes the drift of an exponential too large by (k·a)²/10: 0.2 % after, less before.
    expect(Math.abs(result.coolingRate.value! / it.k - 1)).toBeLessThan(0.004);
    expect(Math.abs(result.convergence.value! - it.roomK)).toBeLessThan(0.05);
    expect(Math.abs(result.correctedRise.value! - it.rise)).toBeLessThan(
      0.004 * (it.rise - result.plainRise.value!) + 0.005,
    );
    expect(result.plainRise.value!).toBeLessThan(it.rise - 1);
    expect(result.factor).toBeCloseTo(result.correctedRise.value! / result.plainRise.value!, 12);
  });

  it('states an uncertainty that its own scatter has', () => {
    const runs = Array.from(
      { length: 200 },
      (_, i) => regnaultPfaundler(calorimeter(0.05, 10 + i)).correctedRise,
    );
    const mean = runs.reduce((sum, { value }) => sum + value!, 0) / runs.length;
    const scatter = Math.sqrt(
      runs.reduce((sum, { value }) => sum + (value! - mean) ** 2, 0) / (runs.length - 1),
    );
    const stated = runs.reduce((sum, { standardUncertainty }) => sum + standardUncertainty!, 0) / runs.length;
    // A standard deviation of 200 is good to 5 %; four of them. Few blocks are taken to be more alike than they are.
    expect(scatter / stated).toBeGreaterThan(0.6);
    expect(scatter / stated).toBeLessThan(1.2);
  });

  it('doesn’t see an offset of the thermometer', () => {
    const it = calorimeter(0.02);
    const offset = {
      ...it,
      temperature: { ...it.temperature, temperaturesK: it.temperature.temperaturesK.map((t) => t + 0.4) },
    };
    const [a, b] = [regnaultPfaundler(it), regnaultPfaundler(offset)];
    expect(b.correctedRise.value!).toBeCloseTo(a.correctedRise.value!, 8);
    expect(b.coolingRate.value!).toBeCloseTo(a.coolingRate.value!, 12);
    expect(b.convergence.value! - a.convergence.value!).toBeCloseTo(0.4, 8);
  });

  it('refuses periods that don’t serve', () => {
    const it = calorimeter(0.02);
    const code = (by: object, words: RegExp) =>
      expect(() => regnaultPfaundler({ ...it, ...by })).toThrow(
        expect.objectContaining({ code: 'periods-bad', message: expect.stringMatching(words) }),
      );
    code({ afterPeriod: { fromS: 1000, toS: 2000 } }, /from 0 to 1190 s and from 1000 to 2000 s/);
    code({ forePeriod: { fromS: 0, toS: 25 } }, /period before has 3 readings/);
    code(
      { switchOffS: 2100, lagS: 90 },
      /begins at 2400 s, while the heater body still gives off heat.*2550 s or later/,
    );
    expect(regnaultPfaundler({ ...it, switchOffS: 2100, lagS: 50 }).factor).toBeGreaterThan(1);
  });
});

describe('a hold', () => {
  const timesS = Array.from({ length: 1441 }, (_, i) => 5 * i);
  const draw = new Draw(4, 4);
  const held = (drift = 0): ThermalData => ({
    temperature: {
      timesS,
      temperaturesK: timesS.map((t) => 353.15 + drift * t + 0.3 * Math.sin((2 * Math.PI * t) / 400)),
    },
    power: { timesS, powerW: timesS.map((t) => (t % 400 < 60 ? 900 : 2) + draw.normal(1)), between: 'step' },
    ambient: 293.15,
  });

  it('gives UA/κ over whole cycles of the thermostat', () => {
    const loss = standingLoss(held());
    expect(loss.cycles).toBe(17);
    expect(loss.usedS).toEqual({ fromS: 400, toS: 7200 });
    // 900 W for 60 of 400 s and 2 W for the rest; readings of 5 s with noise of 1 W: 1/√1360.
    expect(Math.abs(loss.heldPowerW - (900 * 60 + 2 * 340) / 400)).toBeLessThan(4 / Math.sqrt(1360));
    expect(loss.lossOverKappa).toBeCloseTo(loss.heldPowerW / 60, 2);
    expect(loss.standardUncertainty!).toBeGreaterThan(0);
    expect(loss.standardUncertainty!).toBeLessThan(0.003);
    expect(loss.energyPerDayJ / 86_400).toBeCloseTo(loss.heldPowerW, 9);
    expect(loss.driftW).toBeNull();
  });

  it('corrects for a load that drifts, or refuses it', () => {
    const drift = 3e-4;
    expect(() => standingLoss(held(drift))).toThrow(
      expect.objectContaining({ code: 'hold-bad', message: expect.stringMatching(/drifted by 2\.0\d K/) }),
    );
    const loss = standingLoss(held(drift), { heatCapacityOverKappaJPerK: 10_000 });
    expect(loss.driftW).toBeCloseTo(3, 1);
    expect(loss.lossOverKappa).toBeCloseTo((loss.heldPowerW - loss.driftW!) / loss.excessK, 9);
  });

  it('takes a steady power without cycles, in blocks', () => {
    const steady = standingLoss({ ...held(), power: { timesS: [0, 7200], powerW: [120, 120] } });
    expect(steady.cycles).toBe(0);
    expect(steady.lossOverKappa).toBeCloseTo(2, 3);
    const part = standingLoss(
      { ...held(), power: { timesS: [0, 7200], powerW: [120, 120] } },
      { stretch: { fromS: 100, toS: 700 } },
    );
    expect(part.usedS).toEqual({ fromS: 100, toS: 700 });
    expect(part.standardUncertainty).toBeNull();
  });

  it('is none without an excess, a power, a room, or time in common', () => {
    const it = held();
    expect(() => standingLoss({ ...it, ambient: 353 })).toThrow(
      expect.objectContaining({ code: 'hold-bad' }),
    );
    expect(() => standingLoss({ ...it, power: { timesS, powerW: timesS.map(() => 0) } })).toThrow(
      /mean power/,
    );
    const { power: _, ...cold } = it;
    expect(() => standingLoss(cold)).toThrow(expect.objectContaining({ code: 'fit-power-missing' }));
    const { ambient: __, ...roomless } = it;
    expect(() => standingLoss(roomless)).toThrow(expect.objectContaining({ code: 'fit-ambient-missing' }));
    expect(() => standingLoss(it, { stretch: { fromS: 9000, toS: 9500 } })).toThrow(/no time in common/);
  });

  it('is referred to 45 K as the standard does', () => {
    const { energyKWh, storeC, roomC, referredKWh } = standingLossExample;
    const at = standingLossAt({
      energyJ: energyKWh * 3.6e6,
      storeK: storeC + 273.15,
      ambientK: roomC + 273.15,
    });
    expect(at / 3.6e6).toBeCloseTo(referredKWh, 12);
    expect(() => standingLossAt({ energyJ: 1, storeK: 290, ambientK: 293 })).toThrow(/the store is at 290 K/);
  });
});

describe('the data of a log', () => {
  const known = Float64Array.of(0, 10, 20, 30, 40);
  const log = {
    timesS: known,
    powerW: Float64Array.of(0, 900, Number.NaN, 900, 0),
    temperatureK: Float64Array.of(290, Number.NaN, 291, 292, 292.5),
  };

  it('leave unknown cells out and count them', () => {
    const { data, notes } = thermalDataOf(log, { ambient: 293, stretch: { fromS: 5, toS: 35 } });
    expect(Array.from(data.temperature.timesS)).toEqual([20, 30]);
    expect(Array.from(data.power!.timesS)).toEqual([0, 10, 30, 40]);
    expect(data.ambient).toBe(293);
    expect(notes).toEqual(['1 row without temperature left out', '1 row without power left out']);
  });

  it('take the temperature of another log by its clock', () => {
    const other = { timesS: Float64Array.of(0, 15), temperatureK: Float64Array.of(300, 301) };
    const { data } = thermalDataOf(
      { ...log, temperatureK: null },
      { temperatureLog: { log: other, startS: 5 } },
    );
    expect(Array.from(data.temperature.timesS)).toEqual([5, 20]);
    expect(() => thermalDataOf({ ...log, temperatureK: null })).toThrow(
      expect.objectContaining({ code: 'log-lacks' }),
    );
  });
});
