/**
 * Writes a large made-up export of a wattmeter: a vat warmer that heats at full power, is held by its thermostat, and
 * stands by before and after, sampled five times a second, with five gaps. Deterministic: same rows, same bytes.
 */
import { closeSync, openSync, writeSync } from 'node:fs';

const startMs = Date.UTC(2026, 2, 2, 6, 0, 0);
const stepMs = 200;
const batch = 20_000;

/** Numbers from 0 to 1 by a 32-bit mixer. @param {number} state */
function mixer(state) {
  return () => {
    state = (state + 0x6d2b79f5) >>> 0;
    let mixed = Math.imul(state ^ (state >>> 15), state | 1);
    mixed ^= mixed + Math.imul(mixed ^ (mixed >>> 7), mixed | 61);
    return ((mixed ^ (mixed >>> 14)) >>> 0) / 2 ** 32;
  };
}

const two = (/** @type {number} */ value) => String(value).padStart(2, '0');
/** @type {Record<string, (ms: number) => string>} */
const clocks = {
  iso: (ms) => new Date(ms).toISOString(),
  dayFirst: (ms) => {
    const at = new Date(ms);
    const date = `${two(at.getUTCDate())}.${two(at.getUTCMonth() + 1)}.${at.getUTCFullYear()}`;
    return `${date} ${two(at.getUTCHours())}:${two(at.getUTCMinutes())}:${two(at.getUTCSeconds())},${at.getUTCMilliseconds() / 100}`;
  },
};

/**
 * @param {string} path
 * @param {number} rows
 * @param {'iso' | 'dayFirst'} form commas and decimal points with ISO times, or semicolons and decimal commas with the day first
 */
export function writeLogFile(path, rows, form = 'iso') {
  const comma = form === 'dayFirst';
  const part = comma ? ';' : ',';
  const clock = /** @type {(ms: number) => string} */ (clocks[form]);
  const number = (/** @type {number} */ value, /** @type {number} */ digits) =>
    comma ? value.toFixed(digits).replace('.', ',') : value.toFixed(digits);
  const random = mixer(20_261_125);
  const file = openSync(path, 'w');
  writeSync(file, `${['time', 'U [V]', 'I [A]', 'P [W]', 'E [Wh]'].join(part)}\n`);
  let wattHours = 81_250.125;
  let ms = startMs;
  /** @type {string[]} */
  let lines = [];
  for (let row = 0; row < rows; row += 1) {
    const share = row / rows;
    const cycling = share >= 0.4 && share < 0.8;
    const on = share >= 0.05 && (share < 0.4 || (cycling && ms % 120_000 < 78_000));
    const volts = 229.5 + 2 * random();
    const watts = on ? (volts * volts) / 58.8 + 0.8 * random() : 1.4 + 0.2 * random();
    wattHours += (watts * stepMs) / 3.6e6;
    lines.push(
      [clock(ms), number(volts, 2), number(watts / volts, 4), number(watts, 2), number(wattHours, 4)].join(
        part,
      ),
    );
    if (lines.length === batch) {
      writeSync(file, `${lines.join('\n')}\n`);
      lines = [];
    }
    // Five gaps of 20 s, at every sixth part.
    ms += row > 0 && row % Math.ceil(rows / 6) === 0 ? 20_000 : stepMs;
  }
  if (lines.length > 0) writeSync(file, `${lines.join('\n')}\n`);
  closeSync(file);
}
