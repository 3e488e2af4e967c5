import { formatDuration } from '../../units/index.js';

/** A moment as a person finds it in the log: "12:31 after the start". */
export function atWords(seconds: number): string {
  return `${clock(seconds)} after the start`;
}

/** A stretch of the log: "from 12:31 to 14:02 after the start". */
export function spanWords({ fromS, toS }: { readonly fromS: number; readonly toS: number }): string {
  return `from ${clock(fromS)} to ${clock(toS)} after the start`;
}

/** A number to four digits that carry meaning, without an exponent where that can be. */
export function digits(value: number, most = 4): string {
  return String(Number(value.toPrecision(most)));
}

export function wattWords(watts: number): string {
  return `${digits(watts)} W`;
}

export function whWords(joules: number, most = 4): string {
  return `${digits(joules / 3600, most)} Wh`;
}

/** "1 reading", "3 readings". */
export function countWords(count: number, one: string): string {
  return `${count} ${one}${count === 1 ? '' : 's'}`;
}

/** Short times show their fraction of a second, long ones don't need it. */
function clock(seconds: number): string {
  return Math.abs(seconds) < 60 ? `${Number(seconds.toFixed(1))} s` : formatDuration(seconds);
}
