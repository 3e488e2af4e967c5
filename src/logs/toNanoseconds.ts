// Beyond this a double has no nanoseconds.
const longestS = 9e6;

/**
 * Seconds without what subtracting two times of day leaves behind the ninth decimal: 21600.2 s less 21600 s is
 * 0.2 s and not 0.2000000000007276 s.
 */
export function toNanoseconds(seconds: number): number {
  return seconds < longestS && seconds > -longestS ? Math.round(seconds * 1e9) / 1e9 : seconds;
}
