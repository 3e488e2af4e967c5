import { describe, expect, it } from 'vitest';
import { thinSeries } from '../../src/report/index.js';
import { accessibleSvg } from '../../src/report/accessibleSvg.js';
import { balanceChart } from '../../src/report/charts/balanceChart.js';
import { shorten, shortenId, textWidth } from '../../src/report/labels.js';
import { clockText } from '../../src/report/clockText.js';
import { courseOf } from '../../src/report/courseOf.js';
import { drawChart } from '../../src/report/drawChart.js';
import {
  percentInterval,
  percentIntervalInWords,
  percentResult,
  percentShare,
  resultIn,
} from '../../src/report/format.js';
import { escapeHtml, html, trusted } from '../../src/report/html.js';
import { fixture } from './fixture.js';

const plain = (text: string) => text.replace(/\u00a0/g, ' ');

describe('thinSeries', () => {
  const series = Float64Array.from(
    { length: 20_000 },
    (_, i) => Math.sin(i / 500) + ((i * 7919) % 101) / 1000,
  );

  it('keeps ends, order, count, and every peak of one sample', () => {
    for (const peak of [1, 777, 9_999, 19_998]) {
      const spiked = series.slice();
      spiked[peak] = 50;
      spiked[peak - 1] = -50;
      const kept = thinSeries(spiked, 1000);
      expect(kept.length).toBeLessThanOrEqual(1000);
      expect(kept[0]).toBe(0);
      expect(kept[kept.length - 1]).toBe(19_999);
      expect(kept.every((index, i) => i === 0 || index > (kept[i - 1] as number))).toBe(true);
      expect(kept).toContain(peak);
      expect(kept).toContain(peak - 1);
    }
  });

  it('keeps gaps as gaps', () => {
    const gapped = series.slice();
    gapped.fill(Number.NaN, 5_000, 5_010);
    gapped[15_000] = Number.NaN;
    const kept = thinSeries(gapped, 1000);
    expect(kept.length).toBeLessThanOrEqual(1000);
    expect(kept.filter((index) => Number.isNaN(gapped[index])).length).toBeGreaterThanOrEqual(2);
    expect(kept).toContain(15_000);
  });

  it('leaves short and empty series as they are', () => {
    expect(thinSeries([], 1000)).toEqual([]);
    expect(thinSeries([3, 1, 2], 1000)).toEqual([0, 1, 2]);
    expect(thinSeries([Number.NaN, Number.NaN], 1)).toEqual([0, 1]);
  });
});

describe('html', () => {
  it('escapes by default, lists too, and leaves HTML alone', () => {
    expect(html`<p title="${'"<&>\''}">${['<b>', html`<i>${'&'}</i>`, 3, null, false]}</p>`.text).toBe(
      '<p title="&quot;&lt;&amp;&gt;&#39;">&lt;b&gt;<i>&amp;</i>3</p>',
    );
    expect(html`${trusted('<b>')}`.text).toBe('<b>');
  });

  it('shows a sign where a character cannot be shown', () => {
    expect(escapeHtml('a\u0000\u202e\ud800b\u{1f525}')).toBe('a\ufffd\ufffd\ufffdb\u{1f525}');
  });
});

describe('numbers', () => {
  it('applies the factor 100 to value and uncertainty alike', () => {
    // Rounding to two digits of the uncertainty, JCGM 100 7.2.6.
    expect(plain(percentResult(0.43123, 0.01604))).toBe('43.1 % ± 1.6 %');
    expect(plain(percentResult(-0.0123, 0.00456))).toBe('−1.23 % ± 0.46 %');
    expect(plain(percentResult(0.5, 0.12))).toBe('50 % ± 12 %');
    expect(plain(percentInterval([0.41519, 0.44727]))).toBe('41.5 to 44.7 %');
  });

  it('shortens an interval for a sentence by at most a quarter of its half-width', () => {
    expect(plain(percentIntervalInWords([0.4092, 0.4512]))).toBe('41 to 45 %');
    expect(plain(percentIntervalInWords([0.41519, 0.44727]))).toBe('41.5 to 44.7 %');
    for (let i = 0; i < 400; i++) {
      const middle = 0.2 + (i % 60) / 100;
      const half = 0.0007 * 1.018 ** i;
      const ends = plain(percentIntervalInWords([middle - half, middle + half])).match(/−?[\d.]+/g) ?? [];
      const [low, high] = ends.map((end) => Number(end.replace('−', '-')) / 100) as [number, number];
      expect(Math.abs(low - (middle - half))).toBeLessThanOrEqual(half / 4 + 1e-12);
      expect(Math.abs(high - (middle + half))).toBeLessThanOrEqual(half / 4 + 1e-12);
    }
  });

  it('never shows a share that is there as zero', () => {
    expect(plain(percentShare(0.00001))).toBe('under 0.1 %');
    expect(plain(percentShare(0.012))).toBe('1.2 %');
    expect(plain(percentShare(0.6249))).toBe('62 %');
  });

  it('shows a result in a unit, a temperature with the scale of its unit', () => {
    expect(plain(resultIn(1_289_160, 15_120, 'energy', 'kWh'))).toBe('0.3581 ± 0.0042');
    // 293.15 K = 68 °F; 0.5 K = 0.9 °F
    expect(plain(resultIn(293.15, 0.5, 'temperature', '°F'))).toBe('68.00 ± 0.90');
  });
});

