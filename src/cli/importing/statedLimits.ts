import { problem } from '../../errors/index.js';
import type { PhaseLimits } from '../../logs/index.js';
import { readQuantity } from '../../units/index.js';

/** Limits of phases as typed, seconds after the first reading. */
export function statedLimits(args: {
  readonly heating?: string | undefined;
  readonly coolDown?: string | undefined;
}): PhaseLimits | undefined {
  const heating = args.heating === undefined ? null : spanOf(args.heating, '--heating');
  const coolDown = args.coolDown === undefined ? null : spanOf(args.coolDown, '--cool-down');
  if (!heating && !coolDown) return undefined;
  return {
    ...(heating ? { heatingFromS: heating[0], heatingToS: heating[1] } : {}),
    ...(coolDown ? { coolDownFromS: coolDown[0], coolDownToS: coolDown[1] } : {}),
  };
}

function spanOf(text: string, key: string): readonly [fromS: number, toS: number] {
  const parts = text.split('..');
  if (parts.length !== 2) {
    const message = `${key} is written from..to, in time after the first reading, such as 150s..45min or 0:02:30..0:45:00; this was "${text}".`;
    throw problem('option-bad', { message }, { key });
  }
  const read = (part: string) => readQuantity(part, { kind: 'time', unit: 's' }, { key }).si;
  return [read(parts[0]!), read(parts[1]!)];
}
