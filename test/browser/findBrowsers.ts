import { execFileSync } from 'node:child_process';
import {
  accessSync,
  constants,
  existsSync,
  mkdirSync,
  mkdtempSync,
  readFileSync,
  renameSync,
  rmSync,
} from 'node:fs';
import { delimiter, join } from 'node:path';
import { fileURLToPath } from 'node:url';

/** A browser that may or may not start here. */
export interface Candidate {
  readonly path: string;
  /** Added to the environment in which it is started. */
  readonly env: Readonly<Record<string, string>>;
}

const modules = fileURLToPath(new URL('../../node_modules', import.meta.url));

const names = [
  'chromium',
  'chromium-browser',
  'google-chrome',
  'google-chrome-stable',
  'microsoft-edge',
  'chrome',
];
const elsewhere = [
  '/Applications/Chromium.app/Contents/MacOS/Chromium',
  '/Applications/Google Chrome.app/Contents/MacOS/Google Chrome',
  '/Applications/Microsoft Edge.app/Contents/MacOS/Microsoft Edge',
  'C:\\Program Files\\Google\\Chrome\\Application\\chrome.exe',
  'C:\\Program Files (x86)\\Microsoft\\Edge\\Application\\msedge.exe',
];

function executable(path: string): boolean {
  try {
    accessSync(path, constants.X_OK);
    return true;
  } catch {
    return false;
  }
}

/** Browsers installed on this machine, in the order in which they are tried. */
export function installedBrowsers(searchPath = process.env.PATH ?? ''): Candidate[] {
  const folders = [...new Set([...searchPath.split(delimiter), '/usr/bin', '/usr/local/bin', '/snap/bin'])];
  const paths = names.flatMap((name) => folders.filter(Boolean).map((folder) => join(folder, name)));
  return [...paths, ...elsewhere].filter(executable).map((path) => ({ path, env: {} }));
}

/**
 * The browser that comes as a package, unpacked once into node_modules/.cache. The second candidate is the same
 * one with the libraries of the package (NSS, NSPR, expat) before those of the system, for machines that lack them.
 */
export function packagedBrowsers(): Candidate[] {
  if (process.platform !== 'linux' || process.arch !== 'x64') return [];
  const folder = unpacked();
  const fonts = existsSync('/etc/fonts/fonts.conf') ? {} : { FONTCONFIG_PATH: join(folder, 'fonts') };
  const path = join(folder, 'chromium');
  const libraries = [process.env.LD_LIBRARY_PATH, join(folder, 'al2023', 'lib')].filter(Boolean).join(':');
  return [
    { path, env: fonts },
    { path, env: { ...fonts, LD_LIBRARY_PATH: libraries } },
  ];
}

/**
 * The package unpacks into the folder for temporary files and takes a half-written file of somebody else for a
 * whole one. So it is run in a process of its own with a folder of its own, which takes its final name when all is
 * there: two test files may do this at the same time. The environment variable makes it unpack its libraries too.
 */
function unpacked(): string {
  const { version } = JSON.parse(readFileSync(join(modules, '@sparticuz/chromium/package.json'), 'utf8'));
  const cache = join(modules, '.cache', 'heatledger');
  const folder = join(cache, `chromium-${version}`);
  if (existsSync(folder)) return folder;
  mkdirSync(cache, { recursive: true });
  const fresh = mkdtempSync(join(cache, 'unpacking-'));
  try {
    const code = "import('@sparticuz/chromium').then((m) => m.default.executablePath())";
    const env = { ...process.env, TMPDIR: fresh, AWS_EXECUTION_ENV: 'AWS_Lambda_nodejs20.x' };
    execFileSync(process.execPath, ['-e', code], { cwd: modules, env, stdio: ['ignore', 'ignore', 'pipe'] });
    if (!existsSync(folder)) renameSync(fresh, folder);
  } catch (error) {
    // Another process may have been quicker; its folder is as good.
    if (!existsSync(folder)) throw error;
  } finally {
    rmSync(fresh, { recursive: true, force: true });
  }
  return folder;
}
