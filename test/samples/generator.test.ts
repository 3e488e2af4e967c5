import { readFileSync, readdirSync } from 'node:fs';
import { join, relative, sep } from 'node:path';
import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';
import { simulateCampaign } from '../../samples/lib/campaign.mjs';
import { campaignFiles, SAMPLE_SEED } from '../../samples/lib/files.mjs';
import { type MeterRow, readExport } from './readExport.js';

const samples = fileURLToPath(new URL('../../samples/', import.meta.url));
const campaign = simulateCampaign({ seed: SAMPLE_SEED });
const files = campaignFiles(campaign);
const first = <T>(items: readonly T[]): T => items[0] as T;
const last = <T>(items: readonly T[]): T => items[items.length - 1] as T;
/** The thermometer's largest error at any point of its certificate. */
const certificateK = Math.max(
  ...campaign.truth.instruments.logger.points.map((point) => Math.abs(point.errorK)),
);
const typed = (run: (typeof campaign.runs)[number], step: string) =>
  run.answers.filter((answer) => answer.step === step).map((answer) => answer.value);
/** The number in a typed value; kilograms and kilowatt-hours come as grams and watt-hours. */
const plain = (value: string) => {
  const number = Number.parseFloat(value.replace(',', '.'));
  return /\bk(g|Wh)$/.test(value) ? 1000 * number : number;
};

describe('the files in samples/', () => {
  it('are what the script makes, byte for byte, and no others', () => {
    const made = ['exports', 'answers', 'records'].flatMap((folder) =>
      readdirSync(join(samples, folder), { recursive: true, withFileTypes: true })
        .filter((entry) => entry.isFile())
        .map((entry) => relative(samples, join(entry.parentPath, entry.name)).split(sep).join('/')),
    );
    expect([...made, 'truth.json'].sort()).toEqual([...files.keys()].sort());
    for (const [path, text] of files) {
      expect(readFileSync(join(samples, path)).equals(Buffer.from(text)), path).toBe(true);
    }
  });

  it('are small', () => {
    const bytes = [...files.values()].reduce((sum, text) => sum + Buffer.byteLength(text), 0);
    expect(bytes).toBeLessThan(1.75e6);
  });
});

describe('the seed', () => {
  const options = { runsPerSetting: 2, fast: true };
  const texts = (seed: number) => campaignFiles(simulateCampaign({ seed, ...options }));

  it('makes the same bytes again', () => {
    expect([...texts(7)]).toEqual([...texts(7)]);
  });

  it('changes every run and the instruments when it changes', () => {
    const [a, b] = [texts(7), texts(8)];
    expect([...a.keys()]).toEqual([...b.keys()]);
    const same = [...a].filter(([path, text]) => b.get(path) === text).map(([path]) => path);
    // What is written about bench, instruments and heater is no draw.
    expect(same.filter((path) => !path.startsWith('records/'))).toEqual([]);
    expect(simulateCampaign({ seed: 7, ...options }).truth.instruments).not.toEqual(
      simulateCampaign({ seed: 8, ...options }).truth.instruments,
    );
  });

  it('is refused where it cannot be one, as are settings and counts', () => {
    expect(() => simulateCampaign({ seed: -1 })).toThrow('seed -1');
    expect(() => simulateCampaign({ seed: 1.5 })).toThrow('seed 1.5');
    expect(() => simulateCampaign({ seed: 1, settings: ['boost'] })).toThrow('no setting "boost"');
    expect(() => simulateCampaign({ seed: 1, runsPerSetting: 0 })).toThrow('runsPerSetting 0');
  });
});

describe('the runs', () => {
  it('are three of each setting, one of each a day, and never two at a time', () => {
    const spans = campaign.runs.map(({ id, setting, answers }) => ({
      id,
      setting,
      day: first(answers).at.slice(0, 10),
      from: Date.parse(first(answers).at),
      to: Date.parse(last(answers).at),
    }));
    expect(spans.map((span) => `${span.setting} ${span.day}`)).toEqual(
      ['gentle', 'medium', 'full'].flatMap((setting) => [5, 6, 7].map((day) => `${setting} 2026-10-0${day}`)),
    );
    const inTime = [...spans].sort((a, b) => a.from - b.from);
    // The body's time constant alone in the room is C_b/UA_b = 742 s: an hour of rest leaves 0.8 % of its warmth.
    for (let i = 1; i < inTime.length; i++) {
      expect(inTime[i]!.from - inTime[i - 1]!.to, inTime[i]!.id).toBeGreaterThan(3600e3);
    }
  });

  it.each(campaign.runs.map((run) => [run.id, run] as const))('%s is true to its kind', (_id, run) => {
    const { truth } = run;
    expect(truth.efficiencyWater).toBeGreaterThan(0.55);
    expect(truth.efficiencyWater).toBeLessThan(0.85);
    for (const key of [
      'heatVesselJ',
      'heatVapourJ',
      'heatRoomJ',
      'heatBodyJ',
      'restJ',
      'vapourKg',
    ] as const) {
      expect(truth[key], key).toBeGreaterThan(0);
    }
    expect(truth.t2C - truth.t1C).toBeGreaterThan(30);
    expect(truth.t2C).toBeGreaterThan(50);
    expect(truth.t2C).toBeLessThan(55);
    const at = (step: string) => Date.parse(run.answers.find((answer) => answer.step === step)!.at);
    expect(at('switchOff') - at('switchOn')).toBe(1000 * truth.switchOffS);
    const times = run.answers.map((answer) => Date.parse(answer.at));
    expect(times).toEqual([...times].sort((a, b) => a - b));
  });

  it.each(campaign.runs.map((run) => [run.id, run] as const))(
    '%s is typed as the displays show it',
    (_id, run) => {
      const { truth } = run;
      const { logger } = campaign.truth.instruments;
      // Certificate error at most as large as its largest point, stirring, stem, display and five sigma of noise.
      const certificateK = Math.max(...logger.points.map((point) => Math.abs(point.errorK)));
      const t1 = plain(first(typed(run, 'startTemperature')));
      const t2 = plain(first(typed(run, 'endTemperature')));
      expect(Math.abs(t1 - truth.t1C)).toBeLessThan(certificateK + 0.1 + 0.05 + 0.1);
      expect(Math.abs(t2 - truth.t2C)).toBeLessThan(certificateK + 0.2 + 0.05 + 0.05 + 0.1);
      const netG = plain(first(typed(run, 'fullWeight'))) - plain(first(typed(run, 'emptyWeight')));
      // Air of about 1.06 kg/m³ lifts water by 0.093 % more than weights: 0.99907. Scale ±2 g twice, display ±0.5 g twice.
      expect(Math.abs(netG - 999.07 * truth.waterStartKg)).toBeLessThan(5.5);
      expect(typed(run, 'interimTemperature').at(-1)).toBe('');
      const usedWh = plain(first(typed(run, 'energyAfter'))) - plain(first(typed(run, 'energyBefore')));
      const gain = 1 + campaign.truth.instruments.meter.gainError;
      // Display ±0.5 Wh twice; stand-by of 0.4 W for less than 20 minutes adds up to 0.14 Wh.
      expect(usedWh - (gain * truth.energyMeteredTrueJ) / 3600).toBeGreaterThan(-1);
      expect(usedWh - (gain * truth.energyMeteredTrueJ) / 3600).toBeLessThan(1.14);
    },
  );
});

