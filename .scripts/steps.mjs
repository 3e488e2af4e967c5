/**
 * The steps that the package scripts share: install, build, run a child process. Plain Node without a
 * dependency, because they run in a fresh clone before anything is installed. Everything they say goes to
 * stderr: stdout belongs to the command that is run afterwards.
 */
import { spawn, spawnSync } from 'node:child_process';
import { createHash } from 'node:crypto';
import { chmodSync, existsSync, mkdirSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { constants } from 'node:os';
import { basename, dirname, join, relative, resolve, sep } from 'node:path';
import { fileURLToPath } from 'node:url';

/** The top folder of the project. */
export const top = dirname(dirname(fileURLToPath(import.meta.url)));
/** The program that the build makes. */
export const program = join(top, 'dist', 'cli', 'main.js');

const installStamp = join(top, 'node_modules', '.heatledger-installed');
const buildStamp = join(top, 'dist', '.built-from.json');

/** @param {string} sentence */
export function say(sentence) {
  process.stderr.write(`${sentence}\n`);
}

/** @param {string | Buffer} data */
function digest(data) {
  return createHash('sha256').update(data).digest('hex');
}

/** @param {string} path @returns {string | undefined} */
function textOf(path) {
  return existsSync(path) ? readFileSync(path, 'utf8') : undefined;
}

/** @param {string} path @returns {unknown} */
function jsonOf(path) {
  try {
    return JSON.parse(readFileSync(path, 'utf8'));
  } catch {
    return undefined;
  }
}

/**
 * Whether node_modules, filled by somebody's own `npm ci`, holds what package-lock.json asks for. npm writes a
 * list of what it has installed at the end, so an installation that was broken off does not pass.
 * @param {string} lockText
 */
function installedByHand(lockText) {
  const wanted = JSON.parse(lockText).packages ?? {};
  const listed = jsonOf(join(top, 'node_modules', '.package-lock.json'));
  const found = /** @type {any} */ (listed)?.packages;
  if (!found) return false;
  const same = Object.entries(wanted).every(([path, entry]) => {
    if (path === '') return true;
    const there = found[path];
    return there ? there.version === entry.version : entry.optional === true;
  });
  return same && Object.keys(found).every((path) => path in wanted);
}

/** Runs `npm ci` when node_modules is missing or does not match package-lock.json. Returns whether all is well. */
export function ensureInstalled() {
  const lockText = textOf(join(top, 'package-lock.json'));
  if (lockText === undefined) {
    say('package-lock.json is missing, so it is not known which packages to install.');
    return false;
  }
  if (textOf(installStamp) === digest(lockText)) return true;
  if (!installedByHand(lockText)) {
    say('Installing the packages that package-lock.json names (npm ci); this is needed once.');
    const code = runNpm(['ci', '--include=dev', '--no-audit', '--no-fund', '--loglevel=error']);
    if (code !== 0) {
      say(`npm could not install the packages (npm ci ended with code ${code}): see its message above.`);
      return false;
    }
  }
  mkdirSync(dirname(installStamp), { recursive: true });
  writeFileSync(installStamp, digest(lockText));
  return true;
}

/** @param {string[]} args */
function runNpm(args) {
  const own = process.env.npm_execpath;
  const stdio = /** @type {['ignore', number, number]} */ (['ignore', 2, 2]);
  const result =
    own && basename(own) === 'npm-cli.js'
      ? spawnSync(process.execPath, [own, ...args], { cwd: top, stdio })
      : spawnSync('npm', args, { cwd: top, stdio, shell: process.platform === 'win32' });
  if (result.error) say(`npm could not be started: ${result.error.message}`);
  return result.status ?? 1;
}

/** @param {string} folder @returns {string[]} every file below the folder, sorted */
function filesBelow(folder) {
  if (!existsSync(folder)) return [];
  return readdirSync(folder, { withFileTypes: true, recursive: true })
    .filter((entry) => entry.isFile())
    .map((entry) => join(entry.parentPath ?? entry.path, entry.name))
    .sort();
}

/** One digest over names and contents. @param {string[]} files */
function digestOfFiles(files) {
  const hash = createHash('sha256');
  for (const file of files) {
    hash.update(`${relative(top, file).split(sep).join('/')}\0`);
    hash.update(digest(readFileSync(file)));
  }
  return hash.digest('hex');
}

function stateOfBuild() {
  const settings = ['tsconfig.json', 'package-lock.json'].map((name) => join(top, name)).filter(existsSync);
  const outputs = filesBelow(join(top, 'dist')).filter((file) => file !== buildStamp);
  return {
    sources: digestOfFiles([...settings, ...filesBelow(join(top, 'src'))]),
    outputs: digestOfFiles(outputs),
  };
}

/**
 * Compiles src to dist and removes what an earlier build left there. Does nothing when neither the sources nor
 * the output have changed since the last build. Returns whether all is well.
 * @param {{ force?: boolean }} [options]
 */
export function build({ force = false } = {}) {
  const before = stateOfBuild();
  const stamp = /** @type {any} */ (jsonOf(buildStamp));
  if (!force && stamp?.sources === before.sources && stamp?.outputs === before.outputs) return true;
  say('Building (tsc).');
  rmSync(buildStamp, { force: true });
  const args = [tool('typescript', 'tsc'), '-p', '.', '--noEmitOnError', '--listEmittedFiles'];
  const result = spawnSync(process.execPath, args, { cwd: top, encoding: 'utf8', maxBuffer: 1 << 28 });
  const lines = `${result.stdout ?? ''}${result.stderr ?? ''}`.split(/\r?\n/);
  const emitted = lines.filter((line) => line.startsWith('TSFILE: ')).map((line) => resolve(line.slice(8)));
  for (const line of lines) if (line !== '' && !line.startsWith('TSFILE: ')) say(line);
  if (result.status !== 0) {
    say('The build failed: see the messages of tsc above.');
    return false;
  }
  const fresh = new Set(emitted);
  for (const file of filesBelow(join(top, 'dist'))) if (!fresh.has(file)) rmSync(file);
  if (existsSync(program)) chmodSync(program, 0o755);
  writeFileSync(buildStamp, JSON.stringify(stateOfBuild()));
  return true;
}

/**
 * Path of a program that a package brings, from its package.json.
 * @param {string} packageName @param {string} name
 */
export function tool(packageName, name) {
  const folder = join(top, 'node_modules', packageName);
  const bin = /** @type {any} */ (jsonOf(join(folder, 'package.json')))?.bin;
  const path = typeof bin === 'string' ? bin : bin?.[name];
  if (!path) throw new Error(`The package ${packageName} brings no program ${name}.`);
  return join(folder, path);
}

/**
 * Runs a Node script in the user's own folder with the terminal of this process, hands signals on, and ends this process the
 * way the script ended: with its exit code, or by the signal that ended it.
 * @param {string[]} args
 */
export function becomeNode(args) {
  const child = spawn(process.execPath, args, { stdio: 'inherit' });
  for (const signal of /** @type {const} */ (['SIGINT', 'SIGTERM', 'SIGHUP'])) {
    // Ctrl-C at a terminal reaches the child by itself; handed on as well it would arrive twice.
    const alone = signal === 'SIGINT' && process.stdin.isTTY;
    process.on(signal, () => {
      if (!alone) child.kill(signal);
    });
  }
  child.on('error', (error) => {
    say(`The program could not be started: ${error.message}`);
    process.exitCode = 1;
  });
  child.on('exit', (code, signal) => {
    if (signal) {
      process.removeAllListeners(signal);
      process.exitCode = 128 + (constants.signals[signal] ?? 0);
      process.kill(process.pid, signal);
    } else process.exitCode = code ?? 1;
  });
}
