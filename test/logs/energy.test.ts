import { describe, expect, it } from 'vitest';
import { counterEnergy, integrateEnergy, logSummary, onOffEdges, readExport } from '../../src/logs/index.js';
import { corpus, errorOf, logOf, powerLog } from './exportOf.js';

const seconds = (n: number) => Array.from({ length: n }, (_, i) => i);
/** 1 W standby, 900 W from 100 s to 699 s, 1 W again; one reading a second. */
const heating = powerLog(seconds(800).map((t) => [t, t >= 100 && t < 700 ? 900 : 1] as const));

describe('switch-on and switch-off', () => {
  it('lie in the middle between the samples around them', () => {
    const edges = onOffEdges(heating);
    expect(edges).toMatchObject({
      onS: 99.5,
      offS: 699.5,
      standbyW: 1,
      onW: 900,
      startsOn: false,
      endsOn: false,
    });
    expect(edges.onBracketS).toEqual([99, 100]);
    expect(edges.offBracketS).toEqual([699, 700]);
    // A tenth of the way from 1 W to 900 W.
    expect(edges.thresholdW).toBeCloseTo(90.9, 10);
  });
  it('take in the pauses of a thermostat', () => {
    const edges = onOffEdges(
      powerLog(seconds(900).map((t) => [t, t >= 100 && t < 800 && t % 60 < 20 ? 900 : 0.5] as const)),
    );
    expect([edges.onS, edges.offS]).toEqual([119.5, 799.5]);
  });
  it('take in a holding stage at a fifth of full power', () => {
    const edges = onOffEdges(
      powerLog(seconds(900).map((t) => [t, t < 50 ? 2 : t < 300 ? 900 : t < 700 ? 180 : 2] as const)),
    );
    expect([edges.onS, edges.offS]).toEqual([49.5, 699.5]);
  });
  it('are found where heating is a small part of the log', () => {
    const edges = onOffEdges(
      powerLog(seconds(20_000).map((t) => [t, t >= 5000 && t < 5060 ? 900 : 1] as const)),
    );
    expect([edges.onS, edges.offS]).toEqual([4999.5, 5059.5]);
  });
  it('are not moved by one spoilt spike', () => {
    const rows = seconds(800).map((t) => [t, t === 400 ? 90_000 : t >= 100 && t < 700 ? 900 : 1] as const);
    expect(onOffEdges(powerLog(rows))).toMatchObject({ onS: 99.5, offS: 699.5, onW: 900 });
  });
  it('say where the log begins or ends within the heating', () => {
    const edges = onOffEdges(powerLog(seconds(50).map((t) => [t, 900] as const)));
    expect(edges).toMatchObject({ onS: 0, offS: 49, startsOn: true, endsOn: true, standbyW: null });
  });
  it('skip readings that are missing', () => {
    const log = powerLog([
      [0, 1],
      [1, 1],
      [2, 'OL'],
      [3, 900],
      [4, 900],
      [5, '-'],
      [6, 1],
    ]);
    expect(onOffEdges(log)).toMatchObject({ onBracketS: [1, 3], offBracketS: [4, 6] });
  });
  it.each([
    ['standby only', powerLog(seconds(50).map((t) => [t, 1 + (t % 2)] as const))],
    ['one reading', powerLog([[0, 900]])],
  ])('are not there: %s', (_name, log) => {
    expect(errorOf(() => onOffEdges(log)).code).toBe('log-no-heating');
  });
  it('need power or a counter', () => {
    expect(errorOf(() => onOffEdges(readExport(corpus('temperature-only.csv')))).code).toBe('log-no-power');
  });
});

