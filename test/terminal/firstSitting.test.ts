import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { emptyFolder, treeOf } from '../support/folders.js';
import { heatledgerJson } from '../support/program.js';
import { type Answer, BenchClock, Person } from './guided.js';
import { jargonIn } from './jargon.js';

/** From the first question to the first reading: Enter alone is enough. */
const beforeFirstReading: readonly Answer[] = [
  { prompt: 'What heater is it [heater]:', typed: '' },
  { prompt: 'On which setting [full]:', typed: '' },
  { prompt: 'How much water (kg) [1.5 kg]:', typed: '' },
  { prompt: /What is the pot made of .*\[steel\]:/, typed: '' },
  { prompt: "Smallest step of the meter's kWh display (kWh) [0.01 kWh]:", typed: '' },
  { prompt: 'How high above the sea (m) [200 m]:', typed: '' },
  { prompt: 'Cautions read? Press Enter', typed: '' },
  { prompt: /off and cold for two hours/, typed: '' },
];

// Invented readings: 1.5 kg of water from 18.0 to 59.5 °C with 0.13 kWh.
const heating: readonly Answer[] = [
  { prompt: 'Empty pot on the scale', typed: '1484' },
  { prompt: 'Pot with cold water', typed: '2984' },
  { prompt: "Meter's kWh reading now (0 to 1000000 kWh) [0 kWh]:", typed: '' },
  { prompt: 'then the water temperature', typed: '18.0' },
  { prompt: 'Switch on and press Enter', typed: '' },
  { prompt: /switch off and press Enter/, typed: '', afterS: 600 },
  { prompt: 'Stir until it holds', typed: '59.5', afterS: 90 },
  { prompt: 'Weigh the pot again', typed: '2971', afterS: 40 },
  { prompt: "Meter's kWh reading now", typed: '0.13' },
];

describe('the first sitting: an empty home folder, no options', () => {
  it('has a figure after at most eight questions and the readings, without a word of jargon', async () => {
    const home = emptyFolder();
    const clock = new BenchClock();
    const person = new Person(['test'], clock, { home });
    await person.answers(beforeFirstReading);
    await person.terminal.waitFor('Empty pot on the scale');
    expect(person.answered).toBeLessThanOrEqual(8);
    await person.answers(heating);
    const { code, screen } = await person.end();
    expect(code).toBe(0);
    // What the program says before the first reading: cautions, and what this meter will be able to tell.
    expect(screen).toMatch(/Hot water and steam scald/);
    expect(screen).toMatch(/This meter: 1\.5 kg gives about ±\d+(\.\d)? points, 3 kg about ±\d+(\.\d)?\./);
    const closing = screen.trimEnd().split('\n').slice(-6).join('\n');
    expect(closing).toMatch(
      new RegExp(
        [
          '^\\d+(\\.\\d)? % reached the water\\. Next time: most likely \\d+(\\.\\d)? to \\d+(\\.\\d)? %',
          '\\(one run; run-to-run scatter assumed, not seen\\)\\.',
          "Biggest doubt: the meter's 0\\.01 kWh steps\\.",
          'Helps most: .+ \\(about ±\\d+(\\.\\d)? points\\)\\.',
          'Next: heatledger test --again$',
        ].join('\n'),
        'm',
      ),
    );
    expect(jargonIn(screen)).toEqual([]);
  });

  it('says the same in a narrow window, and after every ?', async () => {
    const home = emptyFolder();
    const clock = new BenchClock();
    const person = new Person(['test'], clock, { home, columns: 60 });
    for (const each of [...beforeFirstReading, ...heating]) {
      // A long question breaks at the edge of the window: its beginning is enough.
      const prompt =
        typeof each.prompt === 'string' ? each.prompt.slice(0, 20) : /cold for|pot made of|switch off/;
      await person.answer(prompt, '?', 1);
      await person.answer(prompt, each.typed, each.afterS);
    }
    const { code, screen } = await person.end();
    expect(code).toBe(0);
    expect(screen).toMatch(/% reached the water/);
    expect(jargonIn(screen)).toEqual([]);
  });

  it('takes the efficiency from the readings as they were typed', async () => {
    const home = emptyFolder();
    const clock = new BenchClock();
    const person = new Person(['test'], clock, { home });
    await person.answers([...beforeFirstReading, ...heating]);
    expect((await person.end()).code).toBe(0);
    type Result = { figures: { heater: string; mark: string; efficiency: { value: number } }[] };
    const { figures } = await heatledgerJson<Result>(['result'], { home });
    expect(figures).toHaveLength(1);
    expect(figures[0]).toMatchObject({ heater: 'heater', mark: 'one run' });
    // 1.487 kg of water that stayed, 41.5 K, about 4.18 kJ/(kg K), over 0.13 kWh = 468 kJ: 55 %, to a hundredth of it.
    expect(figures[0]?.efficiency.value).toBeCloseTo((1.487 * 41.5 * 4.18) / 468, 2);
  });

  it('stopped before the first reading leaves nothing behind', async () => {
    const home = emptyFolder();
    const person = new Person(['test'], new BenchClock(), { home });
    await person.answer('What heater is it', 'kettle plate');
    await person.answer('On which setting', 'pause');
    const { code, screen } = await person.end();
    expect(code).toBe(1);
    expect(screen).toMatch(/Stopped before the first reading; no run was begun\./);
    expect(treeOf(home)).toEqual({});
  });

  it('goes on at the next call where it was left', async () => {
    const home = emptyFolder();
    const clock = new BenchClock();
    const first = new Person(['test'], clock, { home });
    await first.answers([...beforeFirstReading, ...heating.slice(0, 2)]);
    await first.answer("Meter's kWh reading now", 'pause');
    const paused = await first.end();
    expect(paused.code).toBe(0);
    expect(paused.screen).toMatch(
      /Paused\. Everything typed is kept\. Next: heatledger test --resume heater-full-01/,
    );
    const second = new Person(['test'], clock, { home });
    await second.answer('Go on with it (yes, no) [yes]:', '');
    await second.answers(heating.slice(2));
    expect((await second.end()).screen).toMatch(/% reached the water/);
    expect(Object.keys(treeOf(join(home, 'heatledger', 'runs')))).toEqual([
      'heater-full-01/journal.jsonl',
      'heater-full-01/protocol.yaml',
    ]);
  });
});
