import type { RunCurves } from '../../evaluation/index.js';

/** How a file of curves begins. */
export const curveCsvHead = 'run,part,model,time (s),observed (K)';

const columns = [
  'run',
  'part',
  'model',
  'time (s)',
  'observed (K)',
  'fitted (K)',
  'residual (K)',
  'half-width of the curve (K)',
  'half-width of one block (K)',
];

/** The block means of each part with its best curve, one row a block; times from the zero of the run. */
export function curveCsv({ run, parts }: RunCurves): [Record<string, string | number | null>[], string[]] {
  const rows = parts.flatMap(({ name, fits }) =>
    fits.slice(0, 1).flatMap(({ model, fit: { curve }, startS }) =>
      curve.timesS.map((timeS, k) => ({
        run: run.id,
        part: name,
        model,
        'time (s)': timeS + startS,
        'observed (K)': curve.observedK[k] ?? null,
        'fitted (K)': curve.fittedK[k] ?? null,
        'residual (K)': curve.residualsK[k] ?? null,
        'half-width of the curve (K)': curve.confidenceK?.[k] ?? null,
        'half-width of one block (K)': curve.predictionK?.[k] ?? null,
      })),
    ),
  );
  return [rows, columns];
}
