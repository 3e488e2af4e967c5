/**
 * Efficiencies of a kettle-like heater with their uncertainties, computed once with two general-purpose Python packages,
 * iapws 1.5.2 (IAPWS-IF97) and uncertainties 3.1.6 (first-order propagation), neither of them ours. They use a
 * simpler booking than our runs do:
 *
 *   η = (m·(h(t2) − h(t1)) + C_v·(t2 − t1) + m_ev·h_fg(100 °C))/E, h at 0.101325 MPa, h_fg = 2256.4729 kJ/kg exact.
 *
 * Each input is [estimate, standard uncertainty]; kg, °C, Wh, kJ/K. Sensitivities are per kg, K, Wh, kJ/K.
 */
export const efficiencyCases = [
  {
    id: 'A',
    massKg: [1, 0.0005],
    startC: [15, 0.1],
    endC: [90, 0.1],
    energyWh: [97.5, 0.25],
    vesselKJPerK: [0, 0],
    steamKg: [0, 0],
    efficiency: 0.894340479522,
    u: 0.002884137963,
    expanded95: 0.005652806535,
    usefulKJ: 313.913508312,
    budget: {
      mass: { sensitivity: 0.8943404795, contribution: 0.0004471702 },
      start: { sensitivity: -0.0119347406, contribution: 0.0011934741 },
      end: { sensitivity: 0.0119801186, contribution: 0.0011980119 },
      energy: { sensitivity: -0.0091727229, contribution: 0.0022931807 },
      vessel: { sensitivity: 0.2136752131, contribution: 0 },
      steam: { sensitivity: 6.4286977207, contribution: 0 },
    },
  },
  {
    id: 'B',
    massKg: [1.5, 0.001],
    startC: [20, 0.15],
    endC: [95, 0.15],
    energyWh: [150, 0.75],
    vesselKJPerK: [0.35, 0.035],
    steamKg: [0.012, 0.001],
    efficiency: 0.971027805523,
    u: 0.008474636095,
    expanded95: 0.016609981532,
    usefulKJ: 524.355014982,
    budget: {
      mass: { sensitivity: 0.5815152348, contribution: 0.0005815152 },
      start: { sensitivity: -0.0122725762, contribution: 0.0018408864 },
      end: { sensitivity: 0.0123441623, contribution: 0.0018516243 },
      energy: { sensitivity: -0.0064735187, contribution: 0.004855139 },
      vessel: { sensitivity: 0.1388888889, contribution: 0.0048611111 },
      steam: { sensitivity: 4.1786535181, contribution: 0.0041786535 },
    },
  },
] as const;

/**
 * Heating water in an aluminium pan: S. J. Ling, J. Sanny, W. Moebs, University Physics, volume 2 (OpenStax, 2016),
 * chapter 1, the worked example with a 0.500 kg pan and 0.250 L of water from 20.0 to 80.0 °C. It takes constant
 * specific heats, 4186 and 900 J/(kg °C), and 1 kg for a litre. From memory.
 */
export const panOfWater = {
  panKg: 0.5,
  waterKg: 0.25,
  startC: 20,
  endC: 80,
  specificHeatWater: 4186,
  specificHeatAluminium: 900,
  waterKJ: 62.8,
  panKJ: 27,
  totalKJ: 89.8,
  /** Part of the heat that goes into the water. */
  intoWater: 0.699,
} as const;
