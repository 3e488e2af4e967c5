import { beforeAll, describe, expect, it } from 'vitest';
import type { WorkbookEvaluation } from '../../src/evaluation/index.js';
import { renderReport } from '../../src/report/index.js';
import { fixture } from './fixture.js';

const options = { units: 'si', generatedAt: new Date('2026-10-09T16:00:00Z'), version: '0.0.0' } as const;

const sectionOf = (page: string) => /<section id="curves".*?<\/section>/s.exec(page)?.[0] ?? '';
const shown = (markup: string) =>
  markup
    .replace(/<[^>]*>/g, ' ')
    .replace(/&amp;/g, '&')
    .replace(/\s+/g, ' ');

describe('the section on warm-up and cool-down', () => {
  const made = fixture();
  let section = '';
  beforeAll(async () => {
    section = sectionOf(await renderReport(made, options));
  });

  it('has for each run with a log a picture, what it says, whether it fits, and the numbers in a table', () => {
    const figures = section.split('<figure class="curve">').slice(1);
    expect(figures).toHaveLength(made.runs.length);
    for (const [i, figure] of figures.entries()) {
      const text = shown(figure);
      expect(text).toContain(made.runs[i]!.run.id);
      expect(text).toMatch(/Model: (one node|two nodes|approach); \d+ blocks of 60 s\./);
      expect(text).toMatch(/curve (fits|does not fit)/);
      expect(text).toMatch(/rise for each kilojoule at the meter \(κ\/C\) 0\.\d+ ± 0\.\d+ K\/kJ/);
      // The data stand behind the picture: minutes, observed, curve, residual and two half-widths.
      const details = /<details class="behind">.*?<\/details>/s.exec(figure)?.[0] ?? '';
      expect(details.match(/<tr>/g)?.length).toBeGreaterThan(10);
      expect(shown(details)).toMatch(
        /Minutes Observed, °C Curve, °C Residual, K ± of the curve, K ± of one block, K/,
      );
    }
  });

  it('draws observed means, curve and bands above and residuals below, told apart without colour', () => {
    const picture = /<svg role="img".*?<\/svg>/s.exec(section)?.[0] ?? '';
    expect(picture).toMatch(/<title[^>]*>Warm-up of [^<]+: temperature, fitted curve and residuals<\/title>/);
    for (const words of ['Temperature, °C', 'Residuals, K', 'minutes from switch-on'])
      expect(picture).toContain(words);
    // Points are hollow, the band of the curve is dashed, that of one more block is filled, the curve is a plain line.
    expect(picture).toMatch(/fill="var\(--paper\)" stroke="var\(--ink\)"/);
    expect(picture).toMatch(/stroke-dasharray="3,2"/);
    expect(picture.match(/fill="var\(--band\)"/g)).toHaveLength(2);
    expect(picture).toMatch(/stroke="var\(--petrol\)"/);
    // Between 10 and 26 means are drawn: of a long log not every one.
    const dots = picture.match(/<path[^>]*fill="var\(--paper\)"[^>]*>/g) ?? [];
    expect(dots.length).toBeGreaterThan(9);
    expect(dots.length).toBeLessThan(27);
  });

  it('says in °F where the page does', async () => {
    const us = sectionOf(await renderReport(made, { ...options, units: 'us' }));
    expect(us).toContain('Temperature, °F');
    expect(shown(us)).toMatch(/temperature at the first reading \d\d\.\d+ ± \d\.\d+ °F/);
    expect(shown(us)).not.toMatch(/± \d[\d.]* °C/);
  });

  it('is not there without logs, and says why where a log has no curve', async () => {
    const without: WorkbookEvaluation = {
      ...made,
      runs: made.runs.map((run) => ({ ...run, temperatureLog: null })),
    };
    expect(sectionOf(await renderReport(without, options))).toBe('');
    const [first, ...others] = made.runs;
    const log = first!.temperatureLog!;
    const flat = { ...log, temperatureK: log.temperatureK!.map(() => 290) };
    const one = { ...first!, temperatureLog: flat };
    const page = sectionOf(await renderReport({ ...made, runs: [one, ...others] }, options));
    expect(page.split('<figure class="curve">')).toHaveLength(made.runs.length);
    expect(shown(page)).toMatch(new RegExp(`${one.run.id}[^.]*(no curve|not fitted)\\.`));
    expect(shown(page)).toMatch(/All \d+ readings of the temperature are/);
  });

  it('gives the same bytes again', async () =>
    expect(sectionOf(await renderReport(fixture(), options))).toBe(section));
});
