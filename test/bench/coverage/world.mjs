/**
 * The true world of the coverage bench: what really happens in a heating. It shares no code with the program: its own
 * random numbers, its own water, its own air.
 */

/** What every heating of the campaigns is meant to be: water in a lidded vessel on the 900 W vat warmer. */
export const nominal = {
  vesselKg: 1.87,
  waterKg: 5,
  steamKg: 0.008,
  startC: 12,
  endC: 52,
  powerW: 900,
  efficiency: 0.82,
};

/**
 * Enthalpy of water at 101 325 Pa less that at 30 °C, J/kg: a polynomial of the fifth degree through the values that
 * IAPWS R7-97(2012) gives there at 5, 10 … 60 °C (as tabulated in test/reference/water.ts). It meets them to 0.4 J/kg, which is 0.0003 % of
 * a rise of 40 K; the pressure of another height would change that rise by 0.001 %.
 * @param {number} tC @returns {number}
 */
export function waterEnthalpy(tC) {
  const x = (tC - 30) / 10;
  return (
    1000 * (-0.000246 + x * (41.799988 + x * (-0.013812 + x * (0.005407 + x * (-0.000784 + x * 0.000129)))))
  );
}

const airKgM3 = 1.22;
const waterKgM3 = 999.5;
const steelKgM3 = 7900;
const weightsKgM3 = 8000;

/** What a perfect scale, adjusted with weights of 8000 kg/m³, shows for a steel vessel with water. */
export function apparentKg(vesselKg, waterKg) {
  const lift = (density) => 1 - airKgM3 / density;
  return (vesselKg * lift(steelKgM3) + waterKg * lift(waterKgM3)) / lift(weightsKgM3);
}

/**
 * One heating as it really goes. Fill, start, end and mains vary as they do at a bench, by many steps of any display;
 * the efficiency is drawn about that of the setting.
 * @param {import('./random.mjs').Draw} draw
 * @param {{ spread: number, riseFactor: number, bodyJ: number }} setting standard deviation of the efficiency from
 *   heating to heating; the true rise of enthalpy over that of the polynomial; heat that the body brought along
 */
export function heating(draw, { spread, riseFactor, bodyJ }) {
  const vesselKg = nominal.vesselKg + draw.between(0, 0.004);
  const waterKg = nominal.waterKg * (1 + draw.within(0.01));
  const steamKg = nominal.steamKg * (1 + draw.within(0.5));
  const startC = nominal.startC + draw.within(0.8);
  const endC = nominal.endC + draw.within(0.8);
  const powerW = nominal.powerW * (1 + draw.within(0.02));
  const efficiency = draw.efficiency(nominal.efficiency, spread);
  const rise = (waterEnthalpy(endC) - waterEnthalpy(startC)) * riseFactor;
  const energyJ = ((waterKg - steamKg) * rise) / efficiency - bodyJ;
  return {
    vesselKg,
    waterKg,
    steamKg,
    startC,
    endC,
    efficiency,
    energyJ,
    durationS: energyJ / powerW,
  };
}
