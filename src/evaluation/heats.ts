import { problem } from '../errors/index.js';
import {
  type Quantity,
  add,
  approximate,
  constant,
  errorOf,
  lift,
  multiply,
  propagate,
  subtract,
} from '../uncertainty/index.js';
import {
  enthalpy,
  enthalpyDerivatives,
  formulationUncertainty,
  saturationTemperatureK,
  vapourEnthalpy,
} from '../water/index.js';
import type { Masses } from './masses.js';
import { type RunContext, withAllowances } from './RunContext.js';
import { STATED_SPECIFIC_HEAT_HALF_WIDTH, vesselMaterials } from './vesselMaterials.js';

/** How many standard uncertainties a reading may lie above the boiling point; the enthalpy of liquid ends 3 K above it. */
const BOILING_FACTOR = 3;
const LIQUID_ABOVE_BOILING_K = 2.9;

/**
 * The polynomial that Monte Carlo takes for an enthalpy from 0 °C to its end: within 1e-8 kJ/kg of the formulation at
 * the estimate's pressure. Pressure enters by its slope at the estimate; what that leaves out is 3e-6 kJ/kg for 10 hPa
 * and 1 K.
 */
const ENTHALPY_POLYNOMIAL = { degree: 16, tolerance: 1e-5 } as const;
const LOWEST_LIQUID_K = 273.15;
const HIGHEST_VAPOUR_K = 393.15;

/** Specific enthalpy of the water as a quantity of temperature and pressure, J/kg. */
export function enthalpyQuantity(context: RunContext, temperature: Quantity, pressure: Quantity): Quantity {
  const boiling = saturationTemperatureK(pressure.value);
  // Boiling water reads above its boiling point by the errors of thermometer and pressure: refused is what they can't explain.
  const slope = (boiling - saturationTemperatureK(pressure.value * 0.999)) / (pressure.value * 0.001);
  const above = subtract(temperature, multiply(constant(slope), pressure));
  const doubtK = BOILING_FACTOR * propagate(above).standardUncertainty;
  if (temperature.value > boiling + Math.min(doubtK, LIQUID_ABOVE_BOILING_K)) {
    const celsius = (kelvin: number) => `${(kelvin - 273.15).toFixed(1)} °C`;
    throw problem(
      'above-boiling',
      { got: celsius(temperature.value), boiling: celsius(boiling) },
      { file: context.run.id },
    );
  }
  const { dT, dp } = enthalpyDerivatives(temperature.value, pressure.value);
  const evaluate = ([t, p]: readonly number[]) => enthalpy(t as number, p as number);
  const exact = lift('the enthalpy of water', evaluate, [dT, dp], temperature, pressure);
  const high = boiling + LIQUID_ABOVE_BOILING_K;
  return approximate(exact, { low: LOWEST_LIQUID_K, high, ...ENTHALPY_POLYNOMIAL });
}

/** Q_w = m2·(h(T2) − h(T1)): the heat in the water that stays. */
export function waterHeat(
  context: RunContext,
  masses: Masses,
  start: Quantity,
  end: Quantity,
  pressure: Quantity,
): Quantity {
  const plain = subtract(
    enthalpyQuantity(context, end, pressure),
    enthalpyQuantity(context, start, pressure),
  );
  const formulation = context.book.get({
    id: 'lab:water-formulation',
    name: 'formulation of water properties',
    halfWidth: formulationUncertainty.relativeHalfWidth,
    scope: 'lab',
  });
  const rise = multiply(plain, add(constant(1), errorOf(formulation)));
  return multiply(masses.after, withAllowances(context, 'enthalpyRise', rise));
}

/** Q_e = (m1 − m2)·(h_g(Te) − h(T1)), with the temperature at which the steam left and the doubt of it. */
export function vapourHeat(
  context: RunContext,
  masses: Masses,
  start: Quantity,
  pressure: Quantity,
  leaving: { readonly temperatureK: number; readonly halfWidthK: number },
): Quantity {
  const error = context.book.get({
    id: `run:${context.run.id}:vapour-temperature`,
    name: 'temperature at which the steam left',
    halfWidth: leaving.halfWidthK,
    scope: 'run',
    assumed: true,
  });
  const temperature = add(constant(leaving.temperatureK), errorOf(error));
  // Central difference over a tenth of a kelvin: the curvature of h_g leaves less than 1e-7 of the slope.
  const step = 0.05;
  const slope =
    (vapourEnthalpy(temperature.value + step) - vapourEnthalpy(temperature.value - step)) / (2 * step);
  const exact = lift('the enthalpy of vapour', ([t]) => vapourEnthalpy(t as number), [slope], temperature);
  const gas = approximate(exact, { low: LOWEST_LIQUID_K, high: HIGHEST_VAPOUR_K, ...ENTHALPY_POLYNOMIAL });
  return multiply(masses.steam, subtract(gas, enthalpyQuantity(context, start, pressure)));
}

/** Q_v = f·m_v·c_v·(T2 − T1): the share of the vessel that warms with the water; null where its material isn't known. */
export function vesselHeat(
  context: RunContext,
  masses: Masses,
  start: Quantity,
  end: Quantity,
): Quantity | null {
  const vessel = context.heater.vessel;
  if (!vessel || masses.vessel.value <= 0) return null;
  const table = vesselMaterials[vessel.material.toLowerCase()];
  const specificHeat = vessel.specificHeat ?? table?.specificHeat;
  if (specificHeat === undefined) {
    const known = Object.keys(vesselMaterials).join(', ');
    context.warnings.push(
      `The vessel's material "${vessel.material}" is not in the table (${known}); its heat is left in the rest. State specificHeat to have it.`,
    );
    return null;
  }
  const halfWidth =
    vessel.specificHeat !== undefined
      ? specificHeat * STATED_SPECIFIC_HEAT_HALF_WIDTH
      : (table?.halfWidth as number);
  const error = context.book.get({
    id: `heater:${context.heater.id}:vessel-specific-heat`,
    name: `specific heat of the vessel (${vessel.material})`,
    halfWidth,
    scope: 'heater',
    assumed: true,
  });
  const capacity = multiply(masses.vessel, add(constant(specificHeat), errorOf(error)));
  const wetted = withAllowances(context, 'wettedShare', constant(1));
  return multiply(multiply(wetted, capacity), subtract(end, start));
}
