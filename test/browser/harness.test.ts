import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { createServer } from 'node:net';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, expect, it } from 'vitest';
import { hasSidewaysScroll, openInBrowser, printToPdf, screenshot, startBrowser } from './browser.js';

const folder = mkdtempSync(join(tmpdir(), 'heatledger-browser-'));
afterAll(() => rmSync(folder, { recursive: true, force: true }));

const html = (body: string, head = '') =>
  `<!doctype html><html lang="en"><head><meta charset="utf-8"><title>t</title>${head}</head><body>${body}</body></html>`;

/** A port of this machine on which nothing listens: one that was free a moment ago. */
async function closedPort(): Promise<number> {
  const server = createServer();
  await new Promise<void>((done) => server.listen(0, '127.0.0.1', done));
  const address = server.address();
  await new Promise((done) => server.close(done));
  if (address === null || typeof address === 'string') throw new Error('no port');
  return address.port;
}

it('opens a quiet page without a word, a request, or a sideways scroll', async () => {
  const open = await openInBrowser(
    html('<h1>Quiet</h1><img alt="" src="data:image/gif;base64,R0lGODlhAQABAAAAACw=">'),
  );
  expect(await open.page.textContent('h1')).toBe('Quiet');
  expect(open.consoleMessages).toEqual([]);
  expect(open.requests).toEqual([]);
  expect(await hasSidewaysScroll(open.page)).toBe(false);
  await open.close();
});

it('opens a file', async () => {
  const path = join(folder, 'page.html');
  writeFileSync(path, html('<p>from a file</p>'));
  const open = await openInBrowser(path);
  expect(await open.page.textContent('p')).toBe('from a file');
  expect(open.requests).toEqual([]);
  await open.close();
});

it('notices a console error and an error that no script caught', async () => {
  const open = await openInBrowser(
    html('<script>console.error("wrong"); throw new Error("uncaught")</script>'),
  );
  expect(open.consoleMessages).toContainEqual({ type: 'error', text: 'wrong' });
  expect(open.consoleMessages).toContainEqual({ type: 'pageerror', text: 'uncaught' });
  await open.close();
});

it('notices requests that leave the page', async () => {
  const outside = `http://127.0.0.1:${await closedPort()}`;
  const head = `<link rel="stylesheet" href="${outside}/a.css"><style>p { background: url(${outside}/b.png) }</style>`;
  const open = await openInBrowser(
    html(`<p>x</p><img alt="" src="c.png"><img alt="" src="${outside}/d.png">`, head),
  );
  const asked = open.requests.map((each) => each.replace(/^.*\//, '')).sort();
  expect(asked).toEqual(['a.css', 'b.png', 'c.png', 'd.png']);
  expect(open.consoleMessages.some((each) => each.type === 'error')).toBe(true);
  await open.close();
});

it('detects sideways scrolling, and only where there is some', async () => {
  const wide = html('<div style="width: 600px">wide</div>');
  const narrow = await openInBrowser(wide, { width: 320, height: 600 });
  expect(await hasSidewaysScroll(narrow.page)).toBe(true);
  await narrow.close();
  const roomy = await openInBrowser(wide, { width: 800 });
  expect(await hasSidewaysScroll(roomy.page)).toBe(false);
  await roomy.close();
  const inside = html('<div style="overflow-x: auto"><div style="width: 600px">wide</div></div>');
  const boxed = await openInBrowser(inside, { width: 320 });
  expect(await hasSidewaysScroll(boxed.page)).toBe(false);
  await boxed.close();
});

it('applies the colour scheme and the medium', async () => {
  const matches = (query: string) => window.matchMedia(query).matches;
  const open = await openInBrowser(html(''), { colourScheme: 'dark', media: 'print' });
  expect(await open.page.evaluate(matches, '(prefers-color-scheme: dark)')).toBe(true);
  expect(await open.page.evaluate(matches, 'print')).toBe(true);
  await open.close();
});

it('prints to PDF in both formats and takes a picture', async () => {
  const open = await openInBrowser(html('<p>paper</p>'));
  const path = join(folder, 'page.pdf');
  // A4 is 210 mm wide (ISO 216), Letter 8.5 inches; a PDF counts in points of 1/72 inch.
  for (const [format, points] of [
    ['A4', (210 / 25.4) * 72],
    ['Letter', 8.5 * 72],
  ] as const) {
    await printToPdf(open.page, path, format);
    const pdf = readFileSync(path, 'latin1');
    expect(pdf.startsWith('%PDF-')).toBe(true);
    const width = Number(/\/MediaBox\s*\[\s*0\s+0\s+([\d.]+)/.exec(pdf)?.[1]);
    expect(Math.abs(width - points)).toBeLessThan(1);
  }
  const png = await screenshot(open.page, join(folder, 'page.png'));
  expect([...png.slice(1, 4)]).toEqual([...Buffer.from('PNG')]);
  await open.close();
});

it('fails with one sentence that says what to install', async () => {
  const attempt = startBrowser(undefined, () => [{ path: join(folder, 'none'), env: {} }]);
  await expect(attempt).rejects.toThrow(
    /^No browser could be started \(.*none.*apt-get install.*CHROME_PATH\.$/,
  );
  await expect(startBrowser(join(folder, 'other'))).rejects.toThrow(/other/);
});
