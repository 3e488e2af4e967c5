import { betweenVariance } from './betweenVariance.js';
import { chiSquaredQuantile } from './chiSquaredQuantile.js';
import { findRoot } from './findRoot.js';
import { normalCdf } from './normalCdf.js';
import { weightedAt } from './weightedAt.js';

/** One normal distribution of a mixture; `between` is the between-run variance it stands for. */
interface Part {
  readonly weight: number;
  readonly mean: number;
  readonly variance: number;
  readonly between: number;
}

/** Normal distributions over the whole range of between-run variances that agree with the runs. */
export type Mixture = readonly Part[];

interface Node {
  readonly weight: number;
  readonly quantile: number;
}

const reach = 7;
const fine = 1 / 16;
const coarse = 1 / 2;
const medium = 1 / 4;
/** Parts of less weight than this are left out of a product of two mixtures: 1e-7 in all. */
const negligible = 1e-11;

/**
 * Mixture of the mean over the between-run variance: at each chi-squared(n − 1) quantile q the variance t solves
 * Q(t) = q, and the mean is normal about m(t) with variance 1/Σw(t); where even t = 0 gives less than q, that
 * variance times Q(0)/q.
 */
export function confidenceMixture(values: readonly number[], uncertainties: readonly number[]): Mixture {
  const atZero = weightedAt(values, uncertainties, 0);
  let between = 0;
  return chiSquaredNodes(values.length - 1, fine)
    .toReversed()
    .map(({ weight, quantile }) => {
      if (atZero.chiSquared <= quantile) {
        const variance = atZero.chiSquared / quantile / atZero.sumOfWeights;
        return { weight, mean: atZero.mean, variance, between: 0 };
      }
      // Going down in q the variance only grows, so the one before is a good start.
      between = betweenVariance(values, uncertainties, quantile, between);
      const { mean, sumOfWeights } = weightedAt(values, uncertainties, between);
      return { weight, mean, variance: 1 / sumOfWeights, between };
    });
}

/** The same with the shared uncertainty added, itself mixed over u²·ν/chi-squared(ν) where ν is finite. */
export function withShared(mixture: Mixture, u: number, degreesOfFreedom: number): Mixture {
  const shared =
    u === 0 || degreesOfFreedom === Number.POSITIVE_INFINITY
      ? [{ weight: 1, variance: u * u }]
      : chiSquaredNodes(degreesOfFreedom, sharedStep(degreesOfFreedom)).map(({ weight, quantile }) => ({
          weight,
          variance: (u * u * degreesOfFreedom) / quantile,
        }));
  const parts: Part[] = [];
  for (const { weight, mean, variance, between } of mixture)
    for (const s of shared)
      if (shared.length === 1 || weight * s.weight > negligible)
        parts.push({ weight: weight * s.weight, mean, variance: variance + s.variance, between });
  return parts;
}

/** With few degrees of freedom u²·ν/chi-squared bends so much that half steps would cost the fourth digit at ν = 1. */
const sharedStep = (degreesOfFreedom: number) => (degreesOfFreedom < 10 ? medium : coarse);

/** Distribution of the true value of one future run: the between-run variance comes on top. */
export function ofOneFutureRun(mixture: Mixture): Mixture {
  return mixture.map((part) => ({ ...part, variance: part.variance + part.between }));
}

/** The value below which the mixture has probability p; `start` and `scale` only guide the search. */
export function mixtureQuantile(mixture: Mixture, p: number, start: number, scale: number): number {
  const weights = Float64Array.from(mixture, (part) => part.weight);
  const means = Float64Array.from(mixture, (part) => part.mean);
  const deviations = Float64Array.from(mixture, (part) => Math.sqrt(part.variance));
  const low = means.reduce(
    (least, m, k) => Math.min(least, m - 9 * deviations[k]!),
    Number.POSITIVE_INFINITY,
  );
  const high = means.reduce((most, m, k) => Math.max(most, m + 9 * deviations[k]!), Number.NEGATIVE_INFINITY);
  if (low === high) return low;
  const at = (x: number) => {
    let value = -p;
    let slope = 0;
    for (let k = 0; k < weights.length; k += 1) {
      const away = x - means[k]!;
      // A part without any spread is a step; `|| 0` is the middle of it.
      const z = away / deviations[k]! || 0;
      value += weights[k]! * normalCdf(z);
      if (Math.abs(z) < 9) slope += ((weights[k]! / deviations[k]!) * Math.exp(-0.5 * z * z)) / rootTwoPi;
    }
    return { value, slope };
  };
  return findRoot(at, [low, high], start, 1e5 * scale);
}

const rootTwoPi = Math.sqrt(2 * Math.PI);
const known = new Map<string, readonly Node[]>();

/**
 * Chi-squared quantiles and weights: the trapezoidal rule in z = Φ⁻¹(probability) from −7 to 7. The integrands are
 * smooth in z and vanish at both ends, where the rule converges faster than any power of the step; the tails reach
 * 1e-12.
 */
function chiSquaredNodes(degreesOfFreedom: number, step: number): readonly Node[] {
  const key = `${degreesOfFreedom} ${step}`;
  const found = known.get(key);
  if (found) return found;
  const count = Math.round(reach / step);
  const zs = Array.from({ length: 2 * count + 1 }, (_, k) => (k - count) * step);
  const total = zs.reduce((sum, z) => sum + Math.exp(-0.5 * z * z), 0);
  const nodes = zs.map((z) => ({
    weight: Math.exp(-0.5 * z * z) / total,
    quantile: chiSquaredQuantile(normalCdf(z), degreesOfFreedom),
  }));
  if (known.size > 100) known.clear();
  known.set(key, nodes);
  return nodes;
}
