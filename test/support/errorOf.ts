import { HeatledgerError } from '../../src/errors/index.js';

/** The error a call throws; anything but an error of ours, and none at all, fails the test. */
export function errorOf(call: () => unknown): HeatledgerError {
  try {
    call();
  } catch (error) {
    if (error instanceof HeatledgerError) return error;
    throw error;
  }
  throw new Error('nothing was thrown');
}
