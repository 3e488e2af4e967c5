import { problem } from '../errors/index.js';
import { type Quantity, add, constant, errorOf, multiply, scale, subtract } from '../uncertainty/index.js';
import { airDensity, buoyancyFactor, density, saturationPressurePa } from '../water/index.js';
import { type RunContext, neededQuantity, roleQuantity } from './RunContext.js';

/** Share of the water that may leave as steam up to a temperature, where nobody weighed; common practice, no source. */
const STEAM_ALLOWANCE = {
  lidOn: { most: 0.005, toK: 333.15 },
  open: { most: 0.02, toK: 353.15 },
} as const;
const DEFAULT_AMBIENT_K = 293.15;
const DEFAULT_HUMIDITY = 0.5;

export interface Masses {
  /** Water before and after, and what left as steam; kg, buoyancy corrected. */
  readonly before: Quantity;
  readonly after: Quantity;
  readonly steam: Quantity;
  /** The empty vessel; its own buoyancy cancels in the water and is far below its doubt here. */
  readonly vessel: Quantity;
  readonly weighedAfter: boolean;
}

/**
 * Masses of a run: m1 = (W_full − W_empty)·(1 − ρa/8000)/(1 − ρa/ρw), and m2 from the weighing right after the end
 * temperature was read. Where that weighing was skipped the steam is an allowance: half of what may have left, give
 * or take the other half.
 */
export function massesOf(
  context: RunContext,
  startK: number,
  endK: number,
  pressurePa: number,
  ambientK: number | null,
): Masses {
  const empty = neededQuantity(context, 'emptyMass');
  const full = neededQuantity(context, 'fullMass');
  if (full.value <= empty.value) {
    throw problem(
      'mass-negative',
      { full: `${full.value} kg`, empty: `${empty.value} kg` },
      { file: context.run.id },
    );
  }
  const air = airDensity(pressurePa, clamp(ambientK ?? DEFAULT_AMBIENT_K, 273.15, 333.15), DEFAULT_HUMIDITY);
  const factor = buoyancyFactor(air, density(startK, pressurePa));
  const before = scale(subtract(full, empty), factor);
  const final = roleQuantity(context, 'finalMass');
  if (final) {
    const after = scale(subtract(final, empty), factor);
    return { before, after, steam: subtract(before, after), vessel: empty, weighedAfter: true };
  }
  const steam = allowedSteam(context, before, endK);
  return { before, after: subtract(before, steam), steam, vessel: empty, weighedAfter: false };
}

function allowedSteam(context: RunContext, before: Quantity, endK: number): Quantity {
  const lid = lidOf(context) === 'on' ? 'lidOn' : 'open';
  // Hotter water gives off more, as its vapour pressure grows.
  const { most, toK } = STEAM_ALLOWANCE[lid];
  const half = (most / 2) * (saturationPressurePa(Math.max(endK, toK)) / saturationPressurePa(toK));
  const error = context.book.get({
    id: `allowance:steam:heater:${context.run.heater}:${context.run.setting}:${lid}`,
    name: 'steam that was not weighed',
    halfWidth: 1,
    // Much the same in every run of a setting, so repeats don't shrink it.
    scope: 'setting',
    assumed: true,
  });
  return multiply(before, add(constant(half), scale(errorOf(error), half)));
}

/** "on", "off" or what else the protocol offers; null where it doesn't ask. */
export function lidOf(context: Pick<RunContext, 'protocol' | 'run'>): string | null {
  const step = context.protocol.steps.find((each) => each.kind === 'choice' && each.role === 'lid');
  return step ? (context.run.choices[step.id] ?? null) : null;
}

function clamp(value: number, low: number, high: number): number {
  return Math.min(high, Math.max(low, value));
}
