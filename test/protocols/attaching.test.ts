import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { MemoryKeeper, readBytes, readyExport } from '../../src/protocols/index.js';
import { sha256 } from '../../src/workbook/index.js';
import { errorOf } from '../support/errorOf.js';
import { emptyFolder } from '../support/folders.js';
import { beginningOf, good, shipped, sit, typing } from './sitting.js';

const protocol = shipped('water-heating');

/** A power log of one minute off, a heating at 900 W and one minute off again. */
function powerLog(heatingS = 1440, lead = 60): string {
  const rows = ['t [s],P [W]'];
  for (let s = 0; s <= lead + heatingS + 60; s += 10)
    rows.push(`${s},${s >= lead && s < lead + heatingS ? 900 : 0.4}`);
  return `${rows.join('\n')}\n`;
}

const temperatureLog = 'Zeit [s];Temperatur [°C]\n0;11,9\n600;30,1\n1200;51,8\n1500;52,1\n';

function folderWith(files: Readonly<Record<string, string>>): string {
  const folder = emptyFolder();
  for (const [name, text] of Object.entries(files)) writeFileSync(join(folder, name), text);
  return folder;
}

describe('an export given at its step', () => {
  it('is kept with digest, options and mapping, and shown as it was read', async () => {
    const base = folderWith({ 'meter.csv': powerLog() });
    const sat = await sit(typing('meterLog', ['meter.csv']), { base });
    expect(sat.bench.refused).toEqual([]);
    expect(sat.run.attachments).toEqual([
      expect.objectContaining({
        role: 'powerLog',
        originalName: 'meter.csv',
        bytes: powerLog().length,
        sha256: sha256(powerLog()),
        options: { zone: 'Europe/Vienna' },
      }),
    ]);
    expect(sat.bench.said.join('\n')).toMatch(/Power in W/);
    expect(sat.bench.keptTexts.at(-1)).toBe(`kept meter.csv, ${powerLog().length} bytes`);
  });

  it.each<[string, string, string, RegExp]>([
    ['that is not there', 'meterLog', 'none.csv', /There is no file none\.csv/],
    ['that is a folder', 'meterLog', '.', /it is a folder/],
    ['that is empty', 'meterLog', 'empty.csv', /file is empty/],
    ['without power', 'meterLog', 'temperature.csv', /no column of power or energy/],
    ['without temperature', 'temperatureLog', 'meter.csv', /no column of temperature/],
    [
      'that is too short',
      'meterLog',
      'short.csv',
      /doesn't cover the heating: it is 220 s long, the heating took/,
    ],
    ['that begins too late', 'meterLog', 'late.csv', /begins with the heater already on/],
    ['that is cut off', 'meterLog', 'cut.csv', /ends with the heater still on/],
  ])('%s is refused, and the step stands', async (_what, step, name, words) => {
    const base = folderWith({
      'empty.csv': '',
      'temperature.csv': temperatureLog,
      'meter.csv': powerLog(),
      'short.csv': powerLog(100),
      'late.csv': powerLog(1440, 0),
      'cut.csv': powerLog().split('\n').slice(0, -8).join('\n'),
    });
    // Twenty answers of twenty seconds each lie between switch-on and switch-off.
    const interimTemperature = [...Array.from({ length: 20 }, (_, i) => String(13 + i)), ''];
    const sat = await sit(typing(step, [name], { interimTemperature }), { base });
    expect(sat.bench.refused).toEqual([expect.stringMatching(words)]);
    expect(sat.waiting).toBe(step);
    expect(sat.run.attachments).toEqual([]);
  });

  it('is asked for again after a wrong one, and may be left out', async () => {
    const base = folderWith({ 'meter.csv': powerLog() });
    const sat = await sit(typing('meterLog', ['none.csv', 'meter.csv']), { base });
    expect([sat.bench.refused.length, sat.run.attachments.length]).toEqual([1, 1]);
    const without = await sit(typing('meterLog', ['']), { base });
    expect(without.run.skipped).toContain('meterLog');
  });
});

describe('an export for a run', () => {
  const run = new MemoryKeeper(beginningOf(protocol)).run;
  const ready = (text: string) => readyExport(Buffer.from(text), 'x.csv', run, protocol, 'Europe/Vienna');

  it('finds its role by its columns', () => {
    expect(ready(powerLog()).role).toBe('powerLog');
    expect(ready(temperatureLog).role).toBe('temperatureLog');
  });

  it('of another day is refused with both times', async () => {
    const { run: marked } = await sit(typing('meterLog', [], { ...good }));
    const rows = ['time,P [W]'];
    for (let s = 0; s <= 600; s += 60)
      rows.push(`${new Date(Date.UTC(2026, 0, 1, 8, 0, s)).toISOString()},${s > 60 && s < 500 ? 900 : 0}`);
    const error = errorOf(() =>
      readyExport(Buffer.from(rows.join('\n')), 'x.csv', marked, protocol, 'Europe/Vienna'),
    );
    expect(error.code).toBe('log-does-not-cover');
    expect(error.message).toMatch(
      /from 2026-01-01T08:00:00Z to 2026-01-01T08:10:00Z, the heating from 2026-10-05/,
    );
    expect(error.hint).toMatch(/another run.*--zone/);
  });

  it('is read from a path of the home folder, or missed', () => {
    expect(errorOf(() => readBytes('none.csv', emptyFolder())).place.file).toBe('none.csv');
    const base = folderWith({ 'a b.csv': 'x' });
    expect(Buffer.from(readBytes('a b.csv', base)).toString()).toBe('x');
  });
});
