import { problem } from '../errors/index.js';

/** Refuses a temperature outside a range, and one that is not a number; shown in °C. */
export function checkTemperature(
  what: string,
  temperatureK: number,
  lowestK: number,
  highestK: number,
): void {
  if (temperatureK >= lowestK && temperatureK <= highestK) return;
  const got = Number.isFinite(temperatureK) ? `${celsius(temperatureK)} °C` : String(temperatureK);
  throw problem('water-temperature-range', {
    what,
    got,
    lowest: celsius(lowestK),
    highest: celsius(highestK),
  });
}

/** Refuses a pressure outside a range, and one that is not a number; shown in hPa. */
export function checkPressure(what: string, pressurePa: number, lowestPa: number, highestPa: number): void {
  if (pressurePa >= lowestPa && pressurePa <= highestPa) return;
  const got = Number.isFinite(pressurePa) ? `${hectopascal(pressurePa)} hPa` : String(pressurePa);
  throw problem('water-pressure-range', {
    what,
    got,
    lowest: hectopascal(lowestPa),
    highest: hectopascal(highestPa),
  });
}

/** Temperature for a sentence: two decimals of a degree Celsius. */
export function celsius(temperatureK: number): string {
  return String(Number((temperatureK - 273.15).toFixed(2)) + 0);
}

/** Pressure for a sentence: six significant digits of a hectopascal. */
export function hectopascal(pressurePa: number): string {
  return String(Number((pressurePa / 100).toPrecision(6)));
}
