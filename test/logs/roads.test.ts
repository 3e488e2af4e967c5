import { mkdtempSync, readdirSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';
import { HeatledgerError } from '../../src/errors/index.js';
import {
  counterEnergy,
  integrateEnergy,
  type Log,
  LogFile,
  onOffEdges,
  openExport,
  type ReadOptions,
  type Readings,
  readExport,
} from '../../src/logs/index.js';
import { readLog } from '../../src/logs/readLog.js';
import { corpus } from './exportOf.js';
import { generatedExport, randomFrom } from './generated.js';

const folder = mkdtempSync(join(tmpdir(), 'heatledger-roads-'));
afterAll(() => rmSync(folder, { recursive: true, force: true }));

const seed = 20_261_125;
const exports_ = 400;

/** What a reading comes to, or the code and place of its error. */
function outcome<T>(read: () => T): T | { code: string; place: unknown } {
  try {
    return read();
  } catch (error) {
    if (!(error instanceof HeatledgerError)) throw error;
    return { code: error.code, place: error.place };
  }
}

const optionsFor: ReadOptions = { zone: 'Europe/Vienna', fileName: 'road.csv' };

describe('the fast road gives what the full grammar gives, to the last bit', () => {
  const names = readdirSync(new URL('./corpus/', import.meta.url)).sort();
  it.each(names)('%s', (name) => {
    const bytes = corpus(name);
    const fast = outcome(() => readLog(bytes, optionsFor));
    const slow = outcome(() => readLog(bytes, optionsFor, true));
    expect(fast).toEqual(slow);
  });
  it(`${exports_} generated exports, seed ${seed}`, () => {
    const random = randomFrom(seed);
    let read = 0;
    for (let i = 0; i < exports_; i++) {
      const { bytes, options } = generatedExport(random);
      const fast = outcome(() => readLog(bytes, options));
      const slow = outcome(() => readLog(bytes, options, true));
      expect(fast, `export ${i}: ${new TextDecoder('latin1').decode(bytes).slice(0, 400)}`).toEqual(slow);
      if ('rows' in fast) read++;
    }
    // Most of them can be read, or the comparison says little.
    expect(read).toBeGreaterThan(exports_ / 2);
  });
});

/** The numbers that both a log in memory and one on disk come to. */
function numbersOf(log: Log | Readings) {
  const edges = onOffEdges(log);
  const limits = { fromS: edges.onS, toS: edges.offS };
  const energy = integrateEnergy(log, limits);
  return { edges, energy, counter: outcome(() => counterEnergy(log, limits)) };
}

function expectClose(got: unknown, wanted: unknown, path: string): void {
  if (typeof wanted === 'number' && Number.isFinite(wanted)) {
    // Sums are taken in blocks of other sizes: the last of 15 digits may differ.
    expect(Math.abs((got as number) - wanted), path).toBeLessThanOrEqual(
      1e-11 * Math.max(1, Math.abs(wanted)),
    );
  } else if (wanted !== null && typeof wanted === 'object') {
    expect(Object.keys(got as object), path).toEqual(Object.keys(wanted));
    for (const [key, value] of Object.entries(wanted))
      expectClose((got as Record<string, unknown>)[key], value, `${path}.${key}`);
  } else expect(got, path).toEqual(wanted);
}

async function fromDisk(bytes: Uint8Array, options: ReadOptions): Promise<Log | LogFile> {
  const path = join(folder, 'export.csv');
  writeFileSync(path, bytes);
  return openExport(path, { ...options, inMemoryBytes: 0, helpers: 0 });
}

describe('a log on disk gives what a log in memory gives', () => {
  const columns = ['powerW', 'energyJ', 'voltageV', 'currentA', 'powerFactor', 'temperatureK'] as const;
  const compare = (memory: Log, disk: LogFile, name: string) => {
    expect(disk.mapping, name).toEqual(memory.mapping);
    expect([disk.rows, disk.startUtcMs, disk.warnings], name).toEqual([
      memory.rows,
      memory.startUtcMs,
      memory.warnings,
    ]);
    expect(disk.resolution, name).toEqual(memory.resolution);
    let row = 0;
    for (const block of disk.outline.blocks) {
      const rows = disk.rowsOf(block);
      const until = row + rows.timesS.length;
      expect(rows.timesS, name).toEqual(memory.timesS.slice(row, until));
      for (const column of columns)
        expect(rows[column], name).toEqual(memory[column]?.slice(row, until) ?? null);
      row = until;
    }
    expect(row, name).toBe(memory.rows);
    if (memory.powerW)
      expectClose(
        outcome(() => numbersOf(disk)),
        outcome(() => numbersOf(memory)),
        name,
      );
  };
  it(`corpus and ${exports_ / 4} generated exports, seed ${seed + 1}`, async () => {
    const random = randomFrom(seed + 1);
    const all = [
      ...readdirSync(new URL('./corpus/', import.meta.url)).map((name) => ({
        name,
        bytes: corpus(name),
        options: optionsFor,
      })),
      ...Array.from({ length: exports_ / 4 }, (_, i) => ({
        name: `export ${i}`,
        ...generatedExport(random),
      })),
    ];
    let onDisk = 0;
    for (const { name, bytes, options } of all) {
      const memory = outcome(() => readExport(bytes, options));
      let disk: Awaited<ReturnType<typeof fromDisk>> | { code: string; place: unknown };
      try {
        disk = await fromDisk(bytes, options);
      } catch (error) {
        if (!(error instanceof HeatledgerError)) throw error;
        disk = { code: error.code, place: error.place };
      }
      if (disk instanceof LogFile && 'rows' in memory) {
        compare(memory, disk, name);
        onDisk++;
      } else expect(disk, name).toEqual(memory);
    }
    expect(onDisk).toBeGreaterThan(0.3 * all.length);
  });
});
