import { describe, expect, it } from 'vitest';
import { dutyCycle, energyUncertainty, logSummary, onOffEdges } from '../../src/logs/index.js';
import { corpus, powerLog } from './exportOf.js';
import { draws, quickPower, seconds } from './simulated.js';
import { readExport } from '../../src/logs/index.js';

/** On from 100 s for 60 of every 150 s, the last time from 1000 s to 1059 s; one reading a second. */
const cycling = powerLog(
  seconds(1200).map((t) => [t, t >= 100 && t < 1060 && (t - 100) % 150 < 60 ? 900 : 2] as const),
);

describe('the duty cycle of a thermostat', () => {
  const { onS: fromS, offS: toS } = onOffEdges(cycling);
  const found = dutyCycle(cycling, { fromS, toS });
  it('has powers, cycle time, share and mean', () => {
    // Switch-on at 99.5, 249.5, ... 999.5 s: seven on phases of 60 s and six pauses of 90 s in 960 s.
    expect([fromS, toS]).toEqual([99.5, 1059.5]);
    expect(found.dutyCycle).toMatchObject({ onW: 900, offW: 2, pauses: 6, cycleSpreadS: 0 });
    expect(found.dutyCycle!.cycleS).toBeCloseTo(150, 10);
    expect(found.dutyCycle!.onShare).toBeCloseTo((7 * 60) / 960, 10);
    expect(found.dutyCycle!.meanPowerW).toBeCloseTo((420 * 900 + 540 * 2) / 960, 8);
    expect(found.evidence).toMatch(/^6 pauses: 900 W on, 2 W off, one cycle in 150 s/);
  });
  it('has an uncertainty of the share that takes equal cycles to err alike', () => {
    // Six falls and six rises within the limits, all in cycles of 60 and 90 readings: 6 s wide each, together.
    // The first on run stands alone, since its beginning is a limit; its 60 readings are as many as the others'.
    expect(found.dutyCycle!.onShareU).toBeCloseTo(Math.sqrt((6 ** 2 + 6 ** 2) / 12) / 960, 10);
  });
  it('has one of independent switchings where the cycles differ', () => {
    const lengths = [50, 61, 72, 53, 64];
    const rows: [number, number][] = [[0, 2]];
    for (const length of lengths) {
      for (let i = 0; i < length; i++) rows.push([rows.length, 900]);
      for (let i = 0; i < 2 * length; i++) rows.push([rows.length, 2]);
    }
    const log = powerLog(rows);
    const limits = onOffEdges(log);
    const share = dutyCycle(log, { fromS: limits.onS, toS: limits.offS }).dutyCycle!;
    // Four pauses within the limits: eight switchings, each in a bracket of 1 s.
    expect(share.onShareU * (limits.offS - limits.onS)).toBeCloseTo(Math.sqrt(8 / 12), 10);
    expect(share.cycleSpreadS).toBeGreaterThan(10);
  });
  it('is in the summary', () => {
    expect(logSummary(cycling).dutyCycle).toEqual(found.dutyCycle);
    expect(logSummary(cycling).warnings).toEqual([]);
  });
  it.each([
    [
      'never pauses',
      powerLog(seconds(100).map((t) => [t, t > 9 && t < 90 ? 900 : 1] as const)),
      /never pauses/,
    ],
    [
      'pauses once',
      powerLog(seconds(100).map((t) => [t, t > 9 && t < 90 && (t < 40 || t > 60) ? 900 : 1] as const)),
      /only 1 time$/,
    ],
    ['has no power', readExport(corpus('counter-only.csv')), /no power/],
  ])('is none where the log %s', (_name, log, why) => {
    const { onS, offS } = onOffEdges(log);
    expect(dutyCycle(log, { fromS: onS, toS: offS })).toEqual({
      dutyCycle: null,
      evidence: expect.stringMatching(why),
    });
  });
});

interface Trial {
  readonly periodS: () => number;
  readonly jitter: number;
}

/** A load that cycles for 600 s, one reading a second; how far the integral is off, in its own uncertainties. */
function sampled(random: () => number, { periodS, jitter }: Trial) {
  const endS = 600;
  const [usualS, share] = [periodS(), 0.2 + 0.6 * random()];
  const switches: number[] = [];
  for (let t = -usualS * random(); t < endS; ) {
    const cycleS = usualS * (1 + jitter * (2 * random() - 1));
    switches.push(t, t + share * cycleS);
    t += cycleS;
  }
  let [passed, onS] = [0, 0];
  for (let i = 0; i < switches.length; i += 2)
    onS += Math.max(0, Math.min(endS, switches[i + 1]!) - Math.max(0, switches[i]!));
  const watts = seconds(endS + 1).map((t) => {
    while (passed < switches.length && switches[passed]! <= t) passed++;
    return passed % 2 === 1 ? 900 : 1;
  });
  if (!watts.includes(900)) return null;
  const found = energyUncertainty(quickPower(seconds(endS + 1), watts), { fromS: 0, toS: endS });
  const evidence = found.sources.find(({ name }) => name === 'aliasing')!.evidence;
  const trueJ = 900 * onS + (endS - onS);
  return { off: (found.energyJ - trueJ) / found.combinedJ, evidence };
}

function covered(seed: number, trial: Trial, counts: (evidence: string) => boolean) {
  const random = draws(seed);
  const offs: number[] = [];
  let blind = 0;
  for (let i = 0; i < 400; i++) {
    const found = sampled(random, trial);
    if (found && counts(found.evidence)) offs.push(Math.abs(found.off));
    else blind++;
  }
  return { share: offs.filter((off) => off <= 2).length / offs.length, trials: offs.length, blind };
}

describe('a cycling load that is sampled: two standard uncertainties hold the truth in 95 %', () => {
  // The share seen in n trials may lie three of its standard deviations lower: 0.95 − 3·√(0.95·0.05/n).
  const least = (n: number) => 0.95 - 3 * Math.sqrt((0.95 * 0.05) / n);
  const seesPauses = (evidence: string) => !evidence.includes('no pause');
  const seesFast = (evidence: string) => evidence.includes('whole cycles');
  it.each([
    ['cycles of 3 to 60 readings', (u: number) => 3 + 57 * u, 0],
    ['the same, wandering by 5 %', (u: number) => 3 + 57 * u, 0.05],
    ['cycles in step with the readings', (u: number) => 3 + Math.floor(57 * u), 0],
    ['cycles of 2 to 3 readings', (u: number) => 2 + u, 0],
  ] as const)('%s', (_name, period, jitter) => {
    const random = draws(11);
    const found = covered(12, { periodS: () => period(random()), jitter }, seesPauses);
    expect(found.trials).toBeGreaterThan(350);
    expect(found.share).toBeGreaterThan(least(found.trials));
  });
  it.each([
    ['cycles of 1 to 2 readings', (u: number) => 1 + u, 0],
    ['cycles of 0.3 to 1 readings', (u: number) => 0.3 + 0.7 * u, 0],
    ['the same, wandering by 5 %', (u: number) => 0.3 + 1.7 * u, 0.05],
  ] as const)('%s, where the log shows that they are too fast', (name, period, jitter) => {
    const random = draws(13);
    const found = covered(14, { periodS: () => period(random()), jitter }, seesFast);
    // Almost in step with the readings a fast load looks like a slow thermostat. No log can tell; it is counted here.
    console.info(`${name}: ${found.blind} of 400 logs look like slower cycles or none`);
    expect(found.trials).toBeGreaterThan(150);
    expect(found.share).toBeGreaterThan(least(found.trials));
  });
});
