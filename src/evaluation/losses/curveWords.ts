import { roundToUncertainty } from '../../uncertainty/index.js';
import type { Figure } from '../types.js';

interface Result {
  readonly value: number;
  readonly expandedUncertainty: number;
}

/** What a figure carries beside its efficiency, a line each; nothing where nothing is known. */
export function curveWords({ lossFree, losses, transfer }: Figure): string[] {
  const lines: string[] = [];
  if (lossFree) {
    const [low, high] = lossFree.interval;
    lines.push(
      `without the loss to the room: ${plusMinus({ value: 100 * lossFree.value, expandedUncertainty: 50 * (high - low) })} %`,
    );
  }
  if (losses) lines.push(`loss to the room: UA = ${plusMinus(losses.uaWPerK)} W/K from ${losses.from}`);
  if (!transfer) return lines;
  const { kappa, ua, bodyHeatCapacityJPerK: body, from } = transfer;
  lines.push(`coupling: κ = ${plusMinus(kappa)} from ${from}`);
  if (ua.length > 1)
    lines.push(
      `UA by fill: ${ua.map((each) => `${plusMinus(each.uaWPerK)} W/K with ${each.waterKg.toFixed(2)} kg`).join(', ')}`,
    );
  lines.push(
    body
      ? `heat capacity of the heater body: ${plusMinus(body)} J/K`
      : 'from one fill: κ holds for this fill, the heat capacity of the heater body is not known',
  );
  return lines;
}

function plusMinus({ value, expandedUncertainty }: Result): string {
  const rounded = roundToUncertainty(value, expandedUncertainty);
  return `${rounded.value} ± ${rounded.uncertainty}`;
}
