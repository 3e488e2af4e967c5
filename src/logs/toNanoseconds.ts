// Beyond this a double has no nanoseconds.
const longestS = 9e6;
// More than subtracting leaves behind, and less than anything that a log shows on purpose.
const residueS = 2.5e-10;

/**
 * Seconds without what subtracting two times of day leaves behind the ninth decimal: 21600.2 s less 21600 s is
 * 0.2 s and not 0.2000000000007276 s. A third of a second stays as it is.
 */
export function toNanoseconds(seconds: number): number {
  const rounded = Math.round(seconds * 1e9) / 1e9;
  return Math.abs(seconds) < longestS && Math.abs(rounded - seconds) < residueS ? rounded : seconds;
}
