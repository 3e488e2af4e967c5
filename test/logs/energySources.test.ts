import { describe, expect, it } from 'vitest';
import { counterAgainstPower, energyUncertainty, onOffEdges } from '../../src/logs/index.js';
import { logOf, powerLog } from './exportOf.js';
import { draws, logFrom, seconds } from './simulated.js';

type Asked = Parameters<typeof energyUncertainty>[1];

const sourcesOf = (log: Parameters<typeof energyUncertainty>[0], asked: Asked) => {
  const found = energyUncertainty(log, asked);
  return {
    ...found,
    u: Object.fromEntries(found.sources.map((each) => [each.name, each.standardUncertaintyJ])),
    evidence: Object.fromEntries(found.sources.map((each) => [each.name, each.evidence])),
  };
};

describe('the sources of an energy', () => {
  const steady = powerLog(seconds(601).map((t) => [t, 900] as const));
  it('are gain and offset as stated, and steps', () => {
    const { u, combinedJ, notStated } = sourcesOf(steady, {
      fromS: 0,
      toS: 600,
      meter: { gain: 0.01, offsetW: 0.5, digitW: 0.2 },
    });
    // 1 % of 540 kJ and 0.5 W over 600 s, half-widths; half of 0.2 W over 600 s as all readings stand alike.
    expect(u.gain).toBeCloseTo(5400 / Math.sqrt(3), 8);
    expect(u.offset).toBeCloseTo(300 / Math.sqrt(3), 8);
    expect(u.quantisation).toBeCloseTo(120 / Math.sqrt(12), 8);
    expect([u.sampling, u.aliasing, u.gaps]).toEqual([0, 0, 0]);
    expect(combinedJ).toBeCloseTo(
      Math.hypot(5400 / Math.sqrt(3), 300 / Math.sqrt(3), 120 / Math.sqrt(12)),
      8,
    );
    expect(notStated).toEqual([]);
  });
  it('are not zero where nothing is stated', () => {
    const { u, evidence, notStated } = sourcesOf(steady, { fromS: 0, toS: 600 });
    expect([u.gain, u.offset]).toEqual([null, null]);
    expect(evidence.gain).toBe('not stated');
    expect(notStated).toEqual(['gain', 'offset']);
    // Steps of 1 W in the file.
    expect(u.quantisation).toBeCloseTo(600 / Math.sqrt(12), 8);
  });
  it('are aliasing where all cycles are equal in readings', () => {
    // 10 s on, 20 s off, from on to on: the whole log is within the limits.
    const log = powerLog(seconds(300).map((t) => [t, t % 30 < 10 ? 900 : 0] as const));
    const { u, evidence } = sourcesOf(log, { fromS: 0, toS: 299 });
    // Ten falls and nine rises, 1 s wide, each of 900 W. Free: 19 of them; alike: 10 falls together, 9 rises together.
    const alike = (10 ** 2 + 9 ** 2) / 12;
    expect(u.sampling).toBeCloseTo(900 * Math.sqrt(19 / 12), 8);
    expect(Math.hypot(u.sampling!, u.aliasing!)).toBeCloseTo(900 * Math.sqrt(alike), 8);
    expect(evidence.aliasing).toMatch(/equal numbers of readings/);
  });
  it('are aliasing where cycles may be missed', () => {
    // On in two of five readings at a time, at random places: single readings on and off are the rule.
    const random = draws(31);
    const on = seconds(1001).map(() => random() < 0.4);
    const log = powerLog(on.map((each, t) => [t, each ? 900 : 0] as const));
    const { u, evidence } = sourcesOf(log, { fromS: 0, toS: 1000 });
    const share = on.filter(Boolean).length / 1001;
    // A binomial count of 1001 readings over 1000 s; the share by time differs from that by count by a reading or so.
    const drawn = 900 * 1000 * Math.sqrt((share * (1 - share)) / 1001);
    expect(Math.hypot(u.sampling!, u.aliasing!) / drawn).toBeGreaterThan(0.99);
    expect(Math.hypot(u.sampling!, u.aliasing!) / drawn).toBeLessThan(1.01);
    expect(evidence.aliasing).toMatch(/whole cycles may lie between two readings/);
  });
  it('have no aliasing where each reading is a mean', () => {
    const log = powerLog(
      seconds(100).map((t) => [t, t % 2 ? 900 : 0] as const),
      'P avg [W]',
    );
    const { u, evidence } = sourcesOf(log, { fromS: 0, toS: 99 });
    expect(u.aliasing).toBe(0);
    expect(evidence.aliasing).toMatch(/mean over its interval/);
  });
  describe('of a gap that was bridged', () => {
    const gappy = (extra: (t: number) => string, header: string) =>
      logOf(
        `t [s],P [W]${header}\n${seconds(800)
          .filter((t) => t < 300 || t > 339)
          .map((t) => `${t},${t >= 100 && t < 700 ? 900 : 0}${extra(t)}`)
          .join('\n')}\n`,
      );
    it('are up to the whole range from off to on, about the bridged value', () => {
      const { u, evidence } = sourcesOf(
        gappy(() => '', ''),
        { fromS: 99.5, toS: 699.5 },
      );
      // 41 s from 299 s to 340 s, bridged at 900 W; true is anything from 0 to 900 W: 900·41/√3.
      expect(u.gaps).toBeCloseTo((900 * 41) / Math.sqrt(3), 6);
      expect(evidence.gaps).toMatch(/^1 gap of 41 s in all, the longest from 4:59 to 5:40 after the start/);
    });
    it('are the steps of the counter where it went on', () => {
      // The counter says that the heater stayed on: 41 s of 900 W are 10.25 Wh.
      const counter = (t: number) => `,${((Math.min(Math.max(t, 99.5), 699.5) - 99.5) / 4).toFixed(2)}`;
      const { u } = sourcesOf(gappy(counter, ',E [Wh]'), { fromS: 99.5, toS: 699.5 });
      // Readings at 299 and 340 s are 49.875 and 60.125 Wh, shown in hundredths: 10.24 to 10.26 Wh against 10.25.
      expect(u.gaps).toBeLessThanOrEqual(Math.hypot(0.01, 0.01 / Math.sqrt(6)) * 3600 + 1e-6);
      expect(u.gaps).toBeGreaterThanOrEqual((0.01 / Math.sqrt(6)) * 3600 - 1e-6);
    });
  });
});

