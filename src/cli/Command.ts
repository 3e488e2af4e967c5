import type { Argv } from 'yargs';
import type { Outcome } from './Outcome.js';

/** A command of the program: `handler` calls one function and returns data; it neither prints nor exits. */
export interface Command {
  readonly builder: (yargs: Argv) => Argv;
  readonly handler: (args: never) => Promise<Outcome>;
}
