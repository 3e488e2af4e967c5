import { homedir } from 'node:os';
import { type Workbook, findWorkbook, openWorkbook } from '../workbook/index.js';

/** What a command returns: data for a program, lines for a person. Only runCommand prints. */
export interface Outcome {
  readonly data: unknown;
  readonly lines: readonly string[];
  /** Told on stderr, so that a pipe keeps clean data. */
  readonly warnings?: readonly string[];
  readonly exitCode?: number;
}

export interface CommonArgs {
  readonly workbook?: string | undefined;
  readonly json?: boolean | undefined;
  readonly units?: 'si' | 'us' | undefined;
  readonly detail?: boolean | undefined;
}

/** Folder of the workbook that the options mean; it need not exist. */
export function workbookDir(args: CommonArgs): string {
  return findWorkbook({ named: args.workbook, current: process.cwd(), home: homedir() });
}

export function theWorkbook(args: CommonArgs): Workbook {
  return openWorkbook(workbookDir(args));
}

/** True where questions can be asked. */
export function atTerminal(args: CommonArgs): boolean {
  return process.stdin.isTTY === true && process.stdout.isTTY === true && args.json !== true;
}

export function unitsOf(args: CommonArgs, workbook: Workbook): 'si' | 'us' {
  return args.units ?? workbook.settings.units;
}
