import { existsSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { HeatledgerError } from '../../src/errors/index.js';
import {
  askQuantity,
  askUntil,
  beginEntry,
  checkHeater,
  firstSitting,
  instrumentsOfKind,
  oneMoreHeater,
} from '../../src/protocols/index.js';
import { openWorkbook, sha256 } from '../../src/workbook/index.js';
import { errorOf } from '../support/errorOf.js';
import { emptyFolder, top, treeOf } from '../support/folders.js';
import { ScriptedBench, shipped } from './sitting.js';

/** A bench that is given these answers one after the other. */
const benchOf = (...typed: readonly string[]) => {
  const left = [...typed];
  return new ScriptedBench(() => left.shift() ?? 'pause');
};

async function codeOf(promise: Promise<unknown>): Promise<string> {
  try {
    await promise;
  } catch (error) {
    if (error instanceof HeatledgerError) return error.code;
    throw error;
  }
  return 'nothing was thrown';
}

describe('a question', () => {
  const question = { step: 'count', text: 'How many', kind: 'text' as const };
  const any = (typed: string) => (typed === '' ? { refused: 'needed' } : typed);

  it('is asked again after ?, back and a refusal', async () => {
    const bench = benchOf('?', 'back', '', ' three ');
    expect(await askUntil(bench, question, any)).toBe('three');
    expect(bench.said).toEqual(['An answer is needed here.', 'There is nothing to go back to here.']);
    expect(bench.refused).toEqual(['needed']);
  });

  it('says with ? what it is about, what there is and what Enter takes', async () => {
    const bench = benchOf('?', '');
    await askUntil(bench, { ...question, help: 'Count them.', options: ['1', '2'], default: '1' }, any);
    expect(bench.said).toEqual(['Count them.\nOne of: 1, 2.\nEnter alone takes 1.']);
  });

  it('stops with pause and keeps nothing', async () => {
    expect(await codeOf(askUntil(benchOf('Pause'), question, any))).toBe('stopped');
  });

  it.each<[string, RegExp]>([
    ['1,484', /1484 kg or 1\.484 kg\. Type it without the comma/],
    ['200 kg', /200 kg can't be right: 0\.05 kg to 100 kg is expected/],
    ['-1', /can't be right/],
    ['water', /no number/],
    ['3 kWh', /measures energy/],
  ])('for a quantity refuses %s', async (typed, words) => {
    const bench = benchOf(typed, '2 kg');
    const asked = { step: 'water', text: 'How much water', default: '1.5 kg' };
    expect(await askQuantity(bench, asked, 'mass', 'kg', [0.05, 100])).toBe(2);
    expect(bench.refused).toEqual([expect.stringMatching(words)]);
  });
});

describe('the first sitting', () => {
  it('asks six questions with defaults and makes a workbook of assumed instruments', async () => {
    const dir = join(emptyFolder(), 'book');
    const bench = benchOf('', '', '', '', '', '');
    const first = await firstSitting(dir, bench, 'Europe/Vienna');
    expect(first).toMatchObject({ heater: 'heater', setting: 'full', waterKg: 1.5 });
    expect(bench.asked.map((each) => [each.text, each.default])).toEqual([
      ['What heater is it', 'heater'],
      ['On which setting', 'full'],
      ['How much water', '1.5 kg'],
      ['What is the pot made of', 'steel'],
      ["Smallest step of the meter's kWh display", '0.01 kWh'],
      ['How high above the sea', '200 m'],
    ]);
    const { settings, instruments, heaters } = openWorkbook(dir);
    expect(settings).toMatchObject({ zone: 'Europe/Vienna', altitude: 200 });
    expect([...instruments.values()].every((each) => each.assumed)).toBe(true);
    // Common practice, no source: 2 % of the reading, 5 g, 0.5 K; steps in joules, kilograms and kelvin.
    expect(instruments.get('meter')).toMatchObject({ resolution: 36_000, limits: { ofReading: 0.02 } });
    expect(instruments.get('scale')).toMatchObject({ resolution: 0.001, limits: { absolute: 0.005 } });
    expect(instruments.get('thermometer')).toMatchObject({ resolution: 0.1, limits: { absolute: 0.5 } });
    expect(heaters.get('heater')?.vessel).toEqual({ material: 'steel' });
  });

  it('goes back question by question, and takes the answer given anew', async () => {
    const dir = join(emptyFolder(), 'book');
    const bench = benchOf(
      'back',
      'Ofen',
      'back',
      'Vat warmer',
      '3',
      'x',
      '2 kg',
      'back',
      'BACK',
      '4',
      '',
      'al',
      '',
      '1150',
    );
    const first = await firstSitting(dir, bench, 'UTC');
    expect(first).toMatchObject({ heater: 'vat-warmer', setting: '4', waterKg: 1.5 });
    expect(first.workbook.settings.altitude).toBe(1150);
    expect(first.workbook.heaters.get('vat-warmer')?.vessel?.material).toBe('aluminium');
    expect(bench.said[0]).toBe('There is nothing to go back to here.');
  });

  it.each<[string, string[], RegExp]>([
    ['a name without a letter', ['!!!', 'Ofen', '', '', '', '', ''], /short name is expected/],
    ['a material of many meanings', ['', '', '', 'c', 'copper', '', ''], /copper, cast iron/],
    ['a mountain too high', ['', '', '', '', '', '9000 m', ''], /6000 m is expected/],
    ['a step in W', ['', '', '', '', '1 W', '', ''], /measures power/],
  ])('asks again after %s', async (_what, typed, words) => {
    const bench = benchOf(...typed);
    await firstSitting(join(emptyFolder(), 'book'), bench, 'UTC');
    expect(bench.refused).toEqual([expect.stringMatching(words)]);
    expect(bench.asked).toHaveLength(7);
  });

  it('writes nothing when it is stopped before its end', async () => {
    for (let answers = 0; answers < 6; answers++) {
      const dir = join(emptyFolder(), 'book');
      expect(await codeOf(firstSitting(dir, benchOf(...Array(answers).fill('')), 'UTC'))).toBe('stopped');
      expect(existsSync(dir)).toBe(false);
    }
  });

  it('adds a heater to a workbook that is there, once', async () => {
    const dir = join(emptyFolder(), 'book');
    const { workbook } = await firstSitting(dir, benchOf('', '', '', '', '', ''), 'UTC');
    const bench = benchOf('', 'Heater', 'Kochplatte groß', 'gentle', 'glass');
    expect(await oneMoreHeater(workbook, bench)).toEqual({ heater: 'kochplatte-gross', setting: 'gentle' });
    expect(bench.refused).toEqual([
      expect.stringMatching(/short name/),
      expect.stringMatching(/heater already/),
    ]);
    const before = treeOf(dir);
    expect(await codeOf(firstSitting(dir, benchOf(), 'UTC'))).toBe('workbook-exists');
    expect(treeOf(dir)).toEqual(before);
  });
});

describe('a run is begun', () => {
  const workbook = openWorkbook(join(top, 'samples/dairy'));
  const protocol = shipped('water-heating');
  const plan = {
    run: 'vat-warmer-full-09',
    heater: 'vat-warmer',
    setting: 'full',
    protocol,
    protocolText: 'text',
    instruments: { scale: 'scale-1', thermometer: 'logger-1', wattmeter: 'meter-1' },
    hand: 'mr',
    at: new Date('2026-10-05T07:10:00Z'),
  };

  it('with all that it needs, checked', () => {
    expect(beginEntry(workbook, plan)).toMatchObject({
      event: 'begin',
      at: '2026-10-05T07:10:00.000Z',
      zone: 'Europe/Vienna',
      protocol: { name: 'water-heating', sha256: sha256('text') },
      instruments: plan.instruments,
    });
    expect(instrumentsOfKind(workbook, 'thermometer')).toEqual(['logger-1']);
  });

  it.each<[string, object, string, RegExp]>([
    ['an unknown heater', { heater: 'kettle' }, 'heater-unknown', /"kettle"\. Known: vat-warmer/],
    ['an unknown setting', { setting: 'hot' }, 'setting-unknown', /"hot"\. It has: gentle, medium, full/],
    ['an unknown hand', { hand: 'xy' }, 'hand-unknown', /"xy" in workbook\.yaml\. Known: mr/],
    [
      'no scale',
      { instruments: { ...plan.instruments, scale: undefined } },
      'instrument-missing',
      /no scale/,
    ],
    ['an unknown scale', { instruments: { ...plan.instruments, scale: 'x' } }, 'instrument-unknown', /"x"/],
    [
      'a meter for a scale',
      { instruments: { ...plan.instruments, scale: 'meter-1' } },
      'instrument-of-other-kind',
      /"meter-1" is a wattmeter; a scale is needed/,
    ],
  ])('not with %s', (_what, changes, code, words) => {
    const error = errorOf(() => beginEntry(workbook, { ...plan, ...changes }));
    expect(error.code).toBe(code);
    expect(error.message).toMatch(words);
  });

  it('says which heaters there are', () => {
    expect(() => checkHeater(workbook, 'vat-warmer', 'gentle')).not.toThrow();
    expect(errorOf(() => checkHeater(workbook, '__proto__')).code).toBe('heater-unknown');
  });
});
