import { HeatledgerError, problem } from '../../errors/index.js';
import { compareModels, type ThermalModelName } from '../../fitting/index.js';
import type { RunContext } from '../RunContext.js';
import { fitPart, type PartOptions } from './fitPart.js';
import { type PartInputs, type PartSetup, partSetup } from './partSetup.js';
import type { PlacedLogs } from './placeLogs.js';
import { type PartVapour, steamOver } from './steamOver.js';
import type { CurveFit, CurveOptions, CurvePart, SkippedFit } from './types.js';

/** A part that was fitted, and what it was fitted from. */
export interface FittedPart {
  readonly part: CurvePart;
  readonly setup: PartSetup;
  readonly vapour: PartVapour | null;
}

const modelNames: Readonly<Record<ThermalModelName, string>> = {
  approach: 'approach',
  coolDown: 'cool-down',
  oneNode: 'one node',
  twoNode: 'two nodes',
};

/**
 * All models that a part allows, the best by AICc first; null where none could be fitted. A model that was asked for by
 * name throws where it can't be.
 */
export function fittedPart(
  context: RunContext,
  placed: PlacedLogs,
  inputs: PartInputs & { readonly startMs: number },
  options: CurveOptions & { readonly zeroS: number },
  skipped: SkippedFit[],
): FittedPart | null {
  const { zeroS, model } = options;
  const { name, stretch } = inputs.part;
  const setup = partSetup(context, placed, inputs);
  const asked = model !== undefined || options.fromS !== undefined || options.toS !== undefined;
  if (setup === null) {
    const why = 'it holds less than two readings of the temperature';
    if (asked) throw problem('curve-part-missing', { part: name, why });
    skipped.push({ what: name, why });
    return null;
  }
  const vapour = name === 'cool-down' ? steamOver(context, setup, inputs.startMs) : null;
  const more: PartOptions = {
    leaveOut: (options.leaveOut ?? []).map(({ fromS, toS }) => ({ fromS: fromS + zeroS, toS: toS + zeroS })),
    blockS: options.blockS,
    targetK: options.targetK,
    vapour,
    clocks: placed.clocks,
    zeroS,
  };
  const fits: CurveFit[] = [];
  for (const each of model ? [model] : modelsFor(setup)) {
    try {
      fits.push(fitPart(context, setup, each, more));
    } catch (error) {
      if (!(error instanceof HeatledgerError) || asked) throw error;
      skipped.push({ what: `${modelNames[each]}, ${name}`, why: error.message });
    }
  }
  if (fits.length === 0) return null;
  const comparison = fits.length > 1 ? compareModels(fits.map(({ fit }) => fit)) : null;
  const inOrder = comparison
    ? comparison.ranked.map(({ fit }) => fits.find((each) => each.fit === fit) as CurveFit)
    : fits;
  const part: CurvePart = {
    ...inputs.part,
    stretch: { fromS: stretch.fromS - zeroS, toS: stretch.toS - zeroS },
    fits: inOrder,
    comparison,
    heatCapacity: setup.capacity && { joulesPerKelvin: setup.capacity.result, words: setup.capacity.words },
  };
  return { part, setup, vapour };
}

/** What a part allows without being asked. */
function modelsFor({ part, data }: PartSetup): ThermalModelName[] {
  if (part.name === 'cool-down') return ['coolDown'];
  return data.power ? ['oneNode', 'twoNode'] : ['approach'];
}
