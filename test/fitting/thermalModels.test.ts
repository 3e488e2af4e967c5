import { describe, expect, it } from 'vitest';
import type { Problem } from '../../src/fitting/index.js';
import { approachProblem } from '../../src/fitting/thermal/approachProblem.js';
import { firstOrderPass } from '../../src/fitting/thermal/firstOrderPass.js';
import { momentPass } from '../../src/fitting/thermal/momentPass.js';
import { momentsOf, segmentsOf } from '../../src/fitting/thermal/momentsOf.js';
import { coolDownProblem, oneNodeProblem } from '../../src/fitting/thermal/oneNodeProblem.js';
import { openCoolDownProblem } from '../../src/fitting/thermal/openCoolDownProblem.js';
import { openVessel } from '../../src/fitting/thermal/openVessel.js';
import type { Prepared } from '../../src/fitting/thermal/Prepared.js';
import { phi } from '../../src/fitting/thermal/phi.js';
import { prepareData } from '../../src/fitting/thermal/prepareData.js';
import { twoNodeProblem } from '../../src/fitting/thermal/twoNodeProblem.js';
import type { ThermalData } from '../../src/fitting/index.js';

const everything = { power: true, ambient: true, parameters: 3 };
const roomOnly = { power: false, ambient: true, parameters: 2 };

/** Series at times of their own: temperatures each 7 s, power each 4 s or so, the room each 50 s or so. */
function mixedData(lengthS = 1500): ThermalData {
  const wobbly = (everyS: number, first: number) =>
    Array.from(
      { length: Math.ceil((lengthS - first) / everyS) + 1 },
      (_, i) => first + everyS * (i + 0.2 * Math.sin(3 * i)),
    );
  const own = Array.from({ length: Math.floor((lengthS - 3) / 7) + 1 }, (_, i) => 3 + 7 * i);
  const powerS = wobbly(4.3, 0);
  const roomS = wobbly(50, -20);
  return {
    temperature: { timesS: own, temperaturesK: own.map((t) => 290 + 0.02 * t) },
    power: {
      timesS: powerS,
      powerW: powerS.map((t) => (t > 200 && t < 900 ? 900 + 30 * Math.sin(t / 9) : 1.5)),
    },
    ambient: { timesS: roomS, temperaturesK: roomS.map((t) => 293 + 0.8 * Math.sin(t / 400)) },
  };
}

const evaluated = (problem: Problem, at: readonly number[]) => {
  const predicted = new Float64Array(problem.points);
  const jacobian = new Float64Array(problem.points * problem.parameters);
  problem.evaluate(Float64Array.from(at), predicted, jacobian);
  return { predicted, jacobian };
};

/** Largest difference between exact and numerical derivatives, relative to the largest derivative of each parameter. */
function derivativeError(problem: Problem, at: readonly number[], parts: readonly number[]): number {
  const { jacobian } = evaluated(problem, at);
  let worst = 0;
  at.forEach((value, j) => {
    const h = parts[j]!;
    const f = (by: number) =>
      evaluated(
        problem,
        at.map((each, i) => (i === j ? value + by : each)),
      ).predicted;
    // Sixth-order central differences.
    const points = [-3, -2, -1, 1, 2, 3].map((k) => f(k * h));
    const weights = [-1, 9, -45, 45, -9, 1];
    const column = jacobian.subarray(j * problem.points, (j + 1) * problem.points);
    const scale = column.reduce((most, each) => Math.max(most, Math.abs(each)), 0);
    expect(scale, `parameter ${j} has an effect`).toBeGreaterThan(0);
    column.forEach((exact, k) => {
      const numerical = points.reduce((sum, p, i) => sum + weights[i]! * p[k]!, 0) / (60 * h);
      worst = Math.max(worst, Math.abs(exact - numerical) / scale);
    });
  });
  return worst;
}

