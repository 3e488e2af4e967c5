import { type Log, readExport } from '../../src/logs/index.js';

/** Uniform draws from 0 to 1 that are the same on every machine (mulberry32). */
export function draws(seed: number): () => number {
  let state = seed >>> 0;
  return () => {
    state = (state + 0x6d2b79f5) >>> 0;
    let mixed = Math.imul(state ^ (state >>> 15), state | 1);
    mixed ^= mixed + Math.imul(mixed ^ (mixed >>> 7), mixed | 61);
    return ((mixed ^ (mixed >>> 14)) >>> 0) / 2 ** 32;
  };
}

interface Columns {
  readonly timesS: readonly number[];
  readonly powerW?: readonly number[];
  readonly energyWh?: readonly number[];
  readonly voltageV?: readonly number[];
  readonly currentA?: readonly number[];
  readonly powerFactor?: readonly number[];
  readonly celsius?: readonly number[];
}

const headers = {
  powerW: 'P [W]',
  energyWh: 'E [Wh]',
  voltageV: 'U [V]',
  currentA: 'I [A]',
  powerFactor: 'cos phi',
  celsius: 'T [°C]',
} as const;

/** A log from columns, by way of an export in text. */
export function logFrom(columns: Columns): Log {
  const shown = (Object.keys(headers) as (keyof typeof headers)[]).filter((key) => columns[key]);
  const head = ['t [s]', ...shown.map((key) => headers[key])].join(',');
  const lines = columns.timesS.map((time, i) => [time, ...shown.map((key) => columns[key]![i])].join(','));
  return readExport(new TextEncoder().encode(`${head}\n${lines.join('\n')}\n`));
}

/** A log of power without the way through text, for simulations of many; readings in steps of 0.1 W. */
export function quickPower(timesS: readonly number[], powerW: readonly number[], header = 'P [W]'): Log {
  const base = readExport(new TextEncoder().encode(`t [s],${header}\n0,900.1\n1,900.2\n`));
  return {
    ...base,
    rows: timesS.length,
    timesS: Float64Array.from(timesS),
    powerW: Float64Array.from(powerW),
    startUtcMs: null,
    warnings: [],
  };
}

/** Whole numbers from 0, as many as asked for. */
export const seconds = (n: number): number[] => Array.from({ length: n }, (_, i) => i);
