import { describe, expect, it } from 'vitest';
import { renderReport } from '../../src/report/index.js';
import { type FixtureOptions, fixture } from './fixture.js';
import { hostileTexts } from './hostile.js';

const options = {
  units: 'si' as const,
  generatedAt: new Date('2026-10-09T08:30:00Z'),
  version: '0.1.0',
};
const render = (made: FixtureOptions = {}, more: Partial<typeof options> | { units: 'us' } = {}) =>
  renderReport(fixture(made), { ...options, ...more });

/** Everything between tags, as a browser would show it. */
function shown(html: string): string {
  return html
    .replace(/<style>.*?<\/style>/s, '')
    .replace(/<[^<>]*>/g, ' ')
    .replace(/&nbsp;|\u00a0/g, ' ')
    .replace(/\s+/g, ' ');
}

const plain = await render();

describe('the page as a file', () => {
  it('is the same bytes twice, also when two are written at once', async () => {
    const [a, b] = await Promise.all([render(), render()]);
    expect(a).toBe(plain);
    expect(b).toBe(plain);
  });

  it('needs nothing from anywhere', () => {
    expect(plain).not.toMatch(/<script/i);
    expect(plain).not.toMatch(/https?:/);
    expect(plain).not.toMatch(/<(?:link|iframe|object|embed|img|base|form)\b/i);
    expect(plain).not.toMatch(/\son[a-z]+=/i);
    expect(plain).not.toMatch(/@import|url\((?!#)/);
    expect(plain).toContain(`content="default-src 'none'; style-src 'unsafe-inline'; img-src data:;`);
  });

  it('stays small with nine runs of one sample a second', () => {
    // 16 kB for each of the nine fitted curves, with its table and its words.
    expect(Buffer.byteLength(plain)).toBeLessThan(350_000 + 9 * 16_000);
  });

  it('has a language, one h1, headings in order and ids that are unique', () => {
    expect(plain).toMatch(/<html lang="en">/);
    expect(plain.match(/<h1/g)).toHaveLength(1);
    const levels = [...plain.matchAll(/<h([1-6])/g)].map((match) => Number(match[1]));
    expect(levels.filter((level, i) => level - (levels[i - 1] ?? 0) > 1)).toEqual([]);
    const ids = [...plain.matchAll(/ id="([^"]*)"/g)].map((match) => match[1]);
    expect(new Set(ids).size).toBe(ids.length);
    for (const [, target] of plain.matchAll(/(?:href="#|url\(#|aria-labelledby=")([\w-]+)/g)) {
      expect(ids).toContain(target);
    }
  });

  it('has a title and a description in every picture', () => {
    const pictures = plain.match(/<svg role="img".*?<\/svg>/gs) ?? [];
    // Settings and balance in two sizes, two courses and a fitted curve a run, two sizes of budget and one of repeatability
    // a setting.
    expect(pictures).toHaveLength(4 + 18 + 9 + 6 + 3);
    for (const picture of pictures) {
      expect(picture).toMatch(/<title id="[^"]+">[^<]+<\/title><desc id="[^"]+">[^<]{8,}<\/desc>/);
    }
  });
});

describe('what the page says', () => {
  const text = shown(plain);

  it('leads with the answer, its interval, the future heating, the coverage and the conditions', () => {
    // value 0.43, U = 2.11 × 0.008; prediction 0.43 ± 0.021
    expect(text).toContain(
      'On medium, 43.0 % ± 1.7 % of the metered energy reaches the water. One future heating: 41 to 45 %',
    );
    expect(text).toContain('Heated from 12 °C to 51 °C, 6.0 kg of water, 3 runs.');
    expect(text).toContain('Every range is stated at 95 % coverage.');
    expect(text.indexOf('On gentle')).toBeLessThan(text.indexOf('On medium'));
    expect(text.indexOf('On medium')).toBeLessThan(text.indexOf('Efficiency of each setting'));
  });

  it('has its sections in order', () => {
    const ids = [...plain.matchAll(/<section id="([a-z-]+)"/g)].map((match) => match[1]);
    expect(ids).toEqual(
      'result settings balance courses curves doubts repeatability instruments readings conditions not-counted warnings cautions method digests closing'.split(
        ' ',
      ),
    );
  });

  it('shows the room with the rest and never as zero', () => {
    expect(text).toContain('room and rest, not separated');
    expect(plain).toMatch(/room and rest(?:, not separated)? 5\d\u00a0%/);
    expect(text).not.toMatch(/room 0(?:\.0)? %/);
  });

  it('tells the biggest doubt in words and marks what is assumed', () => {
    expect(text).toContain(
      'The biggest doubt about the next heating is scatter from run to run: 71 % of the whole',
    );
    expect(text).toContain('share of the vessel that warms with the water (assumed)');
    expect(text).not.toContain('calibration of the thermometer logger (assumed)');
  });

  it('tells due dates in words', () => {
    expect(text).toContain('due in 12 days (2026-10-21)');
    expect(text).toContain('no date on record');
    expect(text).toContain('certificate HD-17 of 2026-02-03, 2 points');
  });

  it('shows readings as typed, in SI, with time, hand and instrument', () => {
    const row =
      /<tr><th scope="row">Empty vessel on the scale, without lid<\/th>.*?<\/tr>/s.exec(plain)?.[0] ?? '';
    expect(shown(row).trim()).toBe(
      'Empty vessel on the scale, without lid 1871 [g] 1.871 kg 2026-10-05 10:50:00 M. R. scale-1',
    );
    expect(text).toContain('0,363 kWh 1306800 J');
    expect(text).toContain('Note A door stood open for a minute.');
  });

  it('names refusals, warnings, cautions, sources, digests, and what it does not claim', () => {
    expect(text).toContain('vat-warmer-medium-04 vat-warmer, medium The logged energy, 0.3941 kWh');
    expect(text).toContain(
      'The meter was past due since 3 days when this run was made. About vat-warmer-gentle-01.',
    );
    expect(text).toContain('The workbook states an altitude and no pressure.');
    expect(text).toContain('Hot water and steam scald.');
    expect(text).toContain('Battery packs: fuse every string');
    for (const source of ['JCGM 100', 'IAPWS-IF97', 'ISO 2533']) expect(text).toContain(source);
    expect(text).toContain('0123456789abcdef'.repeat(4));
    expect(text).toContain('no claim of accreditation');
  });

  it('shows what the figure would be with a run that a person took out, and marks that run', async () => {
    const made = fixture();
    const [first, ...others] = made.runs as [(typeof made.runs)[number], ...typeof made.runs];
    const exclusion = { reason: 'the lid slipped', hand: 'mr', at: '2026-10-05T12:00:00Z', resultSeen: true };
    const figures = made.figures.map((figure) =>
      figure.setting === 'gentle'
        ? {
            ...figure,
            withExcluded: {
              runs: [{ run: first.run.id, value: 0.341, exclusion }],
              value: 0.3604,
              interval: [0.3304, 0.3904] as const,
              prediction: [0.3204, 0.4004] as const,
            },
          }
        : figure,
    );
    const runs = [{ ...first, run: { ...first.run, excluded: exclusion } }, ...others];
    const page = shown(await renderReport({ ...made, figures, runs }, options));
    expect(page).toContain(
      'gentle 37.0 % ± 1.7 % 36.0 % ± 3.0 % 32.0 to 40.0 % vat-warmer-gentle-01, 36.70 % ± 0.47 %, by M. R., its result had been seen',
    );
    expect(page).toContain('vat-warmer-gentle-01 (not counted)');
    expect(text).not.toContain('(not counted)');
  });

  it('says what was not measured instead of leaving a nought', () => {
    expect(text).toMatch(/vat-warmer-gentle-02 rest start 55:00 420 W not measured/);
  });

  it('shows US units where they are asked for, and readings as they were typed all the same', async () => {
    const us = shown(await render({}, { units: 'us' }));
    // 285.05 K = 53.42 °F, 324.15 K = 123.8 °F, 5.987 kg = 13.199 lb
    expect(us).toContain('Heated from 53 °F to 124 °F, 13.2 lb of water');
    expect(us).toContain('water temperature, °F');
    expect(us).toContain('11.9 °C 285.05 K');
  });

  it('is written for a workbook without a single run, and for one or two', async () => {
    const none = shown(await render({ runsPerSetting: 0 }));
    expect(none).toContain('There is no figure yet');
    expect(none).toContain('The logged energy, 0.3941 kWh');
    const one = shown(await render({ runsPerSetting: 1, logs: false }));
    expect(one).toContain('one run: the scatter from run to run is assumed, not seen');
    expect(one).toContain('No power log was imported for this run.');
    expect(one).toContain('no log');
  });
});

describe('text of users', () => {
  // Tags and attributes that the page has by itself; with hostile text there may be no others.
  const skeleton = (html: string) => {
    const tags = (html.match(/<[^<>]*>/g) ?? []).map((tag) => /^<[/!]?[\w-]+/.exec(tag)?.[0] ?? tag);
    return new Map([...new Set(tags)].sort().map((tag) => [tag, tags.filter((each) => each === tag).length]));
  };
  const attributes = (html: string) =>
    [
      ...new Set(
        [...html.matchAll(/<[\w-]+((?:\s[^\s=>"]+(?:="[^"]*")?)*)\s*\/?>/g)].flatMap((tag) =>
          [...(tag[1] ?? '').matchAll(/\s([^\s="]+)(?:="[^"]*")?/g)].map((match) => match[1]),
        ),
      ),
    ].sort();

  it.each(hostileTexts.map((text, i) => [i, text]))('stays text everywhere, case %i', async (_i, text) => {
    // In front, so that what is cut off at the end of a label is not the hostile part.
    const html = await renderReport(fixture({ runsPerSetting: 1, text: (own) => `${text}${own}` }), options);
    const clean = await renderReport(fixture({ runsPerSetting: 1, text: (own) => `x${own}` }), options);
    const found = skeleton(html);
    // What may differ: whether a name is kept in one piece, and how many bits of chart a label has.
    for (const [tag, count] of skeleton(clean))
      if (!/span/.test(tag)) expect(found.get(tag), tag).toBe(count);
    expect([...found.keys()]).toEqual([...skeleton(clean).keys()]);
    expect(attributes(html)).toEqual(attributes(clean));
    expect(html).not.toMatch(/<(?:script|img|iframe|object|embed|base|form|link|foreignObject)/i);
    // biome-ignore lint/suspicious/noControlCharactersInRegex: finding control characters is the purpose
    expect(html).not.toMatch(/[\u0000-\u0008\u000b-\u001f\u202a-\u202e\u2066-\u2069]/);
  });

  it('reaches every kind of text of the page', async () => {
    const seen = new Set<string>();
    const html = await renderReport(
      fixture({
        runsPerSetting: 1,
        text: (own) => {
          seen.add(own);
          return `‹${own}›`;
        },
      }),
      options,
    );
    const text = shown(html);
    // Not printed: questions without an answer, units where the typed text has its own, names of a heater where there is
    // but one, sources inside a run, and what the records keep for the program.
    const unprinted = [
      'Cautions read? Press Enter',
      'Has the appliance stood switched off until its body is within 2 K of the room?',
      'Is the place free of draught and sun, and will it stay so?',
      "Meter's energy counter before the start",
      'Weigh again at once, vessel with water, without lid',
      'CSV export of the meter, or press Enter to skip',
      'CSV export of the thermometer, or press Enter to skip',
      'Anything that was not as usual, or press Enter to skip',
      ...['°C', 'g', 'kg', 'kWh', 'Vat warmer 900 W', 'stainless steel'],
      ...['gain of the plug-in meter', 'water not evenly warm at the end'],
      ...['exports/meter.csv', 'integral of the log'],
    ];
    const missing = [...seen].filter(
      (own) => !text.includes(`‹${own.replace(/'/g, '&#39;')}›`.replace(/&(?!#)/g, '&amp;')),
    );
    expect(missing.sort()).toEqual(unprinted.sort());
  });

  it('is kept in one piece where it is long, and cut in charts only', async () => {
    const long = `${'wide'.repeat(60)} and ${'é'.repeat(80)}`;
    const html = await renderReport(fixture({ runsPerSetting: 1, text: (own) => `${own}${long}` }), options);
    const rest = html.replace(/<svg role="img".*?<\/svg>/gs, '');
    expect(rest).toContain(`kitchen scale${long}`);
    for (const [, label] of html.matchAll(/<text[^>]*>([^<]*)<\/text>/g))
      expect([...(label ?? '')].length).toBeLessThan(110);
  });
});
