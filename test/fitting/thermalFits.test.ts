import { describe, expect, it } from 'vitest';
import {
  compareModels,
  fitApproach,
  fitCoolDown,
  fitOneNode,
  fitTwoNode,
  type ThermalData,
  type ThermalFit,
} from '../../src/fitting/index.js';
import { durbinWatson, ljungBox, runsTest } from '../../src/fitting/thermal/testResiduals.js';
import { whiten } from '../../src/fitting/thermal/whiten.js';
import { studentQuantile } from '../../src/statistics/index.js';
import {
  biotLimit,
  cengelThermocouple,
  coolDownCurve,
  incroperaThermocouple,
  warmUpCurve,
} from '../reference/lumpedCooling.js';
import { Draw } from '../bench/coverage/random.mjs';
import { cells, loggedTest, perfect, vat } from '../bench/fitCoverage/truth.mjs';

const zeroC = 273.15;
const found = (fit: ThermalFit, name: string) =>
  [...fit.parameters, ...fit.quantities].find((each) => each.name === name)!;
const kelvin = (celsius: readonly number[]) => celsius.map((t) => t + zeroC);
const seconds = (count: number, everyS: number) => Array.from({ length: count }, (_, i) => i * everyS);

/** A cooling load with first-order autoregressive noise. */
function coolingLoad(seed: number, rho = 0.5, count = 540): ThermalData {
  const draw = new Draw(seed, 1);
  const timesS = seconds(count, 10);
  let noise = draw.normal(0.05);
  const temperaturesK = timesS.map((t) => {
    noise = rho * noise + draw.normal(0.05 * Math.sqrt(1 - rho * rho));
    return 293 + 50 * Math.exp(-t / 5000) + noise;
  });
  return { temperature: { timesS, temperaturesK }, ambient: 293 };
}

describe('curves from outside', () => {
  const { everyS, temperaturesC, roomC, heatCapacityJPerK } = coolDownCurve;
  const cooling = {
    temperature: { timesS: seconds(temperaturesC.length, everyS), temperaturesK: kelvin(temperaturesC) },
    ambient: roomC + zeroC,
  };

  it('gives back time constant and UA of a cool-down without noise', () => {
    const fit = fitCoolDown(cooling, { heatCapacityJPerK, targetK: 50 + zeroC });
    expect(fit.converged).toBe(true);
    expect(found(fit, 'timeConstant').value! / coolDownCurve.timeConstantS - 1).toBeCloseTo(0, 10);
    expect(found(fit, 'ua').value).toBeCloseTo(coolDownCurve.uaWPerK, 9);
    expect(found(fit, 'timeToTarget').value).toBeCloseTo(
      coolDownCurve.timeConstantS * Math.log((90 - roomC) / (50 - roomC)),
      5,
    );
    expect(found(fit, 'ua').conditionalOn).toMatch(/heat capacity stated/);
  });

  it('finds the temperature of the room by itself from the same curve', () => {
    const fit = fitApproach({ temperature: cooling.temperature });
    expect(found(fit, 'finalTemperature').value! - zeroC).toBeCloseTo(roomC, 7);
    expect(found(fit, 'timeConstant').value! / coolDownCurve.timeConstantS - 1).toBeCloseTo(0, 9);
  });

  it('gives back κ and UA of a warm-up without noise', () => {
    const curve = warmUpCurve;
    const timesS = seconds(curve.temperaturesC.length, curve.everyS);
    const data = {
      temperature: { timesS, temperaturesK: kelvin(curve.temperaturesC) },
      power: { timesS: [0, 400], powerW: [curve.powerW, curve.powerW] },
      ambient: curve.roomC + zeroC,
    };
    const fit = fitOneNode(data, {
      heatCapacityJPerK: curve.heatCapacityJPerK,
      blockS: 15,
      targetK: 95 + zeroC,
    });
    expect(found(fit, 'kappa').value).toBeCloseTo(curve.kappa, 9);
    expect(found(fit, 'ua').value).toBeCloseTo(curve.uaWPerK, 6);
    expect(found(fit, 'finalTemperature').value! - zeroC).toBeCloseTo(curve.finalC, 3);
    const time = curve.timeConstantS * Math.log((curve.finalC - 20) / (curve.finalC - 95));
    expect(found(fit, 'timeToTarget').value).toBeCloseTo(time, 6);
    expect(found(fit, 'kappa').conditionalOn).toMatch(/one fill/);
  });

  it('answers the thermocouple of Çengel’s book as the book does', () => {
    const it = cengelThermocouple;
    const length = it.diameterM / 6;
    expect(length).toBeCloseTo(it.published.characteristicM, 6);
    const biot = (it.filmWPerM2K * length) / it.conductivityWPerMK;
    expect(biot).toBeCloseTo(it.published.biot, 4);
    expect(biot).toBeLessThan(biotLimit);
    const exponent = it.filmWPerM2K / (it.densityKgPerM3 * it.specificJPerKgK * length);
    // The book's 0.462 is its rounded length; three digits of the exponent.
    expect(Math.abs(exponent - it.published.exponentPerS)).toBeLessThan(0.002);
    const timesS = seconds(100, 0.05);
    const temperaturesK = timesS.map((t) => 373.15 - 80 * Math.exp(-it.published.exponentPerS * t));
    const fit = fitApproach(
      { temperature: { timesS, temperaturesK } },
      { blockS: 0.25, targetK: 373.15 - 0.8 },
    );
    expect(Math.round(found(fit, 'timeToTarget').value!)).toBe(it.published.time99S);
    expect(1 / found(fit, 'timeConstant').value!).toBeCloseTo(it.published.exponentPerS, 6);
  });

  it('answers the thermocouple of Incropera’s book as the book does', () => {
    const it = incroperaThermocouple;
    const diameter = (6 * it.filmWPerM2K * it.timeConstantS) / (it.densityKgPerM3 * it.specificJPerKgK);
    expect(diameter).toBeCloseTo(it.published.diameterM, 6);
    expect((it.filmWPerM2K * diameter) / 6 / it.conductivityWPerMK).toBeCloseTo(it.published.biot, 5);
    const timesS = seconds(80, 0.05);
    const temperaturesK = timesS.map(
      (t) => zeroC + it.gasC - (it.gasC - it.startC) * Math.exp(-t / it.timeConstantS),
    );
    const fit = fitApproach(
      { temperature: { timesS, temperaturesK } },
      { blockS: 0.25, targetK: it.shownC + zeroC },
    );
    expect(found(fit, 'timeToTarget').value).toBeCloseTo(it.published.timeS, 1);
  });
});

