import type { Prepared } from './Prepared.js';
import type { FitVerdict, Stretch, ThermalFit } from './types.js';

/** A fit that nobody has judged yet. */
export type Unjudged = Omit<ThermalFit, 'verdict'>;

/** Below this probability a test speaks of structure; four tests together then cry wolf in less than one of a hundred. */
const significant = 0.002;
/** Structure matters from these parts of the span of the curve on, in the mean and at one place (common practice, no source). */
const materialMean = 0.0025;
const materialPeak = 0.005;
/** Minutes after the beginning of the heating that are tried to be left out. */
const triedMinutes = [2, 4, 6, 8, 10, 15, 20];

/** What a verdict looks at besides the fit itself. */
export interface Evidence {
  /** Of ordinary least squares: places are found in them. */
  readonly ordinaryResidualsK: readonly number[];
  /** Names of parameters that lie on a bound. */
  readonly atBounds: readonly string[];
}

/** What is said of a fit; `again` fits once more with a stretch left out. */
export function verdictOf(
  fit: Unjudged,
  { ordinaryResidualsK, atBounds }: Evidence,
  data: Prepared,
  again: (leaveOut: Stretch) => Unjudged,
): FitVerdict {
  if (!fit.converged || fit.covariance === null) {
    const why = fit.converged ? fit.covarianceReason : fit.stopReason;
    const sentence = atBounds.includes('couplingRate')
      ? 'No heater body is seen in these data: the load follows the heater at once. One node does.'
      : `These data don't settle the curve: ${why}.`;
    return { fits: false, sentence, where: null, leaveOut: null };
  }
  if (isFit(fit)) return { fits: true, sentence: fitWords(fit, data), where: null, leaveOut: null };
  const leaveOut = cure(fit, data, again);
  const ordinary = { ...fit, curve: { ...fit.curve, residualsK: ordinaryResidualsK } };
  const where = leaveOut ?? worstStretch(ordinary);
  return { fits: false, sentence: misfitWords(ordinary, data, where, leaveOut !== null), where, leaveOut };
}

/** Whether a test speaks of structure in what is left. */
function hasStructure({ tests }: Unjudged): boolean {
  return tests.some(({ probability }) => probability !== null && probability < significant);
}

/** Whether what is left shows no structure, or only one too small to matter. */
function isFit(fit: Unjudged): boolean {
  if (!hasStructure(fit)) return true;
  const { curve, residualStandardDeviationK } = fit;
  const spanK = Math.max(...curve.fittedK) - Math.min(...curve.fittedK);
  const peakK = Math.max(...curve.residualsK.map(Math.abs));
  return residualStandardDeviationK <= materialMean * spanK && peakK <= materialPeak * spanK;
}

/** The shortest stretch from the beginning of the heating, or of the log, without which the curve fits. */
function cure(fit: Unjudged, data: Prepared, again: (leaveOut: Stretch) => Unjudged): Stretch | null {
  const { fromS, toS } = data.used;
  const beginS = data.heating === null ? fromS : Math.max(fromS, data.heating.fromS);
  const parameters = fit.parameters.length;
  for (const minutes of triedMinutes) {
    const leaveOut = { fromS: beginS, toS: beginS + 60 * minutes };
    // Most of the readings must stay, or what fits is no longer the test.
    if (leaveOut.toS - fromS > (toS - fromS) / 2) return null;
    if (fit.blocks.count - (60 * minutes) / data.blockS < 3 * parameters) return null;
    const other = again(leaveOut);
    if (other.converged && isFit(other)) return leaveOut;
  }
  return null;
}

/** The run of residuals of one sign with the largest sum. */
function worstStretch({ curve: { timesS, residualsK }, blocks }: Unjudged): Stretch {
  let worst = { from: 0, to: 0, sum: -1 };
  for (let from = 0; from < residualsK.length; ) {
    let to = from;
    let sum = 0;
    while (to < residualsK.length && residualsK[to]! > 0 === residualsK[from]! > 0)
      sum += Math.abs(residualsK[to++]!);
    if (sum > worst.sum) worst = { from, to: to - 1, sum };
    from = to;
  }
  return {
    fromS: Math.max(0, timesS[worst.from]! - blocks.lengthS / 2),
    toS: timesS[worst.to]! + blocks.lengthS / 2,
  };
}

function fitWords(fit: Unjudged, { stepK }: Prepared): string {
  const { residualStandardDeviationK, readingScatterK, model } = fit;
  if (hasStructure(fit)) {
    const two = model === 'oneNode' ? '; two nodes may follow it closer' : '';
    return `The curve fits to ${kelvin(residualStandardDeviationK)}; what is left is more than noise, yet too small to matter${two}.`;
  }
  const noise = kelvin(Math.max(readingScatterK, residualStandardDeviationK));
  const steps =
    stepK > 2 * readingScatterK || (stepK > 0.02 && stepK > residualStandardDeviationK)
      ? ` and the ${kelvin(stepK)} steps of the thermometer`
      : '';
  return `The curve fits; what is left is noise of ${noise}${steps}.`;
}

function misfitWords(fit: Unjudged, { heating }: Prepared, where: Stretch, cured: boolean): string {
  const { curve, model } = fit;
  const within = curve.residualsK.filter(
    (_, k) => curve.timesS[k]! >= where.fromS && curve.timesS[k]! <= where.toS,
  );
  const most = within.reduce((a, b) => (Math.abs(b) > Math.abs(a) ? b : a), 0);
  const off = `${kelvin(Math.abs(most))} ${most < 0 ? 'below' : 'above'} the curve`;
  const orTwo = model === 'oneNode' ? ', or use two nodes' : '';
  if (cured) {
    const length = `${minutes(where.toS - where.fromS)} minutes`;
    return heating
      ? `The load was not stirred in the first ${length} of heating (readings up to ${off}): leave them out${orTwo}.`
      : `The first ${length} don't fit (readings up to ${off}), the rest does: leave them out.`;
  }
  const what = `The curve doesn't fit: from minute ${minutes(where.fromS)} to ${minutes(where.toS)} the readings lie up to ${off}`;
  return model === 'oneNode'
    ? `${what}. A heater body that warms first and gives its heat off later does that: use two nodes.`
    : `${what}. Look what happened then: lid, stirring, draught, a sensor that moved.`;
}

const minutes = (seconds: number): string => String(Math.round(seconds / 60));

const kelvin = (value: number): string => `${Number(value.toPrecision(value >= 0.1 ? 2 : 1))} K`;
