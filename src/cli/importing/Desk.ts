import { HeatledgerError, problem } from '../../errors/index.js';
import { type FreeQuestion, askUntil } from '../../protocols/index.js';
import { type CommonArgs, atTerminal } from '../Outcome.js';
import { TerminalBench } from '../TerminalBench.js';

/** Whom questions are put to: the person at the terminal, opened with the first question; null elsewhere. */
export interface Asker {
  ask<T>(question: FreeQuestion, take: (typed: string) => T | { refused: string }): Promise<T>;
  say(text: string): void;
}

/** The terminal of an import. One for all questions, so that lines typed ahead are not lost. */
export class Desk implements Asker {
  private bench: TerminalBench | null = null;

  /** Runs a work with the person at the terminal, or with nobody. */
  static async at<T>(args: CommonArgs, work: (asker: Asker | null) => Promise<T>): Promise<T> {
    if (!atTerminal(args)) return work(null);
    const desk = new Desk();
    try {
      return await work(desk);
    } finally {
      desk.bench?.close();
    }
  }

  say(text: string): void {
    this.opened().say(text);
  }

  async ask<T>(question: FreeQuestion, take: (typed: string) => T | { refused: string }): Promise<T> {
    try {
      return await askUntil(this.opened(), question, take);
    } catch (error) {
      const stopped = error instanceof HeatledgerError && error.code === 'stopped';
      throw stopped ? problem('import-stopped', {}) : error;
    }
  }

  private opened(): TerminalBench {
    this.bench ??= new TerminalBench();
    return this.bench;
  }
}