describe('generalised least squares', () => {
  /** The same by other means: Gauss and Newton on T0 and tau with plain loops. */
  function byHand(fit: ThermalFit) {
    const { timesS, observedK } = fit.curve;
    const n = timesS.length;
    // Block means of readings each 10 s, six to a block.
    const parts = (t: number) => [-25, -15, -5, 5, 15, 25].map((d) => t + d);
    const model = ([start, tau]: number[]) =>
      timesS.map((t) =>
        parts(t).reduce((sum, u) => sum + (293 + (start! - 293) * Math.exp(-u / tau!)) / 6, 0),
      );
    const solve = (rho: number, from: number[]) => {
      const white = (v: number[]) =>
        v.map((x, k) => (k === 0 ? x * Math.sqrt(1 - rho * rho) : x - rho * v[k - 1]!));
      let at = from;
      let inverse = [0, 0, 0];
      for (let turn = 0; turn < 20; turn += 1) {
        const e = white(observedK.map((y, k) => y - model(at)[k]!));
        const columns = at.map((value, j) => {
          const h = Math.abs(value) * 1e-5;
          const [up, down] = [h, -h].map((by) => model(at.map((each, i) => (i === j ? each + by : each))));
          return white(up!.map((x, k) => (x - down![k]!) / (2 * h)));
        }) as [number[], number[]];
        const dot = (a: number[], b: number[]) => a.reduce((sum, x, k) => sum + x * b[k]!, 0);
        const [aa, ab, bb] = [
          dot(columns[0], columns[0]),
          dot(columns[0], columns[1]),
          dot(columns[1], columns[1]),
        ];
        const det = aa * bb - ab * ab;
        inverse = [bb / det, -ab / det, aa / det];
        const [ga, gb] = [dot(columns[0], e), dot(columns[1], e)];
        at = [at[0]! + inverse[0]! * ga + inverse[1]! * gb, at[1]! + inverse[1]! * ga + inverse[2]! * gb];
      }
      const e = observedK.map((y, k) => y - model(at)[k]!);
      const white2 = white(e).reduce((sum, x) => sum + x * x, 0);
      return { at, e, s2: white2 / (n - 2), inverse };
    };
    const ordinary = solve(0, [343, 5000]);
    const mean = ordinary.e.reduce((sum, x) => sum + x, 0) / n;
    const d = ordinary.e.map((x) => x - mean);
    const r =
      d.reduce((sum, x, k) => sum + (k > 0 ? x * d[k - 1]! : 0), 0) / d.reduce((sum, x) => sum + x * x, 0);
    const rho = Math.min(0.995, r + (1 + 3 * r + (1 + r)) / n);
    const { at, s2, inverse } = solve(rho, ordinary.at);
    return { at, rho, u: [Math.sqrt(s2 * inverse[0]!), Math.sqrt(s2 * inverse[2]!)], n };
  }

  it('does what its formulas say, step by step', () => {
    const fit = fitCoolDown(coolingLoad(4, 0.9));
    const other = byHand(fit);
    expect(fit.blocks).toMatchObject({ lengthS: 60, count: 90 });
    expect(fit.blocks.autocorrelation).toBeCloseTo(other.rho, 7);
    fit.parameters.forEach(({ value, standardUncertainty }, j) => {
      expect(value! / other.at[j]!).toBeCloseTo(1, 8);
      expect(standardUncertainty! / other.u[j]!).toBeCloseTo(1, 5);
    });
    const effective = (other.n * (1 - other.rho)) / (1 + other.rho);
    expect(fit.blocks.effective).toBeCloseTo(effective, 5);
    expect(fit.degreesOfFreedom).toBeCloseTo(Math.max(2, effective - 2), 5);
    expect(fit.curve.confidenceK![0]! / fit.parameters[0]!.standardUncertainty!).toBeGreaterThan(
      0.95 * studentQuantile(0.975, fit.degreesOfFreedom),
    );
  });

  it('takes the autocorrelation out across gaps as over the blocks between', () => {
    // Of a series of expectation rho^g the correlation with the value before a gap of g is rho^g: what is left is white.
    const rho = 0.8;
    const plain = Float64Array.of(1, 0.8, 0.64, 0.512);
    whiten(plain, Int32Array.of(0, 1, 1, 1), rho);
    expect([...plain]).toEqual([0.6, 0, 0, 0].map((v) => expect.closeTo(v, 12)));
    const gap = Float64Array.of(1, 0.512);
    whiten(gap, Int32Array.of(0, 3), rho);
    expect([...gap]).toEqual([0.6, 0].map((v) => expect.closeTo(v, 12)));
    // A value of its own is scaled so that its variance is that of a step: 1 - rho^6 becomes 1 - rho^2.
    const alone = Float64Array.of(0, 1);
    whiten(alone, Int32Array.of(0, 3), rho);
    expect(alone[1]).toBeCloseTo(Math.sqrt((1 - rho ** 2) / (1 - rho ** 6)), 12);
  });

  it('leaves stretches out and says so', () => {
    const data = coolingLoad(4);
    const fit = fitCoolDown(data, { leaveOut: [{ fromS: 600, toS: 1195 }] });
    expect(fit.blocks.count).toBe(80);
    expect(fit.used).toMatchObject({ leftOut: 60, readings: 480 });
    expect(fit.curve.timesS.some((t) => t > 600 && t < 1200)).toBe(false);
    const spoilt = Array.from(data.temperature.temperaturesK, (t, i) => (i >= 60 && i < 120 ? t - 5 : t));
    const other = fitCoolDown(
      { ...data, temperature: { ...data.temperature, temperaturesK: spoilt } },
      { leaveOut: [{ fromS: 600, toS: 1195 }] },
    );
    // Only the first guess sees the readings that are left out.
    fit.parameters.forEach(({ value }, j) => {
      expect(other.parameters[j]!.value! / value!).toBeCloseTo(1, 10);
    });
  });

  it('takes any origin of time', () => {
    const data = coolingLoad(4);
    const later = Array.from(data.temperature.timesS, (t) => t + 1_790_000_000);
    const fit = fitCoolDown(data);
    const other = fitCoolDown({ ...data, temperature: { ...data.temperature, timesS: later } });
    fit.parameters.forEach(({ value }, j) => {
      expect(other.parameters[j]!.value! / value!).toBeCloseTo(1, 9);
    });
  });
});

