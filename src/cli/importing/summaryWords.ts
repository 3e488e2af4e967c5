import type { LogSummary } from '../../logs/index.js';
import { roundToUncertainty } from '../../uncertainty/index.js';
import { formatDuration, formatQuantity } from '../../units/index.js';

/** Below this many watt-hours kilowatt-hours have too many zeros. */
const SMALL_WH = 10;

/** What an export comes to, for a person. */
export function summaryWords(summary: LogSummary): string[] {
  const { rows, durationS, phases, standbyW } = summary;
  return [
    `${rows === 1 ? '1 row' : `${rows} rows`} over ${formatDuration(durationS)}`,
    ...energyWords(summary),
    ...(standbyW === null ? [] : [`standby ${watts(standbyW)}`]),
    ...(phases.length === 0
      ? []
      : [
          `phases: ${phases.map(({ name, fromS, toS }) => `${name} ${clock(fromS, durationS)} to ${clock(toS, durationS)}`).join(', ')}`,
        ]),
    ...dutyWords(summary),
    ...gapWords(summary),
  ];
}

function energyWords(summary: LogSummary): string[] {
  const { energyWh, counterEnergyWh, energyStandardUncertaintyWh: u, meanPowerW, columns } = summary;
  if (energyWh === null || meanPowerW === null) return [];
  const byPower = hasPower(columns);
  const how = byPower ? 'integral of the power' : 'counter of the meter';
  return [
    `energy from switch-on to switch-off ${energy(energyWh)}, mean power ${watts(meanPowerW)} (${how})`,
    // A factor of 2 covers about 95 %.
    ...(u === null
      ? []
      : [
          `the log alone leaves ± ${roundToUncertainty(0, 2 * u).uncertainty} Wh open; the meter's own limits come on top`,
        ]),
    ...(byPower && counterEnergyWh !== null
      ? [`by the counter of the meter ${energy(counterEnergyWh)}`]
      : []),
  ];
}

/** A power of its own, or one made of voltage and current. */
function hasPower({ power, voltage, current }: LogSummary['columns']): boolean {
  return power !== undefined || (voltage !== undefined && current !== undefined);
}

function dutyWords({ dutyCycle }: LogSummary): string[] {
  if (dutyCycle === null) return [];
  const { pauses, onW, offW, cycleS, onShare } = dutyCycle;
  return [
    `the heater pauses ${pauses} times: ${watts(onW)} on, ${watts(offW)} off, one cycle in ${digits(cycleS)} s, on for ${digits(100 * onShare, 3)} % of the time`,
  ];
}

function gapWords({ gaps, columns }: LogSummary): string[] {
  if (!hasPower(columns)) return [];
  if (gaps.count === 0) return ['no gap between the readings'];
  const count = gaps.count === 1 ? 'one gap' : `${gaps.count} gaps`;
  return [`${count} between the readings, the longest ${digits(gaps.longestS)} s`];
}

/** Small ones in watt-hours, in which kilowatt-hours have too many zeros. */
function energy(wattHours: number): string {
  return Math.abs(wattHours) < SMALL_WH
    ? `${digits(wattHours)} Wh`
    : formatQuantity(wattHours * 3600, 'energy', 'kWh', 4);
}

function watts(power: number): string {
  return Math.abs(power) < 10 ? `${digits(power, 3)} W` : formatQuantity(power, 'power', 'W', 1);
}

/** In a short log the times show their fraction of a second. */
function clock(seconds: number, durationS: number): string {
  return durationS < 120 ? `${Number(seconds.toFixed(1))} s` : formatDuration(seconds);
}

function digits(value: number, most = 4): string {
  return String(Number(value.toPrecision(most)));
}
