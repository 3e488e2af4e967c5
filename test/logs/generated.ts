import type { ReadOptions } from '../../src/logs/index.js';

/** Numbers from 0 to 1 by a 32-bit mixer: same seed, same numbers. */
export function randomFrom(start: number): () => number {
  let state = start >>> 0;
  return () => {
    state = (state + 0x6d2b79f5) >>> 0;
    let mixed = Math.imul(state ^ (state >>> 15), state | 1);
    mixed ^= mixed + Math.imul(mixed ^ (mixed >>> 7), mixed | 61);
    return ((mixed ^ (mixed >>> 14)) >>> 0) / 2 ** 32;
  };
}

type Random = () => number;
const pick = <T>(random: Random, from: readonly T[]): T => from[Math.floor(random() * from.length)]!;
const two = (value: number) => String(value).padStart(2, '0');

/** How times may be written, from seconds after the start. */
const clocks: Record<string, { header: string; cell: (s: number) => string }> = {
  seconds: { header: 'elapsed [s]', cell: (s) => s.toFixed(1) },
  milliseconds: { header: 't [ms]', cell: (s) => String(Math.round(1000 * s)) },
  epoch: { header: 'time', cell: (s) => (1_772_431_200 + s).toFixed(1) },
  iso: { header: 'time', cell: (s) => at(s).toISOString() },
  offset: { header: 'time', cell: (s) => `${at(s).toISOString().slice(0, 19)}+01:00` },
  local: { header: 'time', cell: (s) => at(s).toISOString().slice(0, 23).replace('T', ' ') },
  dayFirst: { header: 'Zeit', cell: (s) => `${day(s)} ${at(s).toISOString().slice(11, 19)}` },
  halves: {
    header: 'time',
    cell: (s) => {
      const hour = at(s).getUTCHours();
      return `${at(s).toISOString().slice(0, 10)} ${hour % 12 || 12}:${at(s).toISOString().slice(14, 19)} ${hour < 12 ? 'AM' : 'PM'}`;
    },
  },
  elapsedHms: {
    header: 'elapsed',
    cell: (s) => `${two(Math.floor(s / 3600))}:${two(Math.floor(s / 60) % 60)}:${two(Math.floor(s) % 60)}`,
  },
};

// Shortly before midnight, so that the date changes within many of the exports.
const at = (s: number) => new Date(Date.UTC(2026, 2, 12, 23, 58, 0) + Math.round(1000 * s));
const day = (s: number) =>
  `${two(at(s).getUTCDate())}.${two(at(s).getUTCMonth() + 1)}.${at(s).getUTCFullYear()}`;

/** A made-up export: any delimiter, decimal sign, form of time and line end, with a few cells and rows that are unusual. */
export function generatedExport(random: Random): { bytes: Uint8Array; options: ReadOptions } {
  const delimiter = pick(random, [',', ';', '\t', '|']);
  const comma = delimiter !== ',' && random() < 0.5;
  const clock = clocks[pick(random, Object.keys(clocks))]!;
  const newline = pick(random, ['\n', '\r\n']);
  const oddities = pick(random, [0, 0, 0.002, 0.02]);
  const rows = 5 + Math.floor(random() * (random() < 0.2 ? 6000 : 300));
  const intervalS = pick(random, [1, 1, 2, 10]);
  const withStatus = random() < 0.5;
  const places = Math.floor(random() * 4);
  const number = (value: number) => {
    const odd = random() < oddities;
    const text = (odd && random() < 0.3 ? value : Number(value.toFixed(places))).toFixed(
      odd ? Math.floor(random() * 6) : places,
    );
    const signed = comma ? text.replace('.', ',') : text;
    if (!odd) return signed;
    return pick(random, [
      signed,
      '',
      '-',
      'OL',
      `"${signed}"`,
      ` ${signed}`,
      `+${signed}`,
      `${signed} W`,
      `${signed}e0`,
      '"',
      'x',
    ]);
  };
  const header = [clock.header, 'P [W]', 'E [Wh]', ...(withStatus ? ['status'] : [])].join(delimiter);
  const lines = [...(random() < 0.3 ? ['Vat warmer, hill dairy (made up)', ''] : []), header];
  let wattHours = 12_345;
  let time = 0;
  for (let row = 0; row < rows; row++) {
    const watts = row > rows / 5 && row < (4 * rows) / 5 ? 899 + 2 * random() : 1.2;
    wattHours += (watts * intervalS) / 3600;
    const cells = [clock.cell(time), number(watts), number(wattHours)];
    if (withStatus)
      cells.push(
        random() < oddities ? pick(random, ['"ok; so far"', '"two\nlines"', 'says "ok"', '', '"open']) : 'ok',
      );
    lines.push(cells.join(delimiter));
    if (random() < oddities) lines.push(pick(random, ['', header, delimiter.repeat(3), 'note']));
    if (random() < oddities / 2) lines.push(lines[lines.length - 1]!);
    time += intervalS;
  }
  const end = random() < 0.8 ? newline : '';
  const text = lines.join('\n').replaceAll('\n', newline) + end;
  return {
    bytes: new TextEncoder().encode(random() < 0.1 ? `\ufeff${text}` : text),
    options: {
      zone: 'Europe/Vienna',
      fileName: 'road.csv',
      ...(comma ? { decimal: ',' as const } : { decimal: '.' as const }),
    },
  };
}