describe('the sensitivities', () => {
  const { data } = loggedTest(new Draw(3, 5), cells['rho-0.5'], perfect, {
    massKg: 2,
    heatS: 1200,
    coolS: 3600,
  });
  const moved = (change: Partial<ThermalData>) => ({ ...data, ...change }) as ThermalData;
  const offset = moved({
    temperature: {
      ...data.temperature,
      temperaturesK: data.temperature.temperaturesK.map((t: number) => t + 0.05),
    },
  });
  const gain = moved({
    temperature: {
      ...data.temperature,
      temperaturesK: data.temperature.temperaturesK.map((t: number) => t + 1e-3 * (t - zeroC)),
    },
  });
  const room = moved({
    ambient: { ...data.ambient, temperaturesK: data.ambient.temperaturesK.map((t: number) => t + 0.2) },
  });
  const power = moved({ power: { ...data.power, powerW: data.power.powerW.map((p: number) => 1.004 * p) } });
  const cases = [
    ['thermometerOffset', offset, 0.05],
    ['thermometerGain', gain, 1e-3],
    ['ambientOffset', room, 0.2],
    ['meterGain', power, 0.004],
  ] as const;

  it.each([
    ['oneNode', fitOneNode],
    ['twoNode', fitTwoNode],
  ] as const)('say what a fit of %s to disturbed readings gives', (_name, fitIt) => {
    const fit = fitIt(data);
    for (const [name, disturbed, size] of cases) {
      const other = fitIt(disturbed);
      fit.parameters.forEach(({ value, name: parameter }, j) => {
        const change = other.parameters[j]!.value! - value!;
        const said = size * fit.sensitivities![name]![j]!;
        // The weights move a little with the residuals, and second order is left out: 2 % and a hundredth of the scatter.
        const room =
          0.02 * Math.abs(said) + 0.01 * fit.parameters[j]!.standardUncertainty! + 1e-12 * Math.abs(value!);
        expect(Math.abs(change - said), `${parameter} by ${name}`).toBeLessThan(room);
      });
    }
  });

  it('of an open vessel say what other vapour gives', () => {
    const timesS = seconds(400, 15);
    const temperaturesK = timesS.map((t) => 295 + 55 * Math.exp(-t / 3500));
    const open = { temperature: { timesS, temperaturesK }, ambient: 295 };
    const at = (lostKg: number, ambient = 295) =>
      fitCoolDown(
        { ...open, ambient },
        { heatCapacityJPerK: 9000, vapour: { lostKg, relativeHumidity: 0.5 } },
      );
    const fit = at(0.05);
    const more = at(0.05 * 1.01).parameters[1]!.value! - fit.parameters[1]!.value!;
    expect((0.01 * fit.sensitivities!.vapourRate![1]!) / more).toBeCloseTo(1, 1);
    expect(fit.sensitivities!.meterGain).toBeNull();
    // UA without the vapour is smaller than with it.
    expect(fit.parameters[1]!.value!).toBeGreaterThan(fitCoolDown(open).parameters[1]!.value! * 1.2);
  });
});

