import type { Instrument, ReadingRecord } from '../../src/workbook/index.js';

/** The dairy's invented instruments, in SI. */
export const logger: Instrument = {
  schema: 1,
  id: 'logger-1',
  kind: 'thermometer',
  name: 'thermometer logger',
  assumed: false,
  resolution: 0.1,
  certificate: {
    number: '(invented)',
    date: '2026-03-02',
    due: '2027-03-02',
    coverageFactor: 2,
    points: [
      { at: 273.15, correction: 0.04, expandedUncertainty: 0.1 },
      { at: 298.15, correction: 0.02, expandedUncertainty: 0.1 },
      { at: 323.15, correction: -0.03, expandedUncertainty: 0.16 },
    ],
  },
};

export function instrument(
  kind: Instrument['kind'],
  resolution: number,
  more: Partial<Omit<Instrument, 'kind'>>,
): Instrument {
  return { schema: 1, id: `${kind}-1`, kind, name: `the ${kind}`, assumed: false, resolution, ...more };
}

export function reading(si: number, seq = 1, typed = ''): ReadingRecord {
  const at = '2026-10-05T08:00:00.000Z';
  return { step: `step${seq}`, seq, at, hand: 'mr', typed, unit: '', value: si, si, instrument: 'any' };
}