describe('clockText', () => {
  it('shows local time, also across the change of clocks, and survives what it does not know', () => {
    expect(clockText('2026-10-05T09:00:00Z', 'Europe/Vienna')).toBe('2026-10-05 11:00:00');
    expect(clockText('2026-12-31T23:30:00Z', 'Europe/Vienna')).toBe('2027-01-01 00:30:00');
    expect(clockText('2026-10-05T22:00:00Z', 'Europe/Vienna')).toBe('2026-10-06 00:00:00');
    expect(clockText('2026-10-05T09:00:00Z', 'Nowhere/"><b>')).toBe('2026-10-05 09:00:00 UTC');
    expect(clockText('yesterday', 'UTC')).toBe('yesterday');
  });
});

describe('labels', () => {
  it('are cut between characters, ids in their middle', () => {
    expect(shorten('abcdef', 33)).toBe('abc…');
    expect(shorten('🔥🔥🔥', 26)).toBe('🔥…');
    expect(shortenId('vat-warmer-gentle-01', 92)).toMatch(/^vat-w[a-z]*….*e-01$/);
    expect(shortenId('short', 40)).toBe('short');
    for (const text of [
      'x'.repeat(5000),
      'W'.repeat(80),
      '熱'.repeat(30),
      'vat-warmer-gentle-01 '.repeat(9),
    ]) {
      for (const pixels of [40, 130, 300]) {
        expect(textWidth(shorten(text, pixels))).toBeLessThanOrEqual(pixels);
        expect(textWidth(shortenId(text, pixels))).toBeLessThanOrEqual(pixels);
      }
    }
  });
});

describe('courseOf', () => {
  const runs = fixture().runs;

  it('puts logs with and without a clock on the same axis', () => {
    // Both kinds of log start 100 s before switch-on.
    for (const run of [runs[0], runs[2]]) {
      const course = courseOf(run!, 'si', 400);
      const rise = course.power.find((point) => (point.value ?? 0) > 200);
      expect(Math.abs(rise?.minutes ?? 99)).toBeLessThan(0.2);
      expect(course.power[0]?.minutes).toBeCloseTo(-100 / 60, 1);
      expect(course.off).toBeCloseTo(55, 6);
      expect(course.bench.map(({ value }) => value?.toFixed(1))).toEqual(['11.9', '31.2', '51.0']);
    }
  });

  it('draws no line where samples are missing for long', () => {
    const run = runs[0]!;
    const log = run.powerLog!;
    const keep = [...log.timesS.keys()].filter((i) => i < 1000 || i > 1200);
    const holed = {
      ...log,
      rows: keep.length,
      timesS: log.timesS.filter((_, i) => keep.includes(i)),
      powerW: log.powerW!.filter((_, i) => keep.includes(i)),
    };
    const course = courseOf({ ...run, powerLog: holed }, 'si', 400);
    const gap = course.power.find(({ value }) => value === null);
    expect(gap?.minutes).toBeGreaterThan((999 - 100) / 60);
    expect(gap?.minutes).toBeLessThan((1201 - 100) / 60);
    expect(courseOf(run, 'si', 400).power.some(({ value }) => value === null)).toBe(false);
  });
});

describe('charts', () => {
  const words = { id: 'c', title: '<b>', description: '"d"' };

  it('draw what is below zero to the left of zero', async () => {
    const part = (name: 'water' | 'room and rest, not separated', share: number) =>
      ({ name, words: [name, name], share, percent: `${share} %` }) as const;
    const rows = [{ run: 'r', parts: [part('water', 108), part('room and rest, not separated', -8)] }];
    const svg = await drawChart(balanceChart(rows, 720, 'x'));
    expect(svg).toContain('water 108 %');
    expect(svg).not.toMatch(/NaN|undefined|Infinity/);
    // 696 px for 116 per cent: zero lies 48 px from the left, where the negative piece ends.
    expect(svg).toMatch(/d="M0,[\d.]+h48v/);
  });

  it('get ids of their own, and lose nothing but idle attributes', async () => {
    const spec = {
      width: 100,
      height: 50,
      data: { values: [{ x: 1, y: 2, t: 'font-family="q" opacity="0" id="clip1" role="z"' }] },
      layer: [
        {
          mark: { type: 'line' as const, clip: true },
          encoding: {
            x: { field: 'x', type: 'quantitative' as const },
            y: { field: 'y', type: 'quantitative' as const },
          },
        },
        {
          mark: 'text' as const,
          encoding: { text: { field: 't', type: 'nominal' as const } },
        },
      ],
    };
    const svg = accessibleSvg(await drawChart(spec), words).text;
    expect(svg).toContain('>font-family="q" opacity="0" id="clip1" role="z"</text>');
    expect(svg).toContain('<title id="c-t">&lt;b&gt;</title>');
    const ids = [...svg.matchAll(/<clipPath id="([^"]+)"/g)].map((match) => match[1]);
    expect(ids.length).toBeGreaterThan(0);
    for (const id of ids) {
      expect(id).toMatch(/^c-c\d+$/);
      expect(svg).toContain(`url(#${id})`);
    }
    expect(svg.match(/<svg/g)).toHaveLength(1);
  });
});
