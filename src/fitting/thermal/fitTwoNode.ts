import { problem } from '../../errors/index.js';
import { fitModel } from './fitModel.js';
import { twoNodeModel } from './twoNodeModel.js';
import type { ThermalData, ThermalFit, ThermalFitOptions } from './types.js';

/** What may be stated about the heater body. */
export interface TwoNodeOptions extends ThermalFitOptions {
  /** Heat capacity of the body over that of load and vessel; 0 where left out. It hardly moves a fit. */
  readonly bodyRatio?: number;
  /** Whether body and load are even at the first reading (`rest`, where left out) or that is to be found out. */
  readonly bodyStart?: 'rest' | 'unknown';
}

/**
 * Fits heater body and load, coupled:
 *
 *     C_b·dT_b/dt = κ·P − G·(T_b − T),   C·dT/dt = G·(T_b − T) − UA·(T − Ta)
 *
 * The load's temperature from one fill tells κ/(C + C_b) in K/J, UA/(C + C_b) in 1/s and G·(1/C + 1/C_b) in 1/s,
 * which with T₀ are the parameters; `twoFills` gives κ and C_b. Stepped exactly. Blocks, uncertainties and errors as
 * `fitOneNode`.
 *
 * @example
 * const timesS = Array.from({ length: 241 }, (_, i) => 15 * i);
 * const temperaturesK = timesS.map((t) => 290 + 0.06 * (t - 80 * (1 - Math.exp(-t / 80))));
 * const power = { timesS: [0, 3600], powerW: [900, 900] };
 * const fit = fitTwoNode({ temperature: { timesS, temperaturesK }, power, ambient: 290 });
 * fit.parameters[0].value * 900 // => 0.0600
 * fit.quantities.find(({ name }) => name === 'lag').value // => 80.0
 */
export function fitTwoNode(data: ThermalData, options: TwoNodeOptions = {}): ThermalFit {
  const ratio = options.bodyRatio ?? 0;
  if (!(ratio >= 0 && ratio < Number.POSITIVE_INFINITY))
    throw problem('fit-input-bad', {
      what: 'The ratio of the heat capacities of body and load',
      expected: 'zero or more',
      got: String(ratio),
    });
  return fitModel(twoNodeModel(ratio, options.bodyStart === 'unknown'), data, options);
}
