/**
 * Lumped cooling and heating: what textbooks work out, and curves without noise computed from the closed solution once with
 * numpy 1.24.2, none of ours.
 */

/**
 * Y. A. Çengel, Heat Transfer, Example 4-1 (as reproduced publicly): the junction of a thermocouple, a sphere in a gas. When
 * does it show 99 % of the initial difference? The book rounds its exponent to 0.462 1/s and its answer to 10 s.
 */
export const cengelThermocouple = {
  diameterM: 0.001,
  conductivityWPerMK: 35,
  densityKgPerM3: 8500,
  specificJPerKgK: 320,
  filmWPerM2K: 210,
  published: { characteristicM: 1.67e-4, biot: 0.001, exponentPerS: 0.462, time99S: 10 },
};

/**
 * F. P. Incropera, D. P. DeWitt, Fundamentals of Heat and Mass Transfer, Example 5.1, from memory: a junction with a time constant
 * of 1 s needs a diameter of 0.706 mm; from 25 °C in a gas at 200 °C it shows 199 °C after 5.2 s.
 */
export const incroperaThermocouple = {
  filmWPerM2K: 400,
  conductivityWPerMK: 20,
  specificJPerKgK: 400,
  densityKgPerM3: 8500,
  timeConstantS: 1,
  startC: 25,
  gasC: 200,
  shownC: 199,
  published: { diameterM: 7.06e-4, biot: 2.35e-3, timeS: 5.2 },
};

/** The limit of lumped cooling in both books: h·L/k below this. */
export const biotLimit = 0.1;

/** A kettle's load cooling in a room at 22 °C: C = 6630.5 J/K, UA = 1.8 W/K; °C every 300 s. */
export const coolDownCurve = {
  heatCapacityJPerK: 6630.5,
  uaWPerK: 1.8,
  timeConstantS: 3683.611111111111,
  roomC: 22,
  everyS: 300,
  temperaturesC: [
    90.0, 84.6814708538876, 79.77892335892295, 75.25982206604905, 71.09417624288668, 67.25434084211943,
    63.71483303687066, 60.45216310552053, 57.44467854364144, 54.67242036850994, 52.11699066256941,
    49.76143047680367, 47.590107283735236, 45.58861123313687, 43.743659521964034, 42.04300824386536,
    40.47537113326581, 39.03034466477291, 37.6983390108327, 36.47051439944053, 35.33872244954842,
    34.29545209484509, 33.33377973703534, 32.44732329781416, 31.63019986460411,
  ],
};

/** The same load heated with 1800 W at κ = 0.92 from 20 °C; °C every 15 s. */
export const warmUpCurve = {
  heatCapacityJPerK: 6630.5,
  uaWPerK: 1.8,
  kappa: 0.92,
  powerW: 1800,
  finalC: 942,
  timeConstantS: 3683.611111111111,
  roomC: 22,
  everyS: 15,
  temperaturesC: [
    20.0, 23.74683408650617, 27.478441746036538, 31.194884855918076, 34.896225042020205, 38.58252367977616,
    42.253841895201504, 45.91024056590652, 49.551780322107106, 53.17852154762875, 56.79052438090878,
    60.387848715993414, 63.970554203530355, 67.53870025175854, 71.09234602749314, 74.6315504571063,
    78.1563722275049, 81.66686978710266, 85.16310134679065, 88.64512488090145, 92.11299812817094,
    95.56677859269598, 99.00652354488705,
  ],
};

/**
 * Standing loss of a store referred to 45 K, IEC 60379:1987 clause 14, from memory: 1.32 kWh in a day at 63 °C in 21 °C; the
 * number is that of the formula.
 */
export const standingLossExample = {
  energyKWh: 1.32,
  storeC: 63,
  roomC: 21,
  referredKWh: 1.4142857142857144,
};
