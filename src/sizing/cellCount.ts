import { problem } from '../errors/index.js';

/** A supply of equal cells, as stated by the user. */
export interface CellSupply {
  /** Usable energy of one cell at the rate of this job, joules. */
  readonly usableJ: number;
  /** Energy at the socket over energy from the cells, 0 to 1. */
  readonly converterEfficiency: number;
  /** Part added for ageing and cold, 0 or more. */
  readonly reserve: number;
}

export interface CellCount {
  /** For the upper end of the energy's interval. */
  readonly recommended: number;
  /** For the most likely energy; about half of all heatings would fall short. */
  readonly middle: number;
  /** Energy from the cells for the upper end, without reserve, joules. */
  readonly fromCellsJ: number;
}

/**
 * Count of cells: socket energy over converter efficiency, times 1 + reserve, over the usable energy of a cell,
 * rounded up.
 *
 * Throws `supply-bad` for a cell without energy, a converter efficiency outside (0, 1] or a negative reserve.
 *
 * @example
 * const supply = { usableJ: 360000, converterEfficiency: 0.9, reserve: 0.2 };
 * cellCount({ value: 3.6e6, interval: [3.4e6, 3.8e6] }, supply).recommended // => 15
 */
export function cellCount(
  energyJ: { readonly value: number; readonly interval: readonly [number, number] },
  supply: CellSupply,
): CellCount {
  const { usableJ, converterEfficiency, reserve } = supply;
  if (!(usableJ > 0))
    throw problem('supply-bad', { what: 'usable energy of a cell', got: `${usableJ} J` }, { key: '--cell' });
  if (!(converterEfficiency > 0 && converterEfficiency <= 1)) {
    throw problem(
      'supply-bad',
      { what: 'converter efficiency (0 to 1)', got: String(converterEfficiency) },
      { key: '--converter' },
    );
  }
  if (!(reserve >= 0))
    throw problem('supply-bad', { what: 'reserve', got: String(reserve) }, { key: '--reserve' });
  // A count that is whole but for the rounding of binary numbers (100 × 1.1) is not one cell more.
  const count = (joules: number) =>
    Math.ceil((joules / converterEfficiency / usableJ) * (1 + reserve) * (1 - 1e-12));
  return {
    recommended: count(energyJ.interval[1]),
    middle: count(energyJ.value),
    fromCellsJ: energyJ.interval[1] / converterEfficiency,
  };
}
