/**
 * A person at the bench: starts the program at a terminal, answers one question after the other, and has a clock that
 * goes on by as much as the work would take.
 */
import { renameSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { emptyFolder } from '../support/folders.js';
import { environment, program } from '../support/program.js';
import { type Terminal, openTerminal } from './terminal.js';

const clockModule = fileURLToPath(new URL('clock.mjs', import.meta.url));

export class BenchClock {
  readonly file = join(emptyFolder(), 'clock');

  constructor(private ms = Date.UTC(2026, 9, 5, 9, 10)) {
    this.passes(0);
  }
  /** Lets seconds pass. Renamed into place: the program may look at any moment. */
  passes(seconds: number): void {
    this.ms += seconds * 1000;
    writeFileSync(`${this.file}.new`, String(this.ms));
    renameSync(`${this.file}.new`, this.file);
  }
}

/** Waits until something is so, looking again and again; fails after half a minute. */
export async function until(isSo: () => boolean, what: string): Promise<void> {
  for (let looks = 0; !isSo(); looks++) {
    if (looks > 1500) throw new Error(`never came: ${what}`);
    await new Promise((done) => setTimeout(done, 20));
  }
}

/** What is typed when a question stands there; the question is waited for. */
export interface Answer {
  readonly prompt: string | RegExp;
  readonly typed: string;
  /** Seconds that pass before it is typed. */
  readonly afterS?: number;
}

export class Person {
  readonly terminal: Terminal;
  /** How many answers were given. */
  answered = 0;

  constructor(
    readonly args: readonly string[],
    readonly clock: BenchClock,
    where: { readonly cwd?: string; readonly home?: string; readonly columns?: number } = {},
  ) {
    const cwd = where.cwd ?? emptyFolder();
    this.terminal = openTerminal([process.execPath, '--import', clockModule, program, ...args], {
      cwd,
      env: { ...environment(where.home ?? cwd), TEST_CLOCK: clock.file },
      ...(where.columns === undefined ? {} : { columns: where.columns }),
    });
  }

  /** Waits for a text; a line of a message may be broken at any blank. */
  sees(text: string | RegExp): Promise<string> {
    const broken =
      text instanceof RegExp ? new RegExp(text.source.replaceAll(' ', '\\s+'), text.flags) : text;
    return this.terminal.waitFor(broken);
  }

  async answer(prompt: string | RegExp, typed: string, afterS = 20): Promise<void> {
    await this.sees(prompt);
    this.clock.passes(afterS);
    this.terminal.type(typed);
    this.answered += 1;
  }

  async answers(all: readonly Answer[]): Promise<void> {
    for (const each of all) await this.answer(each.prompt, each.typed, each.afterS);
  }

  /** Waits for the end of the program and returns its exit code, all that was on the screen, and the same as one long line. */
  async end(): Promise<{ code: number; screen: string; flowing: string }> {
    const code = await this.terminal.exit;
    const screen = this.terminal.screen();
    return { code, screen, flowing: screen.replace(/\s+/g, ' ') };
  }
}