describe('the tests of residuals', () => {
  it('have the values of their formulas', () => {
    // By hand: + + - - + - + + : six runs; differences and products of 1..4.
    expect(runsTest([1, 2, -1, -3, 2, -1, 1, 1]).statistic).toBe(5);
    expect(durbinWatson([1, 2, 4, 3]).statistic).toBeCloseTo((1 + 4 + 1) / 30, 12);
    const values = [2, -1, 0.5, 1, -2, 1.5, -0.5, 1, -1, -0.5];
    const squares = values.reduce((sum, e) => sum + e * e, 0);
    const r = (lag: number) =>
      values.reduce((sum, e, i) => sum + (i < lag ? 0 : e * values[i - lag]!), 0) / squares;
    expect(ljungBox(values).statistic).toBeCloseTo(120 * (r(1) ** 2 / 9 + r(2) ** 2 / 8), 10);
  });

  it('cry out as often as they say, over noise', () => {
    const draw = new Draw(11, 1);
    const trials = 2000;
    const counts = { runs: 0, 'Durbin-Watson': 0, 'Ljung-Box': 0 };
    for (let trial = 0; trial < trials; trial += 1) {
      const noise = Array.from({ length: 100 }, () => draw.normal(1));
      for (const { name, probability } of [runsTest(noise), durbinWatson(noise), ljungBox(noise)])
        if (probability! < 0.05) counts[name as keyof typeof counts] += 1;
    }
    // 5 % of 2000 is 100 with a standard deviation of 9.7; four of them each way. Ljung and Box's one is meant for whitened
    // residuals, which have one degree of freedom less: on plain noise it cries more often.
    for (const name of ['runs', 'Durbin-Watson'] as const) {
      expect(counts[name], name).toBeGreaterThan(61);
      expect(counts[name], name).toBeLessThan(139);
    }
    expect(counts['Ljung-Box']).toBeGreaterThan(61);
  });
});

