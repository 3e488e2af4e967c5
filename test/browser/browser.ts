/**
 * Opens a page in a real headless Chromium: the one that CHROME_PATH names, an installed one, or the one that comes
 * as a package. Nothing here is ever skipped: where no browser starts, the test fails and says what to install.
 */
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { pathToFileURL } from 'node:url';
import { type Browser, chromium, type Page } from 'playwright-core';
import { afterAll } from 'vitest';
import { type Candidate, installedBrowsers, packagedBrowsers } from './findBrowsers.js';

const flags = [
  '--no-sandbox',
  '--disable-gpu',
  '--disable-quic',
  '--no-first-run',
  '--disable-background-networking',
  '--disable-component-update',
  '--disable-sync',
];

export interface OpenOptions {
  /** Size of the window in CSS pixels; 1280 × 900 unless stated. */
  readonly width?: number;
  readonly height?: number;
  readonly colourScheme?: 'light' | 'dark';
  readonly media?: 'screen' | 'print';
}

export interface OpenPage {
  readonly page: Page;
  /** What the page wrote to the console, and errors that no script caught (type `pageerror`), as it comes in. */
  readonly consoleMessages: readonly { readonly type: string; readonly text: string }[];
  /** Address of everything the page asked for beside itself; none of it is let through to a network. */
  readonly requests: readonly string[];
  close(): Promise<void>;
}

let running: Promise<Browser> | undefined;

/** Starts the first browser that will. The sentence it fails with says what to do. */
export async function startBrowser(
  chosen = process.env.CHROME_PATH,
  others: () => readonly Candidate[] = () => [...installedBrowsers(), ...packagedBrowsers()],
): Promise<Browser> {
  const reasons: string[] = [];
  for (const { path, env } of chosen ? [{ path: chosen, env: {} }] : others()) {
    try {
      const environment = { ...(process.env as Record<string, string>), ...env };
      return await chromium.launch({ executablePath: path, args: flags, env: environment });
    } catch (error) {
      const missing = /error while loading shared libraries: .*|ENOENT.*|doesn't exist.*/.exec(String(error));
      reasons.push(`${path}: ${missing?.[0] ?? String(error).split('\n')[0]}`);
    }
  }
  throw new Error(
    `No browser could be started (${reasons.join('; ') || 'none was found'}); install what one needs with ` +
      '"sudo apt-get install -y libnss3 libnspr4 libexpat1", or name a Chromium in the variable CHROME_PATH.',
  );
}

/** Opens a file, or HTML given as text (it begins with "<"), and waits until it has asked for nothing for half a second. */
export async function openInBrowser(pathOrHtml: string, options: OpenOptions = {}): Promise<OpenPage> {
  running ??= startBrowser();
  const browser = await running;
  const folder = mkdtempSync(join(tmpdir(), 'heatledger-page-'));
  let path = resolve(pathOrHtml);
  if (/^\s*</.test(pathOrHtml)) {
    path = join(folder, 'page.html');
    writeFileSync(path, pathOrHtml);
  }
  const address = pathToFileURL(path).href;
  const context = await browser.newContext({
    viewport: { width: options.width ?? 1280, height: options.height ?? 900 },
    colorScheme: options.colourScheme ?? 'light',
  });
  await context.route(/^(?!file:)/, (route) => route.abort());
  const page = await context.newPage();
  await page.emulateMedia({ media: options.media ?? 'screen' });

  const consoleMessages: { type: string; text: string }[] = [];
  const requests: string[] = [];
  page.on('console', (message) => consoleMessages.push({ type: message.type(), text: message.text() }));
  page.on('pageerror', (error) => consoleMessages.push({ type: 'pageerror', text: error.message }));
  page.on('websocket', (socket) => requests.push(socket.url()));
  page.on('request', (request) => {
    const itself = request.isNavigationRequest() && request.url() === address;
    if (!itself && !/^(data|blob|about):/.test(request.url())) requests.push(request.url());
  });
  const close = async () => {
    await context.close();
    rmSync(folder, { recursive: true, force: true });
  };
  try {
    await page.goto(address, { waitUntil: 'networkidle' });
  } catch (error) {
    await close();
    throw error;
  }
  return { page, consoleMessages, requests, close };
}

/** Whether the page as a whole can be moved sideways. */
export async function hasSidewaysScroll(page: Page): Promise<boolean> {
  return page.evaluate(() => {
    const before = [window.scrollX, window.scrollY] as const;
    window.scrollTo({ left: 1e6, top: before[1], behavior: 'instant' });
    const moved = window.scrollX > 0;
    window.scrollTo({ left: before[0], top: before[1], behavior: 'instant' });
    return moved;
  });
}

/** Prints the page to a PDF file and returns its bytes. */
export async function printToPdf(page: Page, path: string, format: 'A4' | 'Letter'): Promise<Uint8Array> {
  return page.pdf({ path, format, printBackground: true });
}

/** Writes a picture of the whole page, or of the window only, to a PNG file. */
export async function screenshot(page: Page, path: string, wholePage = true): Promise<Uint8Array> {
  return page.screenshot({ path, fullPage: wholePage });
}

afterAll(async () => {
  const browser = await running?.catch(() => undefined);
  running = undefined;
  await browser?.close();
});
