import { problem } from '../errors/index.js';

const WEIGHTS_KG_PER_M3 = 8000; // conventional density of the weights a scale is adjusted with: OIML D 28 (2004)

/**
 * Mass of water over what a scale in air shows for it: `(1 − ρa/8000)/(1 − ρa/ρw)`, about 1.00105. Both densities in
 * kg/m³; the scale has been adjusted with weights of 8000 kg/m³ (OIML D 28). A vessel weighed empty and full cancels.
 * Errors: `buoyancy-densities`.
 *
 * @example
 * buoyancyFactor(1.2, 998.2) // => 1.0010534
 */
export function buoyancyFactor(airDensityKgPerM3: number, waterDensityKgPerM3: number): number {
  const sensible = airDensityKgPerM3 >= 0 && airDensityKgPerM3 < 10 && waterDensityKgPerM3 > 100;
  if (!sensible || !Number.isFinite(waterDensityKgPerM3)) {
    const detail = { air: String(airDensityKgPerM3), water: String(waterDensityKgPerM3) };
    throw problem('buoyancy-densities', detail);
  }
  return (1 - airDensityKgPerM3 / WEIGHTS_KG_PER_M3) / (1 - airDensityKgPerM3 / waterDensityKgPerM3);
}