describe('the verdict', () => {
  const steady = { massKg: 3, heatS: 1500, coolS: 3600 };
  const bare = loggedTest(new Draw(3, 3), cells['step-0.1'], perfect, { ...steady, bodyJPerK: 15 });
  const withBody = loggedTest(new Draw(3, 3), cells['rho-0.5'], perfect, steady);

  it('calls a curve that fits so, with its noise', () => {
    const { verdict } = fitOneNode(bare.data);
    expect(verdict).toMatchObject({ fits: true, where: null, leaveOut: null });
    expect(verdict.sentence).toMatch(
      /^The curve fits; what is left is noise of 0\.0\d K and the 0\.1 K steps/,
    );
    expect(fitTwoNode(withBody.data).verdict.sentence).toMatch(
      /^The curve fits; what is left is noise of 0\.0\d K\.$/,
    );
  });

  it('sees a load that was not stirred at first, and that the rest fits', () => {
    const unstirred = bare.data.temperature.temperaturesK.map((t: number, i: number) => {
      const since = bare.data.temperature.timesS[i]! - 300;
      return since > 0 && since < 350 ? t - 1 : t;
    });
    const data = { ...bare.data, temperature: { ...bare.data.temperature, temperaturesK: unstirred } };
    const { verdict } = fitOneNode(data);
    expect(verdict.fits).toBe(false);
    expect(verdict.sentence).toMatch(
      /not stirred in the first 6 minutes of heating .*: leave them out, or use two nodes/,
    );
    const again = fitOneNode(data, { leaveOut: [verdict.leaveOut!] });
    expect(again.verdict.fits).toBe(true);
  });

  it('sends a load with a heavy body to two nodes, and they are better by far', () => {
    const one = fitOneNode(withBody.data);
    const two = fitTwoNode(withBody.data);
    expect(one.verdict.fits).toBe(false);
    expect(one.verdict.sentence).toMatch(
      /from minute \d+ to \d+ .* K (below|above) the curve.*use two nodes/,
    );
    expect(one.verdict.where!.toS).toBeGreaterThan(one.verdict.where!.fromS);
    const compared = compareModels([one, two]);
    expect(compared.ranked[0]!.fit).toBe(two);
    expect(compared.ranked[0]!.weight).toBeGreaterThan(0.999);
    expect(compared.ranked.reduce((sum, { weight }) => sum + weight, 0)).toBeCloseTo(1, 12);
    expect(compared.sentence).toMatch(/two nodes explains the log best, clearly/);
  });

  it('finds κ/(C + C_b), UA/(C + C_b) and the coupling of the truth', () => {
    const C = 3 * vat.specificJPerKgK + vat.vesselJPerK;
    const total = C + vat.bodyJPerK;
    const fit = fitTwoNode(withBody.data, { bodyRatio: vat.bodyJPerK / C });
    const truth = [vat.kappa / total, vat.lossWPerK / total, vat.couplingWPerK * (1 / C + 1 / vat.bodyJPerK)];
    // The power is read each second: each switching is known to 0.3 s of 1500 s. Five times that and five of the scatter.
    truth.forEach((value, j) => {
      const { value: fitted, standardUncertainty: u } = fit.parameters[j]!;
      expect(Math.abs(fitted! - value)).toBeLessThan(
        5 * u! + (5 * 0.3 * Math.SQRT2 * value) / (j === 2 ? 60 : 1500),
      );
    });
  });

  it('sees that there is no heater body where there is none', () => {
    const draw = new Draw(1, 9);
    const timesS = seconds(541, 10);
    // Closed solution of one node: at rest, heated from 300 to 1800 s, cooling.
    const towards = (from: number, to: number, t: number) => to + (from - to) * Math.exp(-1.1e-4 * t);
    const atOn = towards(285, 293, 300);
    const hottest = 293 + (6e-5 * 900) / 1.1e-4;
    const atOff = towards(atOn, hottest, 1500);
    const truth = (t: number) =>
      t < 300
        ? towards(285, 293, t)
        : t < 1800
          ? towards(atOn, hottest, t - 300)
          : towards(atOff, 293, t - 1800);
    const data: ThermalData = {
      temperature: { timesS, temperaturesK: timesS.map((t) => truth(t) + draw.normal(0.05)) },
      power: { timesS: [0, 300, 1800], powerW: [0, 900, 0], between: 'step' },
      ambient: 293,
    };
    const longer = {
      ...data,
      power: { timesS: [0, 300, 1800, 5400], powerW: [0, 900, 0, 0], between: 'step' as const },
    };
    const [one, two] = [fitOneNode(longer), fitTwoNode(longer)];
    expect(one.verdict.fits).toBe(true);
    // Five standard uncertainties of the scatter.
    expect(Math.abs(one.parameters[0]!.value! - 6e-5)).toBeLessThan(
      5 * one.parameters[0]!.standardUncertainty!,
    );
    expect(Math.abs(one.parameters[1]!.value! - 1.1e-4)).toBeLessThan(
      5 * one.parameters[1]!.standardUncertainty!,
    );
    expect(two.verdict).toMatchObject({
      fits: false,
      sentence: expect.stringMatching(/^No heater body is seen/),
    });
    expect(two.parameters[2]!.reason).toMatch(/couplingRate lies on a bound/);
    expect(compareModels([two, one]).ranked[0]!.fit).toBe(one);
    // The log of the power ends at 1800 s in the shorter one: what comes later is not used.
    expect(fitOneNode(data).used.toS).toBeLessThanOrEqual(1800);
  });

  it('says of two models that do as well as each other that they do', () => {
    const data = coolingLoad(8);
    const [drop, tends] = [fitCoolDown(data), fitApproach(data)];
    expect(compareModels([drop, tends]).sentence).toMatch(/about equally well/);
  });

  it('says of a cool-down what happened when, not how to heat', () => {
    const data = coolingLoad(8);
    const lidOff = Array.from(data.temperature.temperaturesK, (t, i) => (i > 240 && i < 330 ? t - 0.6 : t));
    const { verdict } = fitCoolDown({ ...data, temperature: { ...data.temperature, temperaturesK: lidOff } });
    expect(verdict.fits).toBe(false);
    expect(verdict.sentence).toMatch(/from minute 40 to 55 .* below the curve.*lid/);
  });
});