describe('the derivatives of the models', () => {
  const data = mixedData();
  const full = prepareData(data, {}, everything);
  // Rounding of 300 K over a step that moves the curve by about 1 K: 1e-13 or so times the weights.
  const close = 1e-9;

  it.each([0.0002, 0.01, 0.2])('of one node are exact at a loss rate of %d 1/s', (rate) => {
    const problem = oneNodeProblem(full);
    expect(derivativeError(problem, [6e-5, rate, 288], [1e-6, rate / 100, 0.3])).toBeLessThan(close);
  });

  it('of one node are exact where nothing is lost, and where the power is a step', () => {
    const step = prepareData({ ...data, power: { ...data.power!, between: 'step' } }, {}, everything);
    for (const each of [full, step])
      expect(derivativeError(oneNodeProblem(each), [6e-5, 0, 288], [1e-6, 1e-6, 0.3])).toBeLessThan(close);
  });

  it('of a cool-down and an approach are exact', () => {
    const room = prepareData(data, {}, roomOnly);
    expect(derivativeError(coolDownProblem(room), [330, 4000], [0.3, 40])).toBeLessThan(close);
    expect(derivativeError(approachProblem(room), [340, 290, 1700], [0.3, 0.3, 17])).toBeLessThan(close);
  });

  it('of an open vessel are exact', () => {
    const timesS = Array.from({ length: 200 }, (_, i) => 17 * i);
    const temperature = { timesS, temperaturesK: timesS.map((t) => 295 + 60 * Math.exp(-t / 4000)) };
    const open = prepareData({ temperature, ambient: data.ambient! }, {}, roomOnly);
    const vessel = openVessel(open, { lostKg: 0.05, relativeHumidity: 0.4 }, 9000);
    expect(derivativeError(openCoolDownProblem(open, vessel), [354, 6000], [0.1, 40])).toBeLessThan(close);
  });

  it.each([
    ['a light body', 0, 0.02],
    ['a heavy body', 0.4, 0.005],
    ['a body coupled as slowly as the load cools', 0, 0.0003],
    ['a quick body', 0.1, 0.5],
  ])('of two nodes are exact for %s', (_name, ratio, coupling) => {
    const problem = twoNodeProblem(full, ratio, true);
    const at = [6e-5, 3e-4, coupling, 288, 0.01];
    expect(derivativeError(problem, at, [1e-6, 3e-6, coupling / 100, 0.3, 1e-3])).toBeLessThan(close);
  });
});

/** Temperatures of body and load by Runge and Kutta in very short steps, at the readings: nothing is shared with the models. */
function integrated(
  data: ThermalData,
  it: { kappa: number; ua: number; C: number; Cb: number; G: number; startK: number },
): number[] {
  const line = (times: ArrayLike<number>, values: ArrayLike<number>, t: number) => {
    let i = 0;
    while (i < times.length - 2 && times[i + 1]! <= t) i += 1;
    const part = (t - times[i]!) / (times[i + 1]! - times[i]!);
    return values[i]! + Math.min(1, Math.max(0, part)) * (values[i + 1]! - values[i]!);
  };
  const room = data.ambient as Exclude<ThermalData['ambient'], number | undefined>;
  const rate = (t: number, [body, load]: readonly [number, number]): [number, number] => {
    const flow = it.G * (body - load);
    const loss = it.ua * (load - line(room.timesS, room.temperaturesK, t));
    return [
      (it.kappa * line(data.power!.timesS, data.power!.powerW, t) - flow) / it.Cb,
      (flow - loss) / it.C,
    ];
  };
  let state: [number, number] = [it.startK, it.startK];
  const { timesS } = data.temperature;
  return Array.from(timesS, (to, i) => {
    if (i === 0) return state[1];
    const steps = 40;
    const h = (to - timesS[i - 1]!) / steps;
    for (let n = 0; n < steps; n += 1) {
      const t = timesS[i - 1]! + n * h;
      const at = (by: number, slope: readonly number[]): [number, number] => [
        state[0] + by * slope[0]!,
        state[1] + by * slope[1]!,
      ];
      const a = rate(t, state);
      const b = rate(t + h / 2, at(h / 2, a));
      const c = rate(t + h / 2, at(h / 2, b));
      const d = rate(t + h, at(h, c));
      state = [0, 1].map((j) => state[j]! + (h / 6) * (a[j]! + 2 * b[j]! + 2 * c[j]! + d[j]!)) as [
        number,
        number,
      ];
    }
    return state[1];
  });
}

/** The model at every reading: blocks as short as the interval of the readings, so that each holds one. */
const perReading = (data: ThermalData, needs = everything) => prepareData(data, { blockS: 1e-3 }, needs);

