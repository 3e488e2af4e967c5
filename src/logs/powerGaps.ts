import { problem } from '../errors/index.js';
import { gapFromS, longStretches } from './meaning/longStretches.js';
import type { Readings } from './Readings.js';
import type { Gap } from './types.js';

const bridgedAlwaysS = 60;
const bridgedShare = 0.02;
const mostListed = 1000;

/**
 * Intervals without a known power that are longer than ten median ones, within limits in seconds after the first
 * sample; the first 1000 of them. One longer than 60 s and 2 % of the interval is an error (common practice, no source).
 */
export function powerGaps(
  readings: Readings,
  { fromS, toS }: { readonly fromS: number; readonly toS: number },
): Gap[] {
  const longestS = Math.max(bridgedAlwaysS, bridgedShare * (toS - fromS), gapFromS(readings));
  const gaps: Gap[] = [];
  longStretches(readings, { fromS, toS }, ({ t0, t1 }) => {
    if (t1 - t0 > longestS) throw problem('log-gap', { fromS: t0, toS: t1, longestS });
    if (gaps.length < mostListed) gaps.push({ fromS: t0, toS: t1 });
  });
  return gaps;
}
