/** Published and independently computed values for water, each with its source. Units stand in the names. */

/** IAPWS R7-97(2012), table 5: verification values of region 1. */
export const table5 = [
  {
    temperatureK: 300,
    pressureMPa: 3,
    volume: 0.00100215168,
    enthalpyKJ: 115.331273,
    heatCapacityKJ: 4.17301218,
  },
  {
    temperatureK: 300,
    pressureMPa: 80,
    volume: 0.000971180894,
    enthalpyKJ: 184.142828,
    heatCapacityKJ: 4.01008987,
  },
  {
    temperatureK: 500,
    pressureMPa: 3,
    volume: 0.001202418,
    enthalpyKJ: 975.542239,
    heatCapacityKJ: 4.65580682,
  },
] as const;

/** IAPWS R7-97(2012), table 15: verification values of region 2; enthalpies from memory. */
export const table15 = [
  { temperatureK: 300, pressureMPa: 0.0035, enthalpyKJ: 2549.91145 },
  { temperatureK: 700, pressureMPa: 0.0035, enthalpyKJ: 3335.68375 },
  { temperatureK: 700, pressureMPa: 30, enthalpyKJ: 2631.49474 },
] as const;

/** IAPWS R7-97(2012), table 35: saturation pressure. */
export const table35 = [
  { temperatureK: 300, pressureMPa: 0.00353658941 },
  { temperatureK: 500, pressureMPa: 2.63889776 },
  { temperatureK: 600, pressureMPa: 12.3443146 },
] as const;

/** IAPWS R7-97(2012), table 36: saturation temperature. */
export const table36 = [
  { pressureMPa: 0.1, temperatureK: 372.755919 },
  { pressureMPa: 1, temperatureK: 453.035632 },
  { pressureMPa: 10, temperatureK: 584.149488 },
] as const;

/** IAPWS R6-95(2018), table 8: saturated liquid and vapour of the scientific formulation, another than IF97. */
export const iapws95Table8 = [
  { temperatureK: 275, pressureMPa: 0.000698451167, liquidKJ: 7.75972202, vapourKJ: 2504.28995 },
  { temperatureK: 450, pressureMPa: 0.932203564, liquidKJ: 749.161585, vapourKJ: 2774.41078 },
] as const;

/**
 * Liquid water at 101 325 Pa: t/°C; density in kg/m³, enthalpy in kJ/kg and heat capacity in kJ/(kg K) by IF97
 * (IAPWS R7-97(2012)); enthalpy by IAPWS-95 (IAPWS R6-95(2018)). Computed once with an independent implementation
 * of both releases, which meets their verification tables to 3e-9.
 */