describe('the counter against the power', () => {
  /** 900 W from 100 s to 700 s and a counter of hundredths of a watt-hour, which may be falsified. */
  const log = (falsify: (wattHours: number, t: number) => number) =>
    logFrom({
      timesS: seconds(800),
      powerW: seconds(800).map((t) => (t >= 100 && t < 700 ? 900 : 0)),
      energyWh: seconds(800).map((t) => {
        const passed = Math.min(Math.max(t, 99.5), 699.5) - 99.5;
        return Number(falsify(passed / 4, t).toFixed(2));
      }),
    });
  const limits = (each: ReturnType<typeof log>) => {
    const { onS: fromS, offS: toS } = onOffEdges(each);
    return { fromS, toS };
  };
  it('agrees where both see the same', () => {
    const each = log((wattHours) => wattHours);
    const found = counterAgainstPower(each, limits(each))!;
    // From 99 s to 700 s both are 150 Wh.
    expect(found.integralJ).toBeCloseTo(540_000, 6);
    expect(found.counterJ).toBeCloseTo(540_000, 6);
    expect(found).toMatchObject({ verdict: 'agree', parting: null });
    expect(found.words).toBe('The integral of the power is 150 Wh, the counter rose by 150 Wh: they agree.');
    // Steps of 36 J twice; readings of 1 W that stand still over 601 s, and two switchings of 900 W within 1 s.
    const u = Math.hypot(36 / Math.sqrt(6), 601 / Math.sqrt(12), 900 * Math.sqrt(2 / 12));
    expect(found.standardUncertaintyJ).toBeCloseTo(u, 6);
  });
  it('contradicts it where the counter missed a stretch, and says where', () => {
    // From 300 s on the counter stands for 40 s: 10 Wh are missing.
    const each = log((wattHours, t) => (t < 300 ? wattHours : Math.max(50.13, wattHours - 10)));
    const found = counterAgainstPower(each, limits(each))!;
    expect(found.verdict).toBe('contradict');
    expect(found.differenceJ / 3600).toBeCloseTo(10, 1);
    expect(Math.abs(found.parting!.fromS - 300)).toBeLessThanOrEqual(2);
    expect(Math.abs(found.parting!.toS - 340)).toBeLessThanOrEqual(2);
    expect(found.words).toMatch(
      /differ by 10 Wh, where .* can be explained\. They part by 10 Wh from 5:00 to 5:40/,
    );
  });
  it('contradicts it all along where the counter counts too little', () => {
    const each = log((wattHours) => 0.97 * wattHours);
    const found = counterAgainstPower(each, limits(each))!;
    expect(found.verdict).toBe('contradict');
    expect(found.words).toMatch(/They part all along: the counter counts 3.1 % too little/);
  });
  it('is null where one is missing', () => {
    expect(
      counterAgainstPower(
        powerLog([
          [0, 900],
          [1, 900],
        ]),
        { fromS: 0, toS: 1 },
      ),
    ).toBeNull();
  });
  it('agrees within three standard uncertainties in 99.7 % of good logs', () => {
    const random = draws(32);
    let beyond = 0;
    for (let n = 0; n < 150; n++) {
      const every = 1 + 4 * random();
      const [onS, offS] = [50 + 20 * random(), 400 + 100 * random()];
      const times = seconds(Math.floor(600 / every)).map((i) => Number((i * every).toFixed(3)));
      const passedJ = (t: number) => 903.4 * (Math.min(Math.max(t, onS), offS) - onS);
      const each = logFrom({
        timesS: times,
        powerW: times.map((t) => (t >= onS && t < offS ? Math.round(903.4) : 0)),
        energyWh: times.map((t) => Math.floor(passedJ(t) / 360) / 10),
      });
      if (counterAgainstPower(each, limits(each))!.ratio > 1.5) beyond++;
    }
    // At 0.3 % one in 150 is to be expected at most every second time, four hardly ever (Poisson of 0.45: 0.1 %).
    expect(beyond).toBeLessThan(4);
  });
});
