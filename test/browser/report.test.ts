import { mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { createRequire } from 'node:module';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';
import { renderReport } from '../../src/report/index.js';
import { fixture } from '../report/fixture.js';
import { hostileTexts } from '../report/hostile.js';
import { hasSidewaysScroll, openInBrowser, printToPdf } from './browser.js';

const folder = mkdtempSync(join(tmpdir(), 'heatledger-report-'));
afterAll(() => rmSync(folder, { recursive: true, force: true }));

const options = { units: 'si' as const, generatedAt: new Date('2026-10-09T08:30:00Z'), version: '0.1.0' };
const page = await renderReport(fixture(), options);
// All hostile texts at once in every field, and words that no line can hold.
const hostile = await renderReport(
  fixture({ runsPerSetting: 2, text: (own) => `${own} ${hostileTexts.join(' ')} ${'x'.repeat(200)}` }),
  options,
);
const axe = readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8');

/** Texts of charts that stick out of their picture by more than a pixel, of the pictures that are shown. */
function textsCutOff(): string[] {
  return Array.from(document.querySelectorAll('svg[role=img]'))
    .filter((svg) => svg.getBoundingClientRect().width > 0)
    .flatMap((svg) => {
      const frame = svg.getBoundingClientRect();
      return Array.from(svg.querySelectorAll('text'))
        .filter((text) => {
          const box = text.getBoundingClientRect();
          const inside = box.left >= frame.left - 1 && box.right <= frame.right + 1;
          return !(inside && box.top >= frame.top - 1 && box.bottom <= frame.bottom + 1);
        })
        .map((text) => text.textContent ?? '');
    });
}

/** Texts of one chart that lie on each other. */
function textsOnEachOther(): string[] {
  return Array.from(document.querySelectorAll('svg[role=img]'))
    .filter((svg) => svg.getBoundingClientRect().width > 0)
    .flatMap((svg) => {
      const texts = Array.from(svg.querySelectorAll('text')).map((text) => ({
        words: text.textContent ?? '',
        box: text.getBoundingClientRect(),
      }));
      return texts.flatMap((a, i) =>
        texts
          .slice(i + 1)
          .filter(
            (b) =>
              Math.min(a.box.right, b.box.right) - Math.max(a.box.left, b.box.left) > 1 &&
              Math.min(a.box.bottom, b.box.bottom) - Math.max(a.box.top, b.box.top) > 4,
          )
          .map((b) => `${a.words} | ${b.words}`),
      );
    });
}

describe.each([360, 768, 1280])('the report at %i px', (width) => {
  it('opens without a word, asks for nothing, and cannot be moved sideways', async () => {
    const open = await openInBrowser(page, { width });
    expect(open.consoleMessages).toEqual([]);
    expect(open.requests).toEqual([]);
    expect(await hasSidewaysScroll(open.page)).toBe(false);
    await open.close();
  });

  it('cuts no label of a chart and lays none on another', async () => {
    const open = await openInBrowser(page, { width });
    expect(await open.page.locator('svg[role=img]:visible').count()).toBeGreaterThan(20);
    expect(await open.page.evaluate(textsCutOff)).toEqual([]);
    expect(await open.page.evaluate(textsOnEachOther)).toEqual([]);
    await open.close();
  });

  it('stands up to hostile and endless text', async () => {
    const open = await openInBrowser(hostile, { width });
    expect(open.consoleMessages).toEqual([]);
    expect(open.requests).toEqual([]);
    expect(await hasSidewaysScroll(open.page)).toBe(false);
    expect(await open.page.evaluate(textsCutOff)).toEqual([]);
    expect(await open.page.locator('script, iframe, img, object, embed, form, base').count()).toBe(0);
    expect(await open.page.textContent('h1')).toContain('<script>alert(1)</script>');
    await open.close();
  });
});

describe('the report', () => {
  it('shows the answer, its interval and the future heating on the first screen of a phone', async () => {
    const open = await openInBrowser(page, { width: 360, height: 640 });
    const last = await open.page.locator('.answer .future').first().boundingBox();
    expect(last).not.toBeNull();
    expect((last?.y ?? 0) + (last?.height ?? 1e6)).toBeLessThan(640);
    expect(await open.page.locator('.answer').first().textContent()).toMatch(/% ± .*%.*One future heating/s);
    await open.close();
  });

  it.each(['light', 'dark'] as const)(
    'has nothing that axe objects to, in %s colours',
    async (colourScheme) => {
      for (const width of [360, 1280]) {
        const open = await openInBrowser(page, { width, colourScheme });
        await open.page.evaluate(axe);
        const found = await open.page.evaluate(async () => {
          const run = (globalThis as unknown as { axe: { run(): Promise<AxeResults> } }).axe;
          const { violations, passes } = await run.run();
          return {
            passes: passes.length,
            violations: violations.map(({ id, impact, nodes }) => `${impact} ${id}: ${nodes[0]?.html}`),
          };
        });
        expect(found.violations).toEqual([]);
        expect(found.passes).toBeGreaterThan(15);
        await open.close();
      }
    },
  );

  it('is dark where dark is asked for, and light on paper all the same', async () => {
    const ground = () => getComputedStyle(document.body).backgroundColor;
    const dark = await openInBrowser(page, { colourScheme: 'dark' });
    expect(await dark.page.evaluate(ground)).toBe('rgb(18, 25, 31)');
    await dark.page.emulateMedia({ media: 'print', colorScheme: 'dark' });
    expect(await dark.page.evaluate(ground)).toBe('rgb(255, 255, 255)');
    await dark.close();
  });

  it('reaches every box that scrolls with the keyboard', async () => {
    const open = await openInBrowser(page, { width: 360 });
    const unreached = await open.page.evaluate(
      () =>
        Array.from(document.querySelectorAll('*')).filter(
          (each) =>
            each.scrollWidth > each.clientWidth + 1 &&
            getComputedStyle(each).overflowX === 'auto' &&
            (each as HTMLElement).tabIndex < 0,
        ).length,
    );
    expect(unreached).toBe(0);
    await open.close();
  });
});

// A4 is 210 mm wide (ISO 216), Letter 8.5 inches; 30 mm of them are margins.
describe.each([
  ['A4', 210 - 30],
  ['Letter', 8.5 * 25.4 - 30],
] as const)('the report on %s', (format, widthMm) => {
  it('prints, cuts nothing, folds nothing away that is not behind a chart', async () => {
    const width = Math.floor((widthMm / 25.4) * 96);
    const open = await openInBrowser(page, { width, media: 'print' });
    const pdf = await printToPdf(open.page, join(folder, `${format}.pdf`), format);
    const pages = Buffer.from(pdf)
      .toString('latin1')
      .match(/\/Type\s*\/Page\b/g);
    expect(pages?.length).toBeGreaterThan(5);
    expect(pages?.length).toBeLessThan(40);
    expect(await hasSidewaysScroll(open.page)).toBe(false);
    expect(await open.page.evaluate(textsCutOff)).toEqual([]);
    const tooWide = await open.page.evaluate(
      (paper) =>
        Array.from(document.querySelectorAll('main *, header *'))
          .filter((each) => !each.closest('svg') && !each.closest('.unseen'))
          .filter((each) => each.getBoundingClientRect().right > paper + 1)
          .map((each) => each.outerHTML.slice(0, 80)),
      width,
    );
    expect(tooWide).toEqual([]);
    const readings = open.page.locator('#readings table');
    expect(await readings.count()).toBe(9);
    for (const table of await readings.all()) expect(await table.isVisible()).toBe(true);
    await open.close();
  });
});

interface AxeResults {
  readonly passes: readonly unknown[];
  readonly violations: readonly {
    readonly id: string;
    readonly impact: string;
    readonly nodes: readonly { readonly html: string }[];
  }[];
}
