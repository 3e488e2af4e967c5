import { describe, expect, it } from 'vitest';
import { evaluateCandidate } from '../../src/evaluation/index.js';
import { readExport } from '../../src/logs/index.js';
import { bare, evaluated, kWh, plain, runOf, workbookOf } from './dairy.js';

/** An export of one row a second: 30 s of stand-by, the heating, 30 s of stand-by. The file counts from its start. */
function powerLog(options: { watts?: number; seconds?: number; counterWh?: boolean; powers?: boolean } = {}) {
  const { watts = 900, seconds = 1600, counterWh = false, powers = true } = options;
  const rows = [
    ['Time (s)', ...(powers ? ['Power (W)'] : []), ...(counterWh ? ['Energy (Wh)'] : [])].join(','),
  ];
  let wh = 0;
  for (let t = 0; t <= seconds + 60; t++) {
    const power = t >= 30 && t < 30 + seconds ? watts : 0;
    const cells = [t, ...(powers ? [power.toFixed(1)] : []), ...(counterWh ? [wh.toFixed(2)] : [])];
    rows.push(cells.join(','));
    wh += power / 3600;
  }
  return readExport(new TextEncoder().encode(`${rows.join('\n')}\n`), { fileName: 'meter.csv' });
}

describe('logged and typed energy', () => {
  it('agree: the log counts', () => {
    const run = evaluated({}, { logs: { powerLog: powerLog() } });
    const { typed, logged, used, difference } = run.energy;
    expect(used).toBe('logged');
    expect(typed.energy.value).toBeCloseTo(0.4 * kWh, 3);
    // 900 W for 1600 s; one second of switching is 0.06 %.
    expect(Math.abs(logged!.energy.value / (0.4 * kWh) - 1)).toBeLessThan(0.001);
    expect(run.conditions.meanPowerW).toBeCloseTo(900, 0);
    // The meter's gain cancels in the difference: 1 % of 0.4 kWh would be 8 kJ.
    expect(difference!.standardUncertainty).toBeLessThan(2000);
    // It is the gain that is left in what counts: 1 %/√3.
    const gain = logged!.energy.budget.find((row) => row.source.id.endsWith(':gain'))!;
    expect(gain.contribution / logged!.energy.value).toBeCloseTo(0.01 / Math.sqrt(3), 6);
  });
  it('need no marks of the hand: the log has the duration', () => {
    const run = evaluated({ heatingS: 1500 }, { logs: { powerLog: powerLog() } });
    expect(run.conditions.durationS).toBeCloseTo(1600, 0);
  });
  it('disagree: the run is refused, and both are shown', () => {
    const refused = () => evaluated({ afterKWh: 12.68 }, { logs: { powerLog: powerLog() } });
    expect(refused).toThrow(
      expect.objectContaining({
        code: 'energy-disagrees',
        message: expect.stringMatching(/log gives 0\.4\d* kWh.*typed at the bench 0\.38 ?\d* kWh/),
        hint: expect.stringMatching(/another run’s export|counter/),
      }),
    );
  });
  it('may differ by three standard uncertainties and no more', () => {
    const u = evaluated({}, { logs: { powerLog: powerLog() } }).energy.difference!.standardUncertainty;
    const kWhOff = (factor: number) => plain.afterKWh + (factor * u) / kWh;
    const offset = evaluated({}, { logs: { powerLog: powerLog() } }).energy.difference!.value / kWh;
    const typedAt = (factor: number) => () =>
      evaluated({ afterKWh: kWhOff(factor) + offset }, { logs: { powerLog: powerLog() } });
    expect(typedAt(2.9)).not.toThrow();
    expect(typedAt(-2.9)).not.toThrow();
    expect(typedAt(3.1)).toThrow(expect.objectContaining({ code: 'energy-disagrees' }));
    expect(typedAt(-3.1)).toThrow(expect.objectContaining({ code: 'energy-disagrees' }));
  });
  it('disagree where the export is scaled by 1.10, whose energy is 10 % more', () => {
    const run = runOf(bare, plain);
    const [one, scaled] = [900, 990].map((watts) =>
      evaluateCandidate(workbookOf(), bare, run, 'powerLog', powerLog({ watts })),
    );
    expect(one!.error).toBeNull();
    expect(one!.lines.join(' ')).toMatch(/logged 0\.4\d* kWh.*typed at the bench 0\.4000 kWh: they agree/);
    expect(scaled!.error).toMatchObject({ code: 'energy-disagrees' });
    expect(scaled!.error!.message).toMatch(/log gives 0\.44\d* kWh.*typed at the bench 0\.4000 kWh/);
    // against a counter that would agree, the energy itself
    const agreeing = runOf(bare, { ...plain, afterKWh: plain.beforeKWh + 0.44 });
    const more = evaluateCandidate(workbookOf(), bare, agreeing, 'powerLog', powerLog({ watts: 990 }));
    expect(more.energy!.loggedJ / one!.energy!.loggedJ).toBeCloseTo(1.1, 12);
  });
});

describe('the counter in an export', () => {
  it('stands beside the integral', () => {
    const run = evaluated({}, { logs: { powerLog: powerLog({ counterWh: true }) } });
    expect(run.energy.counter!.energy.value / (0.4 * kWh)).toBeCloseTo(1, 4);
    expect(run.warnings).toEqual([]);
  });
  it('alone is enough', () => {
    const run = evaluated({}, { logs: { powerLog: powerLog({ counterWh: true, powers: false }) } });
    expect(run.energy.logged).toMatchObject({ how: 'counter in the export' });
    expect(run.energy.logged!.energy.value / (0.4 * kWh)).toBeCloseTo(1, 4);
    // From row to row the counter goes 0.25 Wh, which is what its step is taken as: the triangle of two such steps.
    const byHand = Math.hypot((0.004 * kWh) / Math.sqrt(3), (0.25 * 3600) / Math.sqrt(6));
    expect(run.energy.logged!.energy.standardUncertainty / byHand).toBeCloseTo(1, 4);
  });
});

describe('an export that is looked at before it is kept', () => {
  it('has nothing to compare with in a run that is not finished', () => {
    const run = runOf(bare, plain);
    const unfinished = { ...run, readings: run.readings.filter((each) => each.step !== 'energyAfter') };
    const found = evaluateCandidate(workbookOf(), bare, unfinished, 'powerLog', powerLog());
    expect(found).toEqual({
      energy: null,
      lines: ['The run is not finished; energies are compared later.'],
      error: null,
    });
  });
  it('is not blamed for what else is wrong with the run', () => {
    const run = runOf(bare, { ...plain, startC: 70 });
    const found = evaluateCandidate(workbookOf(), bare, run, 'powerLog', powerLog());
    expect(found.error).toBeNull();
    expect(found.lines.join(' ')).toMatch(/can't be compared yet.*no warmer than it began/);
  });
  it('of temperatures has no energy', () =>
    expect(evaluateCandidate(workbookOf(), bare, runOf(bare, plain), 'temperatureLog', powerLog())).toEqual({
      energy: null,
      lines: [],
      error: null,
    }));
});
