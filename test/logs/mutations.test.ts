import { readdirSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { HeatledgerError } from '../../src/errors/index.js';
import {
  counterEnergy,
  describeLog,
  integrateEnergy,
  logSummary,
  onOffEdges,
  readExport,
} from '../../src/logs/index.js';
import { corpus } from './exportOf.js';

const seed = 20_261_103;
const mutants = 1200;

/** Numbers from 0 to 1 by a 32-bit mixer (Mulberry32): same seed, same mutants. */
function randomFrom(start: number): () => number {
  let state = start >>> 0;
  return () => {
    state = (state + 0x6d2b79f5) >>> 0;
    let mixed = Math.imul(state ^ (state >>> 15), state | 1);
    mixed ^= mixed + Math.imul(mixed ^ (mixed >>> 7), mixed | 61);
    return ((mixed ^ (mixed >>> 14)) >>> 0) / 2 ** 32;
  };
}

/** A longer export with everything in it, beside the small ones of the corpus. */
function fullExport(): Uint8Array {
  const rows = Array.from({ length: 120 }, (_, i) => {
    const clock = new Date(Date.UTC(2026, 2, 1, 10, 0, i)).toISOString().slice(11, 19);
    const on = i > 10 && i < 100;
    return `01.03.2026;${clock};${on ? '900,4' : '1,2'};230,1;${(0.25 * Math.max(0, Math.min(i, 100) - 10)).toFixed(2).replace('.', ',')};${(20 + i / 10).toFixed(1).replace('.', ',')}`;
  });
  return new TextEncoder().encode(`Datum;Uhrzeit;P [W];U [V];E [Wh];T1 (°C)\r\n${rows.join('\r\n')}\r\n`);
}

function mutate(bytes: Uint8Array, random: () => number): Uint8Array {
  const pick = (length: number) => Math.floor(random() * length);
  const text = () => new TextDecoder('latin1').decode(bytes);
  const encode = (changed: string) => Uint8Array.from(changed, (sign) => sign.charCodeAt(0) & 255);
  const lines = () => text().split('\n');
  switch (pick(8)) {
    case 0: {
      const changed = bytes.slice();
      for (let i = pick(4); i >= 0; i--) changed[pick(changed.length)]! ^= 1 << pick(8);
      return changed;
    }
    case 1:
      return bytes.slice(0, pick(bytes.length));
    case 2: {
      const all = lines();
      all.splice(pick(all.length), 1 + pick(3));
      return encode(all.join('\n'));
    }
    case 3: {
      const all = lines();
      const [a, b] = [pick(all.length), pick(all.length)];
      [all[a], all[b]] = [all[b]!, all[a]!];
      return encode(all.join('\n'));
    }
    case 4: {
      const all = lines();
      all.splice(pick(all.length), 0, all[pick(all.length)]!);
      return encode(all.join('\n'));
    }
    case 5: {
      const signs = [',', ';', '\t', '.', '"', ':', ' ', '-', '|'];
      const [from, to] = [signs[pick(signs.length)]!, signs[pick(signs.length)]!];
      return encode(text().replaceAll(from, to));
    }
    case 6: {
      const at = pick(bytes.length);
      const inserted = ['"', '9e99', '-', 'OL', '999999999', '\n', ';;;', 'x', '\0', '1e-300', '00:00:00'][
        pick(11)
      ]!;
      return encode(text().slice(0, at) + inserted + text().slice(at));
    }
    default: {
      const all = lines().map((line) => line.split(/([,;\t|])/));
      const [a, b] = [2 * pick(3), 2 * pick(3)];
      for (const line of all) if (line.length > Math.max(a, b)) [line[a], line[b]] = [line[b]!, line[a]!];
      return encode(all.map((line) => line.join('')).join('\n'));
    }
  }
}

/** Runs all that an import does; `true` where it came to an energy. Anything but an error of ours comes out. */
function importOf(bytes: Uint8Array): boolean {
  const log = readExport(bytes, { fileName: 'mutant.csv', zone: 'Europe/Vienna' });
  for (const line of describeLog(log)) expect(line).not.toMatch(/undefined|NaN/);
  for (let i = 1; i < log.rows; i++) expect(log.timesS[i]!).toBeGreaterThan(log.timesS[i - 1]!);
  const summary = logSummary(log);
  if (summary.energyWh !== null) expect(Number.isFinite(summary.energyWh)).toBe(true);
  if (!log.powerW) return summary.energyWh !== null;
  const { onS: fromS, offS: toS } = onOffEdges(log);
  const energy = integrateEnergy(log, { fromS, toS });
  for (const key of ['energyJ', 'meanPowerW', 'quantisationUJ', 'samplingUJ', 'longestGapS'] as const) {
    expect(Number.isFinite(energy[key]), key).toBe(true);
  }
  const counted = counterEnergy(log, { fromS, toS });
  if (counted) expect(Number.isFinite(counted.energyJ)).toBe(true);
  return true;
}

describe(`${mutants} mutated exports, seed ${seed}`, () => {
  const names = readdirSync(new URL('./corpus/', import.meta.url));
  const originals = [fullExport(), ...names.map(corpus)];
  it('are read to a finite energy or refused by an error of ours', () => {
    const random = randomFrom(seed);
    const counts = { read: 0, refused: 0 };
    for (let i = 0; i < mutants; i++) {
      // Every second one is a mutant of the long export.
      const original = i % 2 === 0 ? originals[0]! : originals[1 + Math.floor(random() * names.length)]!;
      const mutant = mutate(original, random);
      try {
        if (importOf(mutant)) counts.read++;
      } catch (error) {
        if (!(error instanceof HeatledgerError)) {
          throw new Error(`mutant ${i}: ${JSON.stringify(new TextDecoder('latin1').decode(mutant))}`, {
            cause: error,
          });
        }
        expect(error.message).not.toMatch(/undefined|\[object|NaN,/);
        counts.refused++;
      }
    }
    // Both must happen, or the mutations are too mild or too wild to test anything.
    expect(counts.read).toBeGreaterThan(mutants / 20);
    expect(counts.refused).toBeGreaterThan(mutants / 20);
  });
});
