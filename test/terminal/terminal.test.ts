import { existsSync, readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';
import { Screen } from './Screen.js';
import { driversHere, openTerminal } from './terminal.js';

const asker = [process.execPath, fileURLToPath(new URL('asker.mjs', import.meta.url))];

/** Whether a process still runs; one that has ended and waits to be collected does not. */
async function isGone(pid: number): Promise<boolean> {
  for (let i = 0; i < 500; i += 1) {
    try {
      process.kill(pid, 0);
      const state = `/proc/${pid}/stat`;
      if (existsSync(state) && /\) Z /.test(readFileSync(state, 'utf8'))) return true;
    } catch {
      return true;
    }
    await new Promise((done) => setTimeout(done, 20));
  }
  return false;
}

describe.each(driversHere())('a terminal opened by %s', (driver) => {
  it('is a terminal of the size asked for, takes lines, and passes on the exit code', async () => {
    const terminal = openTerminal(asker, { columns: 64, rows: 20 }, driver);
    await terminal.waitFor('Mass [kg]:');
    expect(terminal.screen()).toContain('terminals true true true size 64x20');
    terminal.type('1,484 µg');
    await terminal.waitFor('kept 1,484 µg');
    await terminal.waitFor('Mass [kg]:');
    terminal.type('end');
    await terminal.waitFor(/b.e$/m);
    expect(await terminal.exit).toBe(7);
    expect(terminal.screen().split('\n').slice(1)).toEqual([
      'Mass [kg]: 1,484 µg',
      'kept 1,484 µg',
      'Mass [kg]: end',
      'bye',
    ]);
  });

  it('waits for what comes after the last line typed', async () => {
    const terminal = openTerminal(asker, {}, driver);
    await terminal.waitFor('Mass [kg]:');
    terminal.type('redraw');
    await terminal.waitFor('drawn');
    await terminal.waitFor('Mass [kg]:');
    expect(terminal.screen()).toContain('\nelapsed 3 s\ndrawn\n');
    expect(terminal.screen()).not.toContain('elapsed 1 s');
    await expect(terminal.waitFor('terminals', 50)).rejects.toThrow(/50 ms passed[\s\S]*elapsed 3 s/);
  });

  it('sends Ctrl-C as a key', async () => {
    const terminal = openTerminal(asker, {}, driver);
    await terminal.waitFor('Mass [kg]:');
    terminal.send('\x03');
    await terminal.waitFor('stopped by Ctrl-C');
    expect(await terminal.exit).toBe(3);
    await expect(terminal.waitFor('more')).rejects.toThrow(/The program ended/);
  });

  it('kills the program and what it has started', async () => {
    const terminal = openTerminal(asker, {}, driver);
    await terminal.waitFor('Mass [kg]:');
    terminal.type('child');
    const pid = Number((await terminal.waitFor(/child \d+/)).slice(6));
    expect(pid).toBeGreaterThan(1);
    expect(await terminal.kill()).toBe(128 + 9);
    expect(await isGone(pid)).toBe(true);
    expect(await terminal.kill()).toBe(128 + 9);
  });
});

describe('the screen', () => {
  const shown = (...parts: string[]) => {
    const screen = new Screen(10, 4);
    for (const part of parts) screen.write(part);
    return screen.text();
  };
  it.each([
    ['colours', '\x1b[31mred\x1b[0m\x1b[38;5;12m!', 'red!'],
    ['a title and other commands', '\x1b]0;title\x07a\x1b(B\x1b=b\x1b[?25lc', 'abc'],
    ['a line written over', 'abc\rX', 'Xbc'],
    ['a line erased', 'abc\r\x1b[KX', 'X'],
    ['a backspace', 'abc\b \b', 'ab'],
    ['a column', 'abc\x1b[5Gx', 'abc x'],
    ['a move up', 'one\r\ntwo\x1b[1A\rO', 'One\ntwo'],
    ['erasing below', 'one\r\ntwo\r\nthree\x1b[2A\x1b[3G\x1b[J', 'on'],
    ['a line too long', '0123456789abc\r\nx', '0123456789abc\nx'],
    ['a long line redrawn', '0123456789abc\x1b[1A\r\x1b[Jx', 'x'],
    [
      'a cleared screen, which stays in the record',
      'old\x1b[1;1H\x1b[0Jnew\x1b[2J\x1b[Hlast',
      'old\nnew\nlast',
    ],
    ['a tabulator', 'a\tb', 'a       b'],
  ])('shows %s', (_what, output, text) => expect(shown(output)).toBe(text));
  it('puts together a sequence that comes in pieces', () => expect(shown('a\x1b', '[3', '1mb')).toBe('ab'));
});