describe('energy by integration', () => {
  it('of a constant power is power times time, exactly', () => {
    const log = powerLog(seconds(601).map((t) => [t * 2, 900] as const));
    const energy = integrateEnergy(log, { fromS: 0, toS: 1200 });
    expect(energy).toMatchObject({
      energyJ: 1_080_000,
      meanPowerW: 900,
      samples: 601,
      longestGapS: 2,
      gaps: [],
      method: 'trapezoid',
    });
    expect(energy.samplingUJ).toBe(0);
    // All readings stand still, so all may be off by the same: 1 W / √12 over 1200 s.
    expect(energy.quantisationUJ).toBeCloseTo(1200 / Math.sqrt(12), 10);
  });
  it('of a ramp by the trapezoid is exact, also between samples', () => {
    const log = powerLog(seconds(101).map((t) => [t, 10 * t] as const));
    // ∫ 10 t dt = 5 (b² − a²)
    expect(integrateEnergy(log, { fromS: 0, toS: 100 }).energyJ).toBeCloseTo(50_000, 8);
    expect(integrateEnergy(log, { fromS: 2.5, toS: 61.25 }).energyJ).toBeCloseTo(
      5 * (61.25 ** 2 - 2.5 ** 2),
      8,
    );
    expect(integrateEnergy(log, { fromS: 10.2, toS: 10.6 }).energyJ).toBeCloseTo(
      5 * (10.6 ** 2 - 10.2 ** 2),
      8,
    );
  });
  it('of a switched power counts half an interval at each edge, without standby', () => {
    const { onS: fromS, offS: toS } = onOffEdges(heating);
    const energy = integrateEnergy(heating, { fromS, toS });
    expect(energy.energyJ).toBe(900 * 600);
    // Either edge may lie anywhere in its second: 899 W · 1 s / √12, twice.
    expect(energy.samplingUJ).toBeCloseTo(Math.sqrt(2 / 12) * 899, 8);
  });
  it('rises by 10 % when the power does, to the last digit', () => {
    const text = (scale: number) =>
      `t [s],P [W]\n${seconds(500)
        .map((t) => `${t},${t > 50 && t < 450 ? ((9000 + (t % 7)) * scale) / 100 : (20 * scale) / 100}`)
        .join('\n')}\n`;
    const [plain, more] = [10, 11].map((scale) => {
      const log = logOf(text(scale));
      const { onS: fromS, offS: toS } = onOffEdges(log);
      return integrateEnergy(log, { fromS, toS }).energyJ;
    });
    // Rounding of some 500 additions in double precision.
    expect(Math.abs(more! / plain! - 1.1)).toBeLessThan(500 * 2 ** -52);
  });
  it('takes steps where the header speaks of means, and then has no doubt at the edges', () => {
    // 100 W·s of a switch-on at 2.6 s fall in the interval that ends at 3 s: mean 0.4 · 900 W.
    const log = powerLog(
      [
        [0, 0],
        [1, 0],
        [2, 0],
        [3, 360],
        [4, 900],
        [5, 900],
        [6, 540],
        [7, 0],
        [8, 0],
      ],
      'P avg [W]',
    );
    const { onS: fromS, offS: toS } = onOffEdges(log);
    const energy = integrateEnergy(log, { fromS, toS });
    expect(energy.method).toBe('step');
    expect(energy.reason).toMatch(/mean/);
    // On from 2.6 s to 5.6 s.
    expect(energy.energyJ).toBeCloseTo(900 * 3, 8);
    expect(energy.samplingUJ).toBe(0);
  });
  it('treats the readings of a wandering power as independent', () => {
    const log = powerLog(seconds(101).map((t) => [t, 900 + 7 * (t % 13)] as const));
    expect(log.resolution.powerW).toBe(7);
    expect(integrateEnergy(log, { fromS: 0, toS: 100 }).quantisationUJ).toBeCloseTo(
      (7 / Math.sqrt(12)) * 10,
      8,
    );
  });
  it('lists a short gap and refuses a long one', () => {
    const without = (from: number, to: number) =>
      powerLog(
        seconds(800)
          .filter((t) => t < from || t > to)
          .map((t) => [t, 900] as const),
      );
    const bridged = integrateEnergy(without(300, 339), { fromS: 0, toS: 799 });
    expect(bridged.gaps).toEqual([{ fromS: 299, toS: 340 }]);
    expect(bridged.longestGapS).toBe(41);
    expect(bridged.energyJ).toBe(799 * 900);
    const error = errorOf(() => integrateEnergy(without(300, 400), { fromS: 0, toS: 799 }));
    expect(error.code).toBe('log-gap');
    expect(error.message).toMatch(/102 s \(from 299 s to 401 s/);
    // Outside the interval it does no harm.
    expect(integrateEnergy(without(300, 400), { fromS: 410, toS: 500 }).gaps).toEqual([]);
  });
  it('bridges up to 2 % of a long interval', () => {
    const log = powerLog(
      seconds(10_000)
        .filter((t) => t < 300 || t > 400)
        .map((t) => [t, 900] as const),
    );
    expect(integrateEnergy(log, { fromS: 0, toS: 9999 }).gaps.length).toBe(1);
  });
  it('refuses an interval that the log does not cover', () => {
    expect(errorOf(() => integrateEnergy(heating, { fromS: 100, toS: 900 })).code).toBe('log-not-covering');
    expect(errorOf(() => integrateEnergy(heating, { fromS: 100, toS: 100 })).code).toBe('log-not-covering');
  });
});

describe('energy by the counter', () => {
  const counter = (unit: string, ...readings: (number | string)[]) =>
    logOf(`t [s],E [${unit}]\n${readings.map((reading, index) => `${60 * index},${reading}`).join('\n')}\n`);
  it('is the difference around the interval', () => {
    const log = counter('Wh', '10.0', '25.0', '40.0', '55.0');
    expect(counterEnergy(log, { fromS: 60, toS: 120 })).toEqual({
      energyJ: 15 * 3600,
      resolutionJ: 360,
      resets: 0,
      wraps: 0,
    });
    expect(counterEnergy(log, { fromS: 70, toS: 110 })!.energyJ).toBe(15 * 3600);
  });
  it('follows an overflow', () => {
    const energy = counterEnergy(counter('kWh', '99.97', '99.99', '0.01', '0.03'), { fromS: 0, toS: 180 })!;
    expect(energy.energyJ / 3.6e6).toBeCloseTo(0.06, 10);
    expect([energy.wraps, energy.resets]).toEqual([1, 0]);
  });
  it('follows a reset', () => {
    const energy = counterEnergy(counter('kWh', '55.00', '55.02', '0.00', '0.02'), { fromS: 0, toS: 180 })!;
    expect(energy.energyJ / 3.6e6).toBeCloseTo(0.04, 10);
    expect([energy.wraps, energy.resets]).toEqual([0, 1]);
  });
  it('skips readings that are missing', () => {
    expect(counterEnergy(counter('Wh', '1.0', '-', '3.0'), { fromS: 0, toS: 120 })!.energyJ).toBe(7200);
  });
  it('refuses a counter that falls otherwise', () => {
    const error = errorOf(() => counterEnergy(counter('Wh', '50.0', '40.0'), { fromS: 0, toS: 60 }));
    expect(error.code).toBe('log-counter-falls');
    expect(error.message).toMatch(/50 Wh to 40 Wh at 60 s/);
  });
  it('is null without a counter', () => {
    expect(counterEnergy(heating, { fromS: 0, toS: 100 })).toBeNull();
  });
  it('alone gives the heating interval within one tick', () => {
    // 900 W from 600 s to 3000 s: 600 Wh in whole Wh, one tick in 4 s, one row in 4 s.
    const log = readExport(corpus('counter-only.csv'));
    const edges = onOffEdges(log);
    expect(Math.abs(edges.onS - 600)).toBeLessThanOrEqual(4);
    expect(Math.abs(edges.offS - 3000)).toBeLessThanOrEqual(4);
    expect(edges.onW).toBeCloseTo(900, 8);
    expect(logSummary(log).energyWh).toBe(600);
  });
});

describe('the summary', () => {
  it('has the energy of the heating interval and the columns by role', () => {
    const summary = logSummary(heating);
    expect(summary).toMatchObject({
      rows: 800,
      durationS: 799,
      energyWh: 150,
      meanPowerW: 900,
      warnings: [],
    });
    expect(summary.columns.power).toEqual({
      header: 'P [W]',
      unit: 'W',
      column: 2,
      evidence: 'header says "P [W]"',
    });
  });
  it('says why there is no energy', () => {
    const summary = logSummary(
      powerLog([
        [0, 1],
        [1, 1.2],
        [2, 1],
      ]),
    );
    expect(summary.energyWh).toBeNull();
    expect(summary.warnings).toEqual([expect.stringMatching(/No heating/)]);
  });
  it('has none of a thermometer', () => {
    expect(logSummary(readExport(corpus('temperature-only.csv')))).toMatchObject({
      energyWh: null,
      meanPowerW: null,
      warnings: [],
    });
  });
});
