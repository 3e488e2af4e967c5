import type { CurveFit, CurvePart, RunCurves } from './types.js';

/** The one thing to do next, in words, and the command for it. */
export interface NextThing {
  readonly sentence: string;
  /** Without the name of the program. */
  readonly command: string;
}

/** A loss that is known worse than this asks for a cool-down of its own. */
const WELL_KNOWN = 0.15;

/**
 * What helps most after a fit: leave a stretch out, let it cool longer, two fills, or the biggest doubt.
 *
 * @example
 * const curves = { run: { id: 'vat-warmer-full-01', setting: 'full' }, heater: { id: 'vat-warmer' }, parts: [] };
 * nextThing(curves).command // => 'test cool-down --heater vat-warmer --setting full'
 */
export function nextThing(curves: RunCurves): NextThing {
  const { run, parts, heater } = curves;
  const bad = parts.find((part) => part.fits[0]?.fit.verdict.fits === false);
  if (bad) return aboutMisfit(run.id, bad, bad.fits[0] as CurveFit);
  const at = `--heater ${heater.id} --setting ${run.setting}`;
  const ua = bestLoss(parts);
  if (!(ua !== null && ua.expandedUncertainty <= WELL_KNOWN * ua.value))
    return {
      sentence:
        'What helps most: let the load cool for 40 minutes or more with the logger on; the fall tells the loss to the room.',
      command: `test cool-down ${at}`,
    };
  const kappa = parts
    .flatMap((part) => part.fits[0]?.quantities ?? [])
    .find(({ name }) => name === 'kappa')?.result;
  const doubt = (kappa ?? ua).budget.find((row) => row.correlationOf === undefined);
  if (doubt?.source.id.includes('body'))
    return {
      sentence:
        'What helps most: two fills, a third and full; they tell the heat capacity of the heater body.',
      command: `test two-fills ${at}`,
    };
  const what = kappa ? 'the share that reaches the load' : 'the loss';
  return {
    sentence: `The biggest doubt in ${what}: ${doubt?.source.name ?? 'the scatter of the log'}.`,
    command: `fit ${run.id} --detail`,
  };
}

function bestLoss(parts: readonly CurvePart[]) {
  const all = parts.flatMap((part) => part.fits[0]?.quantities.filter(({ name }) => name === 'ua') ?? []);
  const known = all.flatMap(({ result }) => (result && result.value > 0 ? [result] : []));
  return known.sort((a, b) => a.expandedUncertainty / a.value - b.expandedUncertainty / b.value)[0] ?? null;
}

/** A stretch that does not fit is left out; times count from the zero of the run. */
function aboutMisfit(run: string, part: CurvePart, { fit, startS, model }: CurveFit): NextThing {
  const names = {
    approach: 'approach',
    coolDown: 'cool-down',
    oneNode: 'one-node',
    twoNode: 'two-nodes',
  } as const;
  const where = fit.verdict.leaveOut ?? fit.verdict.where;
  const name = names[model];
  if (where === null)
    return {
      sentence: 'These readings are too few for this curve. Log for longer, or choose shorter blocks.',
      command: `fit ${run} --model ${name} --block 30s`,
    };
  const second = (s: number) => `${Math.round(s + startS)}s`;
  return {
    sentence:
      fit.verdict.leaveOut !== null
        ? 'Try it without that stretch.'
        : `Look what happened then${part.name === 'warm-up' ? ' (stirring, lid, a sensor that moved)' : ' (lid, draught, a sensor that moved)'}, and try without that stretch.`,
    command: `fit ${run} --model ${name} --leave-out ${second(where.fromS)}..${second(where.toS)}`,
  };
}