describe('the exports', () => {
  const gain = 1 + campaign.truth.instruments.meter.gainError;
  const logs = campaign.runs.map((run) => [run.id, run.truth, readExport(run.powerCsv)] as const);

  it.each(logs)('%s: the counter grows by gain times all that passed', (_id, truth, rows) => {
    if (first(rows).counterWh === undefined) {
      expect(rows.every((row) => row.counterWh === undefined)).toBe(true);
      return;
    }
    const idleS = last(rows).stampS - first(rows).stampS - truth.switchOffS;
    const trueWh = (gain * (truth.energyMeteredTrueJ + 0.4 * idleS)) / 3600;
    // Two roundings of half a hundredth; the stamps are cut to the second, which moves the stand-by by 0.4 J.
    expect(Math.abs(last(rows).counterWh! - first(rows).counterWh! - trueWh)).toBeLessThan(
      0.01 + 0.4 / 3600 + 1e-9,
    );
  });

  it.each(logs)('%s: power over time is gain times the true energy', (_id, truth, rows) => {
    const idleS = last(rows).stampS - first(rows).stampS - truth.switchOffS;
    const trueJ = gain * (truth.energyMeteredTrueJ + 0.4 * idleS);
    const span = last(rows).stampS - first(rows).stampS;
    const most = Math.max(...rows.map((row) => row.powerW));
    // Rounding to 0.1 W: 0.05 W throughout at worst. A trapezoid over a switching errs by half a gap times the power,
    // the gap at most 1.2 s with jitter, or 2 s where the stamp is cut to the second; there are two switchings.
    expect(Math.abs(trapezoids(rows) - trueJ)).toBeLessThan(0.05 * span + 2 * most);
  });

  it.each(logs)('%s: starts and ends on stand-by, with rows lost only in between', (_id, truth, rows) => {
    const gaps = rows.slice(1).map((row, i) => row.stampS - rows[i]!.stampS);
    expect(Math.min(...gaps)).toBeGreaterThan(0);
    expect(gaps.filter((gap) => gap > 1.5).length).toBeGreaterThan(0);
    expect(gaps.filter((gap) => gap > 1.5).length).toBeLessThan(12);
    expect(Math.max(...gaps)).toBeLessThan(15);
    const on = rows.map((row) => row.powerW > 100);
    const from = on.indexOf(true);
    const to = on.lastIndexOf(true);
    expect(on.slice(from, to + 1).every(Boolean)).toBe(true);
    expect(from).toBeGreaterThan(60);
    expect(rows.length - to).toBeGreaterThan(60);
    expect(first(rows).powerW).toBeCloseTo(0.4, 9);
    expect(Math.abs(rows[to]!.stampS - rows[from]!.stampS - truth.switchOffS)).toBeLessThan(2.2);
  });

  it('of the thermometer hold every ten seconds to the turning point and beyond', () => {
    for (const { id, temperatureCsv, truth } of campaign.runs) {
      const rows = temperatureCsv.trimEnd().split('\n').slice(1);
      expect(rows.length, id).toBeGreaterThan((truth.turningPointS - truth.logStartS) / 10 + 10);
      const shown = rows.map((row) => Number(row.split(/[;]|,(?=\d+\.\d$)/)[1]!.replace(',', '.')));
      // As for the typed end temperature; the largest of 500 draws of noise is still below five sigma.
      expect(Math.abs(Math.max(...shown) - truth.t2C), id).toBeLessThan(
        certificateK + 0.2 + 0.05 + 0.05 + 0.1,
      );
    }
  });
});

function trapezoids(rows: readonly MeterRow[]): number {
  let sum = 0;
  for (let i = 1; i < rows.length; i++) {
    const [a, b] = [rows[i - 1]!, rows[i]!];
    sum += ((a.powerW + b.powerW) / 2) * (b.stampS - a.stampS);
  }
  return sum;
}
