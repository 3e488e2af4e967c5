import { describe, expect, it } from 'vitest';
import { readExport } from '../../src/logs/index.js';
import { evaluated, plain } from './dairy.js';

const onMs = Date.parse('2026-10-05T09:00:00Z');

/** A logger's export, a row every ten seconds: a straight rise to a turning point 100 s after switch-off, then a slow fall. */
function temperatureLog(peakC: number, options: { readonly turns?: boolean } = {}) {
  const turnS = plain.heatingS + 100;
  const rows = ['Time,Temperature (°C)'];
  for (let t = -60; t <= turnS + 600; t += 10) {
    // A parabola of 100 s either way about the turn, so that it is smooth.
    const beyond = Math.max(0, Math.abs(t - turnS) - 100);
    const bend = 0.5 * (Math.min(100, Math.abs(t - turnS)) / 100) ** 2;
    const fall = t > turnS ? -0.001 * beyond : -((peakC - 20.5) * beyond) / plain.heatingS;
    const after = options.turns === false ? 0.01 * Math.max(0, t - turnS) : fall - bend;
    const celsius = t > turnS || options.turns !== false ? peakC + after : peakC + fall - bend;
    rows.push(`${new Date(onMs + t * 1000).toISOString()},${Math.max(20, celsius).toFixed(2)}`);
  }
  return readExport(new TextEncoder().encode(`${rows.join('\n')}\n`), { fileName: 'logger.csv' });
}

const withLog = (log: ReturnType<typeof temperatureLog>, endC = 60) =>
  evaluated({ endC, finalKg: 7.861 }, { logs: { temperatureLog: log } });

describe('a temperature log beside the typed end temperature', () => {
  it('is silent where its turning point agrees', () =>
    expect(withLog(temperatureLog(60.2)).warnings).toEqual([]));
  it('that turns elsewhere is a warning with both', () =>
    expect(withLog(temperatureLog(62.4)).warnings.join(' ')).toMatch(
      /log turns at 62\.\d\d °C, the end temperature was typed as 60\.00 °C/,
    ));
  it('without a turning point says so', () =>
    expect(withLog(temperatureLog(60, { turns: false })).warnings.join(' ')).toMatch(
      /no turning point after switch-off/,
    ));
  it('narrows where the steam left', () => {
    const steam = (run: ReturnType<typeof withLog>) =>
      run.balance
        .find((booking) => booking.name === 'vapour')!
        .heat.budget.find((row) => row.source.id.endsWith('vapour-temperature'))!.source.standardUncertainty;
    expect(steam(withLog(temperatureLog(60)))).toBeCloseTo(2 / Math.sqrt(3), 12);
    expect(steam(evaluated({ finalKg: 7.861 }))).toBeCloseTo(8 / Math.sqrt(3), 12);
  });
});
