import type { Rows } from './Rows.js';

/** Rows from one to before another, without copying them. */
export function cutRows(rows: Rows, from: number, to: number): Rows {
  if (from === 0 && to >= rows.timesS.length) return rows;
  const cut = (values: Float64Array | null) => values?.subarray(from, to) ?? null;
  return {
    timesS: rows.timesS.subarray(from, to),
    powerW: cut(rows.powerW),
    energyJ: cut(rows.energyJ),
    voltageV: cut(rows.voltageV),
    currentA: cut(rows.currentA),
    powerFactor: cut(rows.powerFactor),
    temperatureK: cut(rows.temperatureK),
  };
}
