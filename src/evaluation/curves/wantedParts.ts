import { problem } from '../../errors/index.js';
import type { FoundParts, PlainPart } from './partsOf.js';
import type { CurveOptions, PartName, SkippedFit } from './types.js';

/**
 * The parts to be fitted, in seconds of the temperature log: those that the log shows, or the stretch that a person states. A
 * model that is asked for belongs to one of them.
 */
export function wantedParts(
  found: FoundParts,
  { model, fromS, toS }: CurveOptions,
  zeroS: number,
  endS: number,
): readonly PlainPart[] {
  const offS = found.heating?.toS ?? null;
  const stated = fromS !== undefined || toS !== undefined;
  const name: PartName | null =
    model !== undefined
      ? model === 'coolDown'
        ? 'cool-down'
        : 'warm-up'
      : stated
        ? offS !== null && (fromS ?? 0) + zeroS < offS
          ? 'warm-up'
          : 'cool-down'
        : null;
  if (name === null) return found.parts;
  const own = found.parts.find((part) => part.name === name);
  if (!stated) {
    if (own) return [approachPart(own, model, offS)];
    const part = name === 'warm-up' ? 'heating' : 'cool-down';
    const why = found.phases.absent.find((each) => each.name === part)?.why ?? `the log shows no ${part}`;
    throw problem('curve-part-missing', { part, why }, {}, 'State the stretch: --from 35min --to 95min');
  }
  const from = fromS === undefined ? (own?.stretch.fromS ?? 0) : fromS + zeroS;
  const to = toS === undefined ? (own?.stretch.toS ?? endS) : toS + zeroS;
  if (!(to > from && to > 0 && from < endS)) {
    const minutes = (s: number) => `${Number(((s - zeroS) / 60).toFixed(1))} min`;
    throw problem('curve-stretch-empty', {
      from: minutes(from),
      to: minutes(to),
      logFrom: minutes(0),
      logTo: minutes(endS),
    });
  }
  const afterHeatingS = name === 'warm-up' && offS !== null ? Math.max(0, to - offS) : null;
  return [{ name, stretch: { fromS: from, toS: to }, evidence: 'as stated', afterHeatingS }];
}

/** An approach has one power: it ends with the heating. */
function approachPart(part: PlainPart, model: CurveOptions['model'], offS: number | null): PlainPart {
  if (model !== 'approach' || offS === null) return part;
  const stretch = { fromS: part.stretch.fromS, toS: Math.min(part.stretch.toS, offS) };
  return { ...part, stretch, evidence: 'from switch-on to the end of the heating', afterHeatingS: 0 };
}

/** Parts that the log doesn't show, with the reason; nothing where a person asked for one thing only. */
export function absentParts(found: FoundParts, { model, fromS, toS }: CurveOptions): SkippedFit[] {
  if (model !== undefined || fromS !== undefined || toS !== undefined) return [];
  const there = new Set<string>(found.parts.map(({ name }) => name));
  return found.phases.absent
    .filter(
      ({ name }) =>
        (name === 'heating' && !there.has('warm-up')) || (name === 'cool-down' && !there.has('cool-down')),
    )
    .map(({ name, why }) => ({ what: name === 'heating' ? 'warm-up' : 'cool-down', why }));
}
