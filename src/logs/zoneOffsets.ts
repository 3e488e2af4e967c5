import { Temporal } from 'temporal-polyfill';
import { problem } from '../errors/index.js';

const blockMs = 3_600_000;

/** The offsets of a local time, and the span of local times around it, in milliseconds, that have the same and only one. */
export interface LocalOffsets {
  readonly offsets: readonly number[];
  /** Empty, from and to alike, where a change is near. */
  readonly fromMs: number;
  readonly toMs: number;
}

/**
 * The offsets from UTC, in milliseconds, that a local time can have in a zone: one as a rule, two in the hour
 * that is repeated when summer time ends, none in the hour that is left out when it begins.
 *
 * The zone library is asked once for an hour of the log; only hours with a change in them are asked row by row.
 */
export function zoneOffsets(zone: string): (localMs: number) => LocalOffsets {
  const timeZone = checkedZone(zone);
  return (localMs) => {
    const fromMs = Math.floor(localMs / blockMs) * blockMs;
    const toMs = fromMs + blockMs;
    const start = possibleOffsets(timeZone, fromMs);
    const end = possibleOffsets(timeZone, toMs - 1);
    if (start.length === 1 && end.length === 1 && start[0] === end[0])
      return { offsets: start, fromMs, toMs };
    return { offsets: possibleOffsets(timeZone, localMs), fromMs: localMs, toMs: localMs };
  };
}

function checkedZone(zone: string): string {
  const name = /^z$/i.test(zone) ? 'UTC' : zone;
  try {
    Temporal.Instant.fromEpochMilliseconds(0).toZonedDateTimeISO(name);
    return name;
  } catch {
    throw problem('log-zone-unknown', { got: zone }, { key: '--zone' });
  }
}

function possibleOffsets(timeZone: string, localMs: number): number[] {
  const local = Temporal.Instant.fromEpochMilliseconds(Math.floor(localMs))
    .toZonedDateTimeISO('UTC')
    .toPlainDateTime();
  try {
    return [local.toZonedDateTime(timeZone, { disambiguation: 'reject' }).offsetNanoseconds / 1e6];
  } catch {
    const both = (['earlier', 'later'] as const).map((disambiguation) =>
      local.toZonedDateTime(timeZone, { disambiguation }),
    );
    // In a gap the library moves the clock: what comes back isn't what the file says.
    return both
      .filter((one) => one.toPlainDateTime().equals(local))
      .map((one) => one.offsetNanoseconds / 1e6);
  }
}
