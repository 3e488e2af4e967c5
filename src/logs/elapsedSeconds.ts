import type { TimeForm } from './types.js';

const scale: Partial<Record<TimeForm, number>> = {
  'elapsed-s': 1,
  'elapsed-ms': 1e-3,
  'elapsed-min': 60,
  'elapsed-h': 3600,
  'epoch-s': 1,
  'epoch-ms': 1e-3,
};

/** Seconds from the first time to another one, both as the export writes them. */
export function elapsedSeconds(value: number, first: number, form: TimeForm): number {
  const factor = scale[form] ?? Number.NaN;
  // Dividing keeps 0.3 s out of 300 ms; multiplying by 0.001 doesn't.
  return factor === 1e-3 ? (value - first) / 1000 : (value - first) * factor;
}

/** Whether a clock without a date has passed midnight: a time of day that falls from evening to morning. */
export function passesMidnight(beforeS: number, afterS: number): boolean {
  return beforeS > 79200 && beforeS <= 86400 && afterS < 7200;
}
