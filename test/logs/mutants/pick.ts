/** Numbers from 0 to 1. */
export type Random = () => number;

/** A whole number from 0 to below `count`. */
export function whole(random: Random, count: number): number {
  return Math.floor(random() * count);
}

/** One of some things. */
export function pick<T>(random: Random, from: readonly T[]): T {
  return from[whole(random, from.length)]!;
}
