/** What a person at the bench types in one heating: the truth, seen through the instruments with their errors. */
import { limits, meterPoints, thermometerPoints } from './lab.mjs';
import { apparentKg } from './world.mjs';

/** Correction of a certificate plus its true error at a reading, straight between its two points. */
function correctionAt(points, errors, reading) {
  const [low, high] = points;
  const weight = (reading - low.at) / (high.at - low.at);
  return (1 - weight) * (low.correction + errors[0]) + weight * (high.correction + errors[1]);
}

/** The reading x with x + correction(x) = truth. The correction hardly changes with x, so three rounds are plenty. */
function thermometerReading(truth, errors) {
  let reading = truth;
  for (let round = 0; round < 3; round += 1)
    reading = truth - correctionAt(thermometerPoints, errors, reading);
  return reading;
}

/** The energy x a meter counts, with x·(1 + correction(x over the time)) = truth. */
function meteredJ({ energyJ, durationS }, errors) {
  let counted = energyJ;
  for (let round = 0; round < 3; round += 1)
    counted = energyJ / (1 + correctionAt(meterPoints, errors, counted / durationS));
  return counted;
}

/** The value as a display of such steps shows it. */
function shown(value, step, decimals) {
  return (Math.round(value / step) * step).toFixed(decimals);
}

/**
 * @param {ReturnType<typeof import('./world.mjs').heating>} truth
 * @param {ReturnType<typeof import('./lab.mjs').sharedErrors>} shared
 * @param {ReturnType<typeof import('./lab.mjs').freshErrors>} fresh
 * @returns {Record<string, string>} by step of the procedure
 */
export function typedReadings(truth, shared, fresh) {
  const grams = (kg) => `${shown(1000 * kg, 1000 * limits.scaleStepKg, 1)} g`;
  const celsius = (tC) => `${shown(tC, limits.thermometerStepK, 2)} °C`;
  const kWh = (value) => `${shown(value, limits.counterStepKWh, 4)} kWh`;
  const weighed = (waterKg, levelKg, repeatKg) =>
    grams(apparentKg(truth.vesselKg, waterKg) - levelKg - repeatKg);
  const counted = meteredJ(truth, shared.meter) / 3.6e6;
  const seenStart = truth.startC - shared.allowances.startTemperature - fresh.allowances.startTemperature;
  const seenEnd = truth.endC - shared.allowances.endTemperature - fresh.allowances.endTemperature;
  return {
    ambientTemperature: '17.00 °C',
    emptyWeight: weighed(0, shared.scaleEmptyKg, fresh.emptyKg),
    fullWeight: weighed(truth.waterKg, shared.scaleFullKg, fresh.fullKg),
    energyBefore: kWh(fresh.counterKWh),
    startTemperature: celsius(thermometerReading(seenStart, shared.thermometerK)),
    endTemperature: celsius(thermometerReading(seenEnd, shared.thermometerK)),
    finalWeight: weighed(truth.waterKg - truth.steamKg, shared.scaleFullKg, fresh.finalKg),
    energyAfter: kWh(fresh.counterKWh + counted),
  };
}
