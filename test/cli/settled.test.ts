import { describe, expect, it } from 'vitest';
import type { Asker } from '../../src/cli/importing/Desk.js';
import type { ImportArgs } from '../../src/cli/importing/ImportArgs.js';
import { settled } from '../../src/cli/importing/settled.js';
import { type Choice, problem } from '../../src/errors/index.js';

/** A person who types these answers one after the other, and what was said meanwhile. */
function person(...answers: string[]): Asker & { said: string[] } {
  const said: string[] = [];
  return {
    said,
    say: (text) => void said.push(text),
    async ask(question, take) {
      for (;;) {
        const typed = answers.shift();
        if (typed === undefined) throw new Error(`nothing was typed at: ${question.text}`);
        const taken = take(typed);
        if (!(typeof taken === 'object' && taken !== null && 'refused' in taken)) return taken;
        said.push(taken.refused);
      }
    },
  };
}

const twoWays = (what: string, choices: readonly Choice[]) =>
  problem(
    'log-two-readings',
    { what, first: 'one', second: 'other', choices },
    { file: 'm.csv' },
    'Say which.',
  );

const decimals: readonly Choice[] = [
  { words: '1.5 (decimal point)', options: { decimal: '.' } },
  { words: '1500 (decimal comma)', options: { decimal: ',' } },
];
const columns: readonly Choice[] = [
  { words: '"P1"', options: { column: 'power=2' } },
  { words: '"P2"', options: { column: 'power=3', unit: 'power=kW' } },
];

/** A reading that is open in two things, as its arguments say. */
async function openTwice(args: ImportArgs): Promise<string> {
  if (args.decimal === undefined) throw twoWays('The number "1,500"', decimals);
  if (!args.column?.some((each) => each.startsWith('power='))) throw twoWays('The power column', columns);
  return `${args.decimal} ${args.column.join(' ')} ${args.unit?.join(' ')}`;
}

describe('an export that can be read in two ways', () => {
  it('is settled by numbers typed at the terminal, one question after the other', async () => {
    const asker = person('2', '3', '0', 'yes', '', '2.0', '2');
    const { value, chosen, args } = await settled({ file: 'm.csv', column: ['time=1'] }, asker, openTwice);
    expect(value).toBe(', time=1 power=3 power=kW');
    expect(chosen).toEqual(['--decimal ,', '--column power=3', '--unit power=kW']);
    expect(args).toMatchObject({ decimal: ',', column: ['time=1', 'power=3'], unit: ['power=kW'] });
    expect(asker.said).toEqual([
      'm.csv: The number "1,500" can be read in two ways: one, or other.',
      '  1) 1.5 (decimal point)',
      '  2) 1500 (decimal comma)',
      'm.csv: The power column can be read in two ways: one, or other.',
      '  1) "P1"',
      '  2) "P2"',
      ...Array(5).fill('Type one of: 1, 2.'),
    ]);
  });

  it('is an error where nobody can be asked', async () => {
    await expect(settled({}, null, openTwice)).rejects.toMatchObject({ code: 'log-two-readings' });
  });

  it('is an error where the answer settles nothing, not asked for ever', async () => {
    const never = async () => Promise.reject(twoWays('The date', decimals));
    await expect(settled({}, person('1', '1', '1'), never)).rejects.toMatchObject({
      code: 'log-two-readings',
    });
  });

  it('is an error where it says no way out, and any other error is none of its business', async () => {
    const none = async () => Promise.reject(twoWays('The date', []));
    await expect(settled({}, person('1'), none)).rejects.toMatchObject({ code: 'log-two-readings' });
    const other = async () => Promise.reject(problem('log-empty', {}));
    await expect(settled({}, person('1'), other)).rejects.toMatchObject({ code: 'log-empty' });
  });

  it('may be settled by leaving an option out, and an answer stands in for the option before', async () => {
    const choices: Choice[] = [
      { words: 'from "t", without --interval', options: { interval: '' } },
      { words: 'another column', options: { column: 'time=4' } },
    ];
    const read = async (args: ImportArgs) => {
      if (args.interval !== undefined && !args.column?.includes('time=4')) throw twoWays('The time', choices);
      return args;
    };
    const start = { interval: '10s', column: ['time=1', 'power=2'] };
    const without = await settled(start, person('1'), read);
    expect([without.value.interval, without.chosen]).toEqual([undefined, ['without --interval']]);
    expect((await settled(start, person('2'), read)).value.column).toEqual(['power=2', 'time=4']);
  });

  it('is for programs too: the error has the ways out as data', () => {
    expect(twoWays('The number', decimals).toJSON()).toMatchObject({ choices: decimals });
    expect(problem('log-empty', {}).toJSON()).not.toHaveProperty('choices');
  });
});