describe('the solutions of the models', () => {
  const data = mixedData(900);

  it('agree with an integrator of its own for two nodes', () => {
    const it = { kappa: 0.9, ua: 2, C: 9000, Cb: 1800, G: 20, startK: 289 };
    const prepared = perReading(data);
    expect(prepared.share.length).toBe(prepared.timesS.length);
    const total = it.C + it.Cb;
    const at = [it.kappa / total, it.ua / total, it.G * (1 / it.C + 1 / it.Cb), it.startK];
    const { predicted } = evaluated(twoNodeProblem(prepared, it.Cb / it.C, false), at);
    const other = integrated(data, it);
    // Kinks of the power fall inside its steps of 0.18 s. The two great ones bend it by 210 W/s: 210·0.18²/8/1800 = 5e-4 K each in the body.
    predicted.forEach((value, k) => {
      expect(Math.abs(value - other[k]!)).toBeLessThan(2e-3);
    });
  });

  it('of two nodes become those of one when the coupling is very quick', () => {
    const prepared = perReading(data);
    const one = evaluated(oneNodeProblem(prepared), [6e-5, 3e-4, 289]).predicted;
    const gap = (coupling: number) => {
      const two = evaluated(twoNodeProblem(prepared, 0.3, false), [6e-5, 3e-4, coupling, 289]).predicted;
      return one.reduce((most, value, k) => Math.max(most, Math.abs(value - two[k]!)), 0);
    };
    // The load lags by 1/c at 0.055 K/s.
    expect(gap(1)).toBeLessThan(0.06);
    expect(gap(100)).toBeLessThan(6e-4);
    expect(gap(100) / gap(1)).toBeLessThan(0.02);
  });

  it('pass through equal eigenvalues as if they were nothing special', () => {
    const prepared = perReading(data);
    const at = (coupling: number) =>
      evaluated(twoNodeProblem(prepared, 0, false), [6e-5, 3e-4, coupling, 289]);
    const [below, equal, above] = [3e-4 * (1 - 1e-6), 3e-4, 3e-4 * (1 + 1e-6)].map(at);
    equal!.predicted.forEach((value, k) => {
      expect(Math.abs(value - (below!.predicted[k]! + above!.predicted[k]!) / 2)).toBeLessThan(1e-9);
    });
    equal!.jacobian.forEach((value) => {
      expect(Number.isFinite(value)).toBe(true);
    });
  });

  it('keep all energy where nothing is lost', () => {
    const prepared = perReading({ ...data, ambient: 293 });
    const rate = 6e-5;
    const { predicted } = evaluated(oneNodeProblem(prepared), [rate, 0, 289]);
    const { timesS, powerW } = data.power!;
    let joules = 0;
    const from = data.temperature.timesS[0]!;
    const to = data.temperature.timesS[data.temperature.timesS.length - 1]!;
    for (let i = 1; i < timesS.length; i += 1) {
      const [t0, t1] = [Math.max(from, timesS[i - 1]!), Math.min(to, timesS[i]!)];
      if (!(t1 > t0)) continue;
      const slope = (powerW[i]! - powerW[i - 1]!) / (timesS[i]! - timesS[i - 1]!);
      joules += (t1 - t0) * (powerW[i - 1]! + slope * ((t0 + t1) / 2 - timesS[i - 1]!));
    }
    expect(predicted[predicted.length - 1]! - 289).toBeCloseTo(rate * joules, 9);
  });

  it('book what came in as what was kept and what was lost', () => {
    // With readings each 0.5 s the trapezoid of the loss is good to (0.5·3e-4)²/12 of it.
    const timesS = Array.from({ length: 2401 }, (_, i) => 0.5 * i);
    const prepared = perReading({
      temperature: { timesS, temperaturesK: timesS.map((t) => 289 + 0.01 * t) },
      power: { timesS: [0, 1200], powerW: [800, 1000] },
      ambient: 293,
    });
    const { predicted } = evaluated(oneNodeProblem(prepared), [6e-5, 3e-4, 289]);
    let lost = 0;
    for (let i = 1; i < timesS.length; i += 1) lost += 0.25 * (predicted[i]! + predicted[i - 1]! - 2 * 293);
    expect(predicted[2400]! - 289).toBeCloseTo(6e-5 * 900 * 1200 - 3e-4 * lost, 6);
  });

  it('stay where they are in the steady state', () => {
    const timesS = Array.from({ length: 100 }, (_, i) => 30 * i);
    const steady = {
      temperature: { timesS, temperaturesK: timesS.map((t) => 313 + t * 1e-6) },
      power: { timesS: [0, 3000], powerW: [100, 100] },
      ambient: 293,
    };
    const prepared = perReading(steady);
    const one = evaluated(oneNodeProblem(prepared), [6e-5, 3e-4, 293 + 20]);
    one.predicted.forEach((value) => {
      expect(value).toBeCloseTo(313, 9);
    });
    // Two nodes: q = A·P + r·B·(T − Ta) at rest, so that what flows in is what is lost.
    const q = 6e-5 * 100 + 0.2 * 3e-4 * 20;
    const two = evaluated(twoNodeProblem(prepared, 0.2, true), [6e-5, 3e-4, 0.01, 313, q]);
    two.predicted.forEach((value) => {
      expect(value).toBeCloseTo(313, 9);
    });
  });

  it('of an open vessel without vapour are those of a closed one', () => {
    const timesS = Array.from({ length: 300 }, (_, i) => 20 * i);
    const temperature = { timesS, temperaturesK: timesS.map((t) => 295 + 55 * Math.exp(-t / 4000)) };
    const prepared = perReading({ temperature, ambient: mixedData(7000).ambient! }, roomOnly);
    const vessel = openVessel(prepared, { lostKg: 0, relativeHumidity: 0.4 }, 9000);
    const open = evaluated(openCoolDownProblem(prepared, vessel), [350, 5000]).predicted;
    const closed = evaluated(coolDownProblem(prepared), [350, 5000]).predicted;
    open.forEach((value, k) => {
      expect(value).toBeCloseTo(closed[k]!, 8);
    });
  });

  it('of an open vessel lose the mass that was weighed', () => {
    const timesS = Array.from({ length: 721 }, (_, i) => 10 * i);
    const C = 9000;
    const curve = {
      temperature: { timesS, temperaturesK: timesS.map((t) => 295 + 60 * Math.exp(-t / 3000)) },
      ambient: 295,
    };
    const first = perReading(curve, roomOnly);
    const vessel = openVessel(first, { lostKg: 0.06, relativeHumidity: 0.5 }, C);
    const { predicted } = evaluated(openCoolDownProblem(first, vessel), [355, 6000]);
    const cooled = predicted[0]! - predicted[720]!;
    let dry = 0;
    for (let i = 1; i <= 720; i += 1) dry += 5 * (predicted[i]! + predicted[i - 1]! - 590);
    // Latent heat is 2.31 to 2.43 MJ/kg here (steam tables): what cooling the dry loss leaves is the vapour's.
    const vapourJ = C * (cooled - dry / 6000);
    const own = openVessel({ ...first, temperaturesK: predicted }, { lostKg: 1, relativeHumidity: 0.5 }, C);
    const lostKg = vessel.rate / own.rate;
    expect(vapourJ / lostKg).toBeGreaterThan(2.3e6);
    expect(vapourJ / lostKg).toBeLessThan(2.44e6);
  });
});

