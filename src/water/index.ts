/**
 * water: what is known about water and moist air, from published formulations: enthalpy, heat capacity and density of
 * the liquid, its saturation line and vapour (IAPWS Industrial Formulation 1997), pressure at altitude (ISO 2533) and
 * air buoyancy. Temperatures in kelvin, pressures in pascal, all absolute. Imports only errors.
 */
export { airDensity } from './airDensity.js';
export { buoyancyFactor } from './buoyancyFactor.js';
export { density } from './density.js';
export { enthalpy } from './enthalpy.js';
export { enthalpyDerivatives } from './enthalpyDerivatives.js';
export { formulationUncertainty } from './formulationUncertainty.js';
export { heatCapacity } from './heatCapacity.js';
export { latentHeat } from './latentHeat.js';
export { pressureAtAltitudePa } from './pressureAtAltitudePa.js';
export { saturationPressurePa } from './saturationPressurePa.js';
export { saturationTemperatureK } from './saturationTemperatureK.js';
export { steamEnthalpy } from './steamEnthalpy.js';
export { vapourEnthalpy } from './vapourEnthalpy.js';
