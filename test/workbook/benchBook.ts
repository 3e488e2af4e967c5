import { mkdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import type { NewEntry } from '../../src/workbook/index.js';
import { RunWriter, createWorkbook } from '../../src/workbook/index.js';
import { emptyFolder } from '../support/folders.js';

/** Settings of an invented bench, as a person would write them. */
export const settings = {
  schema: 1,
  name: 'hill dairy',
  zone: 'Europe/Vienna',
  altitude: '1150 m',
  hands: [{ id: 'mr', name: 'M. R.' }],
};

export const meterText = `schema: 1
id: meter
kind: wattmeter
name: plug-in meter
resolution: 0.01 kWh
limits:
  ofReading: 2 %
`;

/** A new workbook in a folder of its own, with further files as given by their paths in it. */
export function workbookWith(files: Readonly<Record<string, string | Uint8Array>> = {}): string {
  const dir = emptyFolder();
  createWorkbook(dir, settings);
  for (const [path, content] of Object.entries(files)) {
    mkdirSync(join(dir, path, '..'), { recursive: true });
    writeFileSync(join(dir, path), content);
  }
  return dir;
}

const stamp = { at: '2026-10-05T07:10:00.000Z', zone: 'Europe/Vienna', hand: 'mr' };

export function beginning(run: string): Extract<NewEntry, { event: 'begin' }> {
  return {
    event: 'begin',
    schema: 1,
    ...stamp,
    run,
    heater: 'vat-warmer',
    setting: 'full',
    protocol: { name: 'water-heating', version: 1, sha256: '0'.repeat(64) },
    instruments: { scale: 'scale', wattmeter: 'meter' },
  };
}

export function reading(step: string, value: number): Extract<NewEntry, { event: 'reading' }> {
  return {
    event: 'reading',
    ...stamp,
    step,
    typed: `${value} g`,
    kind: 'mass',
    unit: 'g',
    value,
    si: value / 1000,
    instrument: 'scale',
  };
}

export function entry<E extends NewEntry['event']>(
  event: E,
  rest: Omit<Extract<NewEntry, { event: E }>, 'event' | 'at' | 'zone' | 'hand'>,
): NewEntry {
  return { event, ...stamp, ...rest } as unknown as NewEntry;
}

/** A workbook with one run of a beginning and some readings; nobody holds it. */
export function workbookWithRun(id = 'vat-warmer-full-01', values: readonly number[] = [1871, 7858]): string {
  const dir = workbookWith();
  const writer = RunWriter.begin(dir, beginning(id), 'name: water-heating\n');
  values.forEach((value, index) => void writer.append(reading(`weight${index}`, value)));
  writer.close();
  return dir;
}