describe('the quick road through many nodes', () => {
  it('gives what the road from node to node gives, derivatives too', () => {
    const timesS = Array.from({ length: 3601 }, (_, i) => i);
    const data: ThermalData = {
      temperature: {
        timesS: timesS.filter((t) => t % 3 === 0),
        temperaturesK: timesS.filter((t) => t % 3 === 0).map((t) => 290 + t / 90),
      },
      power: { timesS, powerW: timesS.map((t) => (t % 700 < 400 ? 900 + 9 * Math.sin(t) : 1)) },
      ambient: mixedData(4000).ambient!,
    };
    const leaveOut = [{ fromS: 500, toS: 1100 }];
    const prepared: Prepared = prepareData(data, { leaveOut }, everything);
    const n = prepared.share.length;
    const sums = () => ({
      predicted: new Float64Array(n),
      byHeating: new Float64Array(n),
      byLoss: new Float64Array(n),
      byStart: new Float64Array(n),
    });
    const line = prepared.timeline!;
    const segments = segmentsOf(line, 90);
    for (const [near, b] of [
      [2e-4, 2.3e-4],
      [1e-3, 1.02e-3],
      [0, 2e-5],
    ] as const) {
      const plain = sums();
      const quick = sums();
      firstOrderPass(line, prepared.share, 6e-5, b, -4, plain);
      momentPass(momentsOf(line, segments, prepared.share, near), 6e-5, b, -4, quick);
      for (const name of ['predicted', 'byHeating', 'byLoss', 'byStart'] as const) {
        const scale = plain[name].reduce((most, value) => Math.max(most, Math.abs(value)), 0);
        // Rounding of some thousand steps.
        plain[name].forEach((value, k) => {
          expect(Math.abs(value - quick[name][k]!) / scale).toBeLessThan(3e-12);
        });
      }
    }
  });
});

describe('the φ functions', () => {
  it('fit together at the border of the series, and have their values', () => {
    const [below, above] = [-0.5 + 1e-12, -0.5 - 1e-12].map((x) => {
      const out = new Float64Array(4);
      phi(x, out);
      return out;
    });
    below!.forEach((value, k) => {
      expect(value).toBeCloseTo(above![k]!, 11);
    });
    const one = new Float64Array(4);
    phi(-1, one);
    expect([...one]).toEqual(
      [Math.exp(-1), 1 - Math.exp(-1), Math.exp(-1), 0.5 - Math.exp(-1)].map((v) => expect.closeTo(v, 14)),
    );
  });
});