export const waterAt101325Pa = [
  {
    tC: 0.01,
    densityIf97: 999.844983,
    enthalpyIf97: 0.103206087,
    heatCapacityIf97: 4.21939465,
    enthalpyIapws95: 0.103208228,
  },
  {
    tC: 5,
    densityIf97: 999.966923,
    enthalpyIf97: 21.119363,
    heatCapacityIf97: 4.20494725,
    enthalpyIapws95: 21.1199653,
  },
  {
    tC: 10,
    densityIf97: 999.70154,
    enthalpyIf97: 42.1187225,
    heatCapacityIf97: 4.19544594,
    enthalpyIapws95: 42.1188952,
  },
  {
    tC: 15,
    densityIf97: 999.101114,
    enthalpyIf97: 63.0790316,
    heatCapacityIf97: 4.18909396,
    enthalpyIapws95: 63.0768308,
  },
  {
    tC: 20,
    densityIf97: 998.206092,
    enthalpyIf97: 84.0130582,
    heatCapacityIf97: 4.18479409,
    enthalpyIapws95: 84.0073009,
  },
  {
    tC: 25,
    densityIf97: 997.048032,
    enthalpyIf97: 104.929295,
    heatCapacityIf97: 4.18189623,
    enthalpyIapws95: 104.92012,
  },
  {
    tC: 30,
    densityIf97: 995.652054,
    enthalpyIf97: 125.833715,
    heatCapacityIf97: 4.18002019,
    enthalpyIapws95: 125.822512,
  },
  {
    tC: 35,
    densityIf97: 994.038531,
    enthalpyIf97: 146.73083,
    heatCapacityIf97: 4.178947,
    enthalpyIapws95: 146.719868,
  },
  {
    tC: 40,
    densityIf97: 992.224258,
    enthalpyIf97: 167.624313,
    heatCapacityIf97: 4.17855259,
    enthalpyIapws95: 167.616286,
  },
  {
    tC: 45,
    densityIf97: 990.223278,
    enthalpyIf97: 188.51737,
    heatCapacityIf97: 4.17876771,
    enthalpyIapws95: 188.514964,
  },
  {
    tC: 50,
    densityIf97: 988.047477,
    enthalpyIf97: 209.412941,
    heatCapacityIf97: 4.179554,
    enthalpyIapws95: 209.418492,
  },
  {
    tC: 55,
    densityIf97: 985.707007,
    enthalpyIf97: 230.313826,
    heatCapacityIf97: 4.18089007,
    enthalpyIapws95: 230.329075,
  },
  {
    tC: 60,
    densityIf97: 983.21061,
    enthalpyIf97: 251.222738,
    heatCapacityIf97: 4.18276355,
    enthalpyIapws95: 251.248694,
  },
  {
    tC: 65,
    densityIf97: 980.56585,
    enthalpyIf97: 272.142344,
    heatCapacityIf97: 4.18516685,
    enthalpyIapws95: 272.179227,
  },
  {
    tC: 70,
    densityIf97: 977.779295,
    enthalpyIf97: 293.075281,
    heatCapacityIf97: 4.18809505,
    enthalpyIapws95: 293.12254,
  },
  {
    tC: 75,
    densityIf97: 974.856656,
    enthalpyIf97: 314.024164,
    heatCapacityIf97: 4.19154509,
    enthalpyIapws95: 314.08055,
  },
  {
    tC: 80,
    densityIf97: 971.8029,
    enthalpyIf97: 334.991599,
    heatCapacityIf97: 4.19551555,
    enthalpyIapws95: 335.055264,
  },
  {
    tC: 85,
    densityIf97: 968.62233,
    enthalpyIf97: 355.980188,
    heatCapacityIf97: 4.20000686,
    enthalpyIapws95: 356.048817,
  },
  {
    tC: 90,
    densityIf97: 965.318659,
    enthalpyIf97: 376.99254,
    heatCapacityIf97: 4.20502164,
    enthalpyIapws95: 377.063487,
  },
  {
    tC: 95,
    densityIf97: 961.895065,
    enthalpyIf97: 398.031285,
    heatCapacityIf97: 4.21056508,
    enthalpyIapws95: 398.101712,
  },
  {
    tC: 99,
    densityIf97: 959.071665,
    enthalpyIf97: 414.883071,
    heatCapacityIf97: 4.21538584,
    enthalpyIapws95: 414.950994,
  },
] as const;

/** Saturation: t/°C, p_sat in kPa and enthalpies in kJ/kg by IF97; latent heat by IAPWS-95. Computed as above. */
export const saturation = [
  {
    tC: 20,
    pressureKPa: 2.3392148,
    liquid: 83.919896,
    vapour: 2537.4695,
    latent: 2453.5496,
    latentIapws95: 2453.5193,
  },
  {
    tC: 25,
    pressureKPa: 3.1697469,
    liquid: 104.83839,
    vapour: 2546.5441,
    latent: 2441.7057,
    latentIapws95: 2441.6762,
  },
  {
    tC: 30,
    pressureKPa: 4.2466883,
    liquid: 125.74516,
    vapour: 2555.5837,
    latent: 2429.8386,
    latentIapws95: 2429.8112,
  },
  {
    tC: 35,
    pressureKPa: 5.6286201,
    liquid: 146.6448,
    vapour: 2564.5846,
    latent: 2417.9398,
    latentIapws95: 2417.9146,
  },
  {
    tC: 40,
    pressureKPa: 7.3844275,
    liquid: 167.54105,
    vapour: 2573.5424,
    latent: 2406.0014,
    latentIapws95: 2405.9773,
  },
  {
    tC: 45,
    pressureKPa: 9.5943888,
    liquid: 188.43717,
    vapour: 2582.4526,
    latent: 2394.0155,
    latentIapws95: 2393.9909,
  },
  {
    tC: 50,
    pressureKPa: 12.35127,
    liquid: 209.3362,
    vapour: 2591.3103,
    latent: 2381.9741,
    latentIapws95: 2381.9471,
  },
  {
    tC: 55,
    pressureKPa: 15.761414,
    liquid: 230.24101,
    vapour: 2600.1098,
    latent: 2369.8688,
    latentIapws95: 2369.8378,
  },
  {
    tC: 60,
    pressureKPa: 19.945802,
    liquid: 251.15439,
    vapour: 2608.8454,
    latent: 2357.691,
    latentIapws95: 2357.6545,
  },
  {
    tC: 65,
    pressureKPa: 25.041098,
    liquid: 272.07912,
    vapour: 2617.5107,
    latent: 2345.4315,
    latentIapws95: 2345.3887,
  },
  {
    tC: 70,
    pressureKPa: 31.200636,
    liquid: 293.01794,
    vapour: 2626.0988,
    latent: 2333.0809,
    latentIapws95: 2333.0312,
  },
  {
    tC: 75,
    pressureKPa: 38.595363,
    liquid: 313.97355,
    vapour: 2634.6026,
    latent: 2320.6291,
    latentIapws95: 2320.5728,
  },
  {
    tC: 80,
    pressureKPa: 47.41472,
    liquid: 334.9487,
    vapour: 2643.0143,
    latent: 2308.0657,
    latentIapws95: 2308.0035,
  },
  {
    tC: 85,
    pressureKPa: 57.867455,
    liquid: 355.94608,
    vapour: 2651.3259,
    latent: 2295.3798,
    latentIapws95: 2295.3131,
  },
  {
    tC: 90,
    pressureKPa: 70.182361,
    liquid: 376.96844,
    vapour: 2659.5288,
    latent: 2282.5603,
    latentIapws95: 2282.4906,
  },
  {
    tC: 95,
    pressureKPa: 84.608938,
    liquid: 398.01854,
    vapour: 2667.6139,
    latent: 2269.5954,
    latentIapws95: 2269.5248,
  },
  {
    tC: 100,
    pressureKPa: 101.41798,
    liquid: 419.09915,
    vapour: 2675.572,
    latent: 2256.4729,
    latentIapws95: 2256.4037,
  },
] as const;

