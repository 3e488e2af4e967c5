import { problem } from '../errors/index.js';

/**
 * A length of time as a clock shows it, to the nearest second: `m:ss`, from one hour on `h:mm:ss`.
 * Errors: `value-not-finite`.
 *
 * @example
 * formatDuration(751) // => "12:31"
 * formatDuration(3751) // => "1:02:31"
 */
export function formatDuration(seconds: number): string {
  if (!Number.isFinite(seconds))
    throw problem('value-not-finite', { what: 'A duration', got: String(seconds) });
  const whole = Math.round(Math.abs(seconds));
  const sign = seconds < 0 && whole > 0 ? '-' : '';
  const hours = Math.floor(whole / 3600);
  const minutes = Math.floor(whole / 60) % 60;
  const tail = String(whole % 60).padStart(2, '0');
  return hours > 0
    ? `${sign}${hours}:${String(minutes).padStart(2, '0')}:${tail}`
    : `${sign}${minutes}:${tail}`;
}