describe('bad input', () => {
  const good = coolingLoad(4);
  const heated = loggedTest(new Draw(3, 3), cells['rho-0.5'], perfect, { massKg: 1, heatS: 600, coolS: 1200 })
    .data as ThermalData;
  const change = (list: ArrayLike<number>, at: number, to: number) =>
    Array.from(list, (v, i) => (i === at ? to : v));
  const temperature = (by: Partial<ThermalData['temperature']>) => ({
    ...good,
    temperature: { ...good.temperature, ...by },
  });
  const { timesS, temperaturesK } = good.temperature;
  const cases: [string, () => unknown, string, RegExp][] = [
    [
      'an unknown temperature',
      () => fitCoolDown(temperature({ temperaturesK: change(temperaturesK, 6, Number.NaN) })),
      'value-not-finite',
      /Reading 7 of the temperature, at 60 s,.*NaN/,
    ],
    [
      'an unknown time',
      () => fitCoolDown(temperature({ timesS: change(timesS, 6, Number.NaN) })),
      'value-not-finite',
      /time of reading 7/,
    ],
    [
      'times out of order',
      () => fitCoolDown(temperature({ timesS: change(timesS, 6, 45) })),
      'fit-input-bad',
      /reading 7 .* later than 50 s, the one before, but got 45 s/,
    ],
    [
      'a repeated time',
      () => fitCoolDown(temperature({ timesS: change(timesS, 6, 50) })),
      'fit-input-bad',
      /later than 50 s/,
    ],
    [
      'Celsius for kelvin',
      () => fitCoolDown(temperature({ temperaturesK: Array.from(temperaturesK, (t) => t - zeroC) })),
      'fit-input-bad',
      /kelvin, not °C/,
    ],
    [
      'lists of different length',
      () => fitCoolDown(temperature({ timesS: Array.from(timesS).slice(1) })),
      'lengths-differ',
      /539 and 540/,
    ],
    [
      'no reading at all',
      () => fitCoolDown(temperature({ timesS: [], temperaturesK: [] })),
      'fit-input-bad',
      /one reading or more/,
    ],
    [
      'a constant temperature',
      () => fitCoolDown(temperature({ temperaturesK: Array.from(timesS, () => 300) })),
      'fit-constant',
      /All 540 readings .* are 300 K/,
    ],
    [
      'too few readings',
      () => fitApproach({ temperature: { timesS: [0, 60, 120], temperaturesK: [300, 310, 315] } }),
      'fit-too-few-blocks',
      /3 parameters needs at least 4 block means, but these readings fill 3 blocks of 60 s/,
    ],
    ['no ambient', () => fitCoolDown({ temperature: good.temperature }), 'fit-ambient-missing', /room/],
    ['no power', () => fitOneNode(good), 'fit-power-missing', /power/],
    [
      'no heating',
      () => fitOneNode({ ...good, power: { timesS: [0, 9000], powerW: [1, 2] } }),
      'log-no-heating',
      /below 10 W/,
    ],
    [
      'an unknown power',
      () =>
        fitOneNode({
          ...heated,
          power: { ...heated.power!, powerW: change(heated.power!.powerW, 2, Number.NaN) },
        }),
      'value-not-finite',
      /Reading 3 of the power, at 2 s,/,
    ],
    [
      'clocks that do not meet',
      () => fitOneNode({ ...heated, power: { timesS: [1e6, 1e6 + 60], powerW: [900, 900] } }),
      'fit-no-overlap',
      /one clock/,
    ],
    ['a block of no length', () => fitCoolDown(good, { blockS: 0 }), 'fit-input-bad', /length of the blocks/],
    ['a negative body', () => fitTwoNode(heated, { bodyRatio: -1 }), 'fit-input-bad', /zero or more/],
    [
      'vapour without a heat capacity',
      () => fitCoolDown(good, { vapour: { lostKg: 0.1, relativeHumidity: 0.5 } }),
      'fit-input-bad',
      /heat capacity/,
    ],
    [
      'a humidity in per cent',
      () => fitCoolDown(good, { heatCapacityJPerK: 9000, vapour: { lostKg: 0.1, relativeHumidity: 50 } }),
      'humidity-range',
      /45 % is 0\.45/,
    ],
    ['one model alone', () => compareModels([fitCoolDown(good)]), 'too-few-values', /2 values/],
    [
      'fits to different readings',
      () => compareModels([fitCoolDown(good), fitApproach(coolingLoad(5))]),
      'fits-differ',
      /same stretch/,
    ],
  ];
  it.each(cases)('%s: a clear answer', (_name, job, code, words) => {
    expect(job).toThrow(expect.objectContaining({ code, message: expect.stringMatching(words) }));
  });

  it('says which readings lie outside the other log, and uses the rest', () => {
    const short = { timesS: heated.power!.timesS, powerW: heated.power!.powerW };
    const upTo = Array.from(short.timesS).filter((t) => t <= 1500).length;
    const cut = {
      timesS: Array.from(short.timesS).slice(0, upTo),
      powerW: Array.from(short.powerW).slice(0, upTo),
    };
    const { used } = fitTwoNode({ ...heated, power: cut });
    // The reading at 1500 s alone is no block.
    expect(used.toS).toBe(1490);
    expect(used.notes.join()).toMatch(/^\d+ readings of the temperature lie outside the log of the power/);
  });

  it('says so where the data do not settle a curve', () => {
    // A straight line: no time constant can be told.
    const line = seconds(200, 20);
    const draw = new Draw(2, 2);
    const straight = line.map((t) => 300 + t * 0.001 + draw.normal(0.05));
    const fit = fitApproach({ temperature: { timesS: line, temperaturesK: straight } });
    const { value, standardUncertainty: u, reason } = found(fit, 'timeConstant');
    expect(u === null ? reason !== null && !fit.verdict.fits : u > value! / 3).toBe(true);
  });
});
