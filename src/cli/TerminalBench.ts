import { type Interface, createInterface } from 'node:readline';
import type { Bench, Question } from '../protocols/index.js';
import { formatDuration } from '../units/index.js';
import { printable } from './printable.js';
import { wrapped } from './wrapped.js';

/**
 * A bench at a terminal: one question at a time, the unit and the plausible range beside it, a default in brackets,
 * and a running timer where a step waits. Lines typed ahead are kept in order; the end of input and Ctrl-C pause.
 */
export class TerminalBench implements Bench {
  private readonly lines: string[] = [];
  private readonly reader: Interface;
  private waiting: ((line: string) => void) | null = null;
  private ended = false;

  constructor(
    input: NodeJS.ReadStream = process.stdin,
    private readonly output: NodeJS.WriteStream = process.stdout,
  ) {
    this.reader = createInterface({ input, output, terminal: output.isTTY === true, historySize: 0 });
    this.reader.on('line', (line) => this.take(line));
    this.reader.on('close', () => this.end());
    this.reader.on('SIGINT', () => {
      this.output.write('\n');
      this.reader.close();
    });
  }

  private take(line: string): void {
    const waiting = this.waiting;
    this.waiting = null;
    if (waiting) waiting(line);
    else this.lines.push(line);
  }

  private end(): void {
    this.ended = true;
    // Closed while a question stands: what was kept is kept, the run goes on later.
    this.take('pause');
  }

  say(text: string): void {
    for (const line of printable(text).split('\n'))
      this.output.write(`${wrapped(line, this.output.columns ?? 80)}\n`);
  }

  kept(text: string): void {
    this.output.write(`  ${printable(text)}\n`);
  }

  refuse(_question: Question, _typed: string, reason: string): void {
    this.say(`  ${reason}`);
  }

  now(): Date {
    return new Date();
  }

  async ask(question: Question): Promise<string> {
    const already = this.lines.shift();
    this.reader.setPrompt(promptOf(question));
    if (already !== undefined) {
      this.output.write(`${promptOf(question)}${already}\n`);
      return already;
    }
    if (this.ended) return 'pause';
    this.reader.prompt();
    const redraw =
      question.timerFrom === undefined || !this.output.isTTY
        ? null
        : setInterval(() => this.tick(question), 1000);
    try {
      return await new Promise<string>((resolve) => {
        this.waiting = resolve;
      });
    } finally {
      if (redraw) clearInterval(redraw);
    }
  }

  /** Draws the prompt again with the time gone by; what is being typed stays. */
  private tick(question: Question): void {
    this.reader.setPrompt(promptOf(question));
    this.reader.prompt(true);
  }

  close(): void {
    this.waiting = null;
    this.reader.close();
  }
}

/** "Room temperature (°C, -10 to 45) [20]: " */
export function promptOf(question: Question, now = Date.now()): string {
  const timer =
    question.timerFrom === undefined
      ? ''
      : `[${formatDuration(Math.max(0, Math.floor((now - Date.parse(question.timerFrom)) / 1000)))}] `;
  const inside =
    question.range ??
    question.unit ??
    optionsText(question.options) ??
    (question.kind === 'yes-no' ? 'yes, no' : '');
  const beside = inside === '' ? '' : ` (${inside})`;
  const fallback = question.kind === 'yes-no' ? 'yes' : question.default;
  const bracket = fallback === undefined ? '' : ` [${fallback}]`;
  const end = /[?:]$/.test(question.text) && beside === '' && bracket === '' ? ' ' : ': ';
  const text = question.text.replace(/\?$/, beside === '' && bracket === '' ? '?' : '');
  return printable(`${timer}${text}${beside}${bracket}${end}`);
}

/** All options where they are few, else the first ones; ? lists them all. */
function optionsText(options: readonly string[] | undefined): string | undefined {
  if (options === undefined || options.join(', ').length <= 45) return options?.join(', ');
  return `${options.slice(0, 3).join(', ')}, ...`;
}