/** Boiling temperature in °C under a pressure in kPa: IAPWS R7-97(2012), eq. 31. Computed as above. */
export const boilingByPressure: readonly (readonly [kPa: number, tC: number])[] = [
  [50, 81.316736],
  [55, 83.709105],
  [60, 85.925777],
  [65, 87.993025],
  [70, 89.93151],
  [75, 91.757791],
  [80, 93.485354],
  [85, 95.125334],
  [90, 96.687039],
  [95, 98.178332],
  [100, 99.605919],
  [105, 100.975566],
  [110, 102.292274],
  [101.325, 99.9743],
];

/**
 * Geometric altitude in m, pressure in Pa by ISO 2533:1975, and boiling temperature in °C there (eq. 31 as above).
 * `tableHPa`: the value printed in the ICAO table (Doc 7488/3), two decimals at most, from memory.
 */
export const boilingByAltitude: readonly {
  altitudeM: number;
  pressurePa: number;
  boilingC: number;
  tableHPa?: number;
}[] = [
  { altitudeM: 0, pressurePa: 101325, boilingC: 99.9743, tableHPa: 1013.25 },
  { altitudeM: 250, pressurePa: 98357.65, boilingC: 99.1437 },
  { altitudeM: 500, pressurePa: 95461.29, boilingC: 98.3126, tableHPa: 954.61 },
  { altitudeM: 750, pressurePa: 92634.59, boilingC: 97.4812 },
  { altitudeM: 1000, pressurePa: 89876.28, boilingC: 96.6493, tableHPa: 898.76 },
  { altitudeM: 1250, pressurePa: 87185.06, boilingC: 95.817 },
  { altitudeM: 1500, pressurePa: 84559.67, boilingC: 94.9842, tableHPa: 845.6 },
  { altitudeM: 1750, pressurePa: 81998.86, boilingC: 94.1509 },
  { altitudeM: 2000, pressurePa: 79501.41, boilingC: 93.3172, tableHPa: 795.01 },
  { altitudeM: 2500, pressurePa: 74691.74, boilingC: 91.6482 },
  { altitudeM: 3000, pressurePa: 70121.14, boilingC: 89.977, tableHPa: 701.21 },
  { altitudeM: 3500, pressurePa: 65780.37, boilingC: 88.3036 },
  { altitudeM: 4000, pressurePa: 61660.42, boilingC: 86.6277, tableHPa: 616.6 },
  { altitudeM: 4500, pressurePa: 57752.55, boilingC: 84.9493 },
  { altitudeM: 5000, pressurePa: 54048.26, boilingC: 83.2682, tableHPa: 540.48 },
];

/** Tanaka et al., Metrologia 38 (2001) 301: density of air-free water at 101 325 Pa, t/°C and kg/m³; from memory. */
export const tanakaDensity: readonly (readonly [tC: number, density: number])[] = [
  [0, 999.8428],
  [4, 999.9749],
  [5, 999.9668],
  [10, 999.7027],
  [15, 999.1026],
  [20, 998.2067],
  [25, 997.047],
  [30, 995.6488],
  [35, 994.0326],
  [40, 992.2152],
];
