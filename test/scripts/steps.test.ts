import { spawn, spawnSync } from 'node:child_process';
import {
  cpSync,
  existsSync,
  mkdirSync,
  mkdtempSync,
  readFileSync,
  rmSync,
  symlinkSync,
  writeFileSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';

const top = fileURLToPath(new URL('../..', import.meta.url));
const project = mkdtempSync(join(tmpdir(), 'heatledger-steps-'));
const steps = join(project, '.scripts', 'steps.mjs');

/** A project of one file, with the scripts and the compiler of this one. */
beforeAll(() => {
  mkdirSync(join(project, 'src', 'cli'), { recursive: true });
  for (const name of ['.scripts', 'tsconfig.json', 'package.json']) {
    cpSync(join(top, name), join(project, name), { recursive: true });
  }
  symlinkSync(join(top, 'node_modules'), join(project, 'node_modules'), 'junction');
});
afterAll(() => rmSync(project, { recursive: true, force: true }));

const built = (name: string) => join(project, 'dist', 'cli', name);
const main = (text: string) => writeFileSync(join(project, 'src', 'cli', 'main.ts'), text);

/** Whether the build succeeds, and what it says. */
function build(options = '') {
  const code = `const m = await import(${JSON.stringify(steps)}); console.log(m.build(${options}));`;
  const result = spawnSync(process.execPath, ['--input-type=module', '-e', code], { encoding: 'utf8' });
  return { good: result.stdout.trim() === 'true', said: result.stderr };
}

describe('the build', () => {
  it('compiles, and does nothing when nothing has changed unless forced', () => {
    main("export const a = 1;\nconsole.log('one');\n");
    expect(build()).toEqual({ good: true, said: 'Building (tsc).\n' });
    expect(readFileSync(built('main.js'), 'utf8')).toContain("console.log('one')");
    expect(build()).toEqual({ good: true, said: '' });
    expect(build('{ force: true }')).toEqual({ good: true, said: 'Building (tsc).\n' });
  });

  it('builds again when a source or the output has changed, and removes what is stale', () => {
    writeFileSync(built('old.js'), '');
    expect(build().said).toContain('Building');
    expect(existsSync(built('old.js'))).toBe(false);
    writeFileSync(built('main.js'), 'broken');
    expect(build().said).toContain('Building');
    main("export const a = 2;\nconsole.log('two');\n");
    expect(build().said).toContain('Building');
    expect(readFileSync(built('main.js'), 'utf8')).toContain("console.log('two')");
  });

  it('fails on a type error, says where, and keeps failing', () => {
    main('export const a: string = 3;\n');
    for (let i = 0; i < 2; i += 1) {
      const { good, said } = build();
      expect(good).toBe(false);
      expect(said).toMatch(/main\.ts\(1,14\): error TS2322/);
    }
    expect(readFileSync(built('main.js'), 'utf8')).toContain("console.log('two')");
  });
});

describe('a process that becomes another', () => {
  const become = (script: string) => [
    '--input-type=module',
    '-e',
    `const m = await import(${JSON.stringify(steps)}); m.becomeNode(['-e', ${JSON.stringify(script)}]);`,
  ];
  it('passes on stdin, stdout and the exit code', () => {
    const script = 'process.stdin.pipe(process.stdout); process.exitCode = 4';
    const result = spawnSync(process.execPath, become(script), { input: 'a line', encoding: 'utf8' });
    expect([result.status, result.stdout]).toEqual([4, 'a line']);
  });

  it('ends by the signal that ended the other', () => {
    const result = spawnSync(process.execPath, become("process.kill(process.pid, 'SIGKILL')"));
    expect(result.signal).toBe('SIGKILL');
  });

  it.each(['SIGTERM', 'SIGINT', 'SIGHUP'] as const)('hands on %s', async (signal) => {
    const script = `process.on('${signal}', () => process.exit(9)); setInterval(() => {}, 1000); console.log('ready')`;
    const child = spawn(process.execPath, become(script), { stdio: ['ignore', 'pipe', 'inherit'] });
    child.stdout.once('data', () => child.kill(signal));
    expect(await new Promise((done) => child.on('exit', done))).toBe(9);
  });
});
