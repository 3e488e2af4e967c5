/**
 * cli: one file a command. A command reads its options, calls one function and returns data; only runCommand prints.
 */
export { runCommand } from './runCommand.js';
