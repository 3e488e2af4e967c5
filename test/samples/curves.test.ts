import { readdirSync, readFileSync } from 'node:fs';
import { join, relative, sep } from 'node:path';
import { describe, expect, it } from 'vitest';
import { curveFiles } from '../../samples/lib/curveFiles.mjs';
import { simulateCurves } from '../../samples/lib/curves.mjs';
import { top } from '../support/folders.js';

const folder = join(top, 'samples', 'curves');
const files = curveFiles(simulateCurves());

describe('the files in samples/curves', () => {
  it('are what the script makes, byte for byte, and no others', () => {
    const there = readdirSync(folder, { recursive: true, withFileTypes: true })
      .filter((entry) => entry.isFile())
      .map((entry) => relative(folder, join(entry.parentPath, entry.name)).split(sep).join('/'));
    expect(there.sort()).toEqual([...files.keys()].sort());
    for (const [path, text] of files)
      expect(readFileSync(join(folder, path)).equals(Buffer.from(text)), path).toBe(true);
  });
  it('are small', () => {
    const bytes = [...files.values()].reduce((sum, text) => sum + Buffer.byteLength(text), 0);
    expect(bytes).toBeLessThan(300_000);
  });
});

describe('the seed', () => {
  it('makes the same bytes again, and other ones when it changes', () => {
    const [a, again, b] = [7, 7, 8].map((seed) => curveFiles(simulateCurves(seed)));
    expect([...a!]).toEqual([...again!]);
    expect([...a!.keys()]).toEqual([...b!.keys()]);
    expect([...a!].filter(([path, text]) => b!.get(path) === text)).toEqual([]);
  });
});

describe('the truth', () => {
  const { runs } = simulateCurves(3);
  const truthOf = (part: string) => runs.filter(({ id }) => id.includes(part)).map(({ truth }) => truth);
  it('at the boil: steam and loss to the room make up κ of the energy, up to the body that cools a little between', () => {
    for (const truth of truthOf('boil')) expect(truth.reachedLoad! / truth.kappa!).toBeCloseTo(1, 2);
  });
  it('of the hold is UA with the steam, over κ', () => {
    const [truth] = truthOf('hold');
    // 2.6 W/K dry; 65 °C give about 37 W of steam at a lid of average fit, 0.77 W/K: 3.4/0.89.
    expect(truth!.lossPerKelvinWPerK).toBeGreaterThan(3.4);
    expect(truth!.lossPerKelvinWPerK).toBeLessThan(4.3);
  });
});
