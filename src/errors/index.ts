/**
 * errors: the one error class, its place, and the table of all error sentences. Every other folder may use it;
 * it uses none.
 */
export type { Choice } from './Choice.js';
export { HeatledgerError, type Place, placeText, problem } from './HeatledgerError.js';
export type { ErrorCode, ErrorDetail } from './texts.js';
