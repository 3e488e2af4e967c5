import { describe, expect, it } from 'vitest';
import { type JournalEntry, type NewEntry, type RunRecord, runFrom } from '../../src/workbook/index.js';
import { beginning, entry, reading } from './benchBook.js';

/** The state of a run after these entries. */
function runAfter(...entries: readonly NewEntry[]): RunRecord {
  const all = [beginning('vat-warmer-full-01'), ...entries];
  const chained = all.map((each, i) => ({ seq: i + 1, ...each, prev: '0'.repeat(64) }) as JournalEntry);
  return runFrom(chained) as RunRecord;
}

const standing = (run: RunRecord) => run.readings.map((each) => [each.step, each.value]);
const back = (step: string) => entry('back', { step });
const log = (role: 'powerLog' | 'temperatureLog', name: string, step?: string) =>
  entry('attach', {
    ...(step === undefined ? {} : { step }),
    role,
    file: `exports/${name}`,
    originalName: name,
    bytes: 1,
    sha256: 'x',
    options: {},
    mapping: null,
  });

describe('the state of a run is nothing but its journal', () => {
  it('begins with a beginning', () => {
    expect(runFrom([])).toBeNull();
    expect(runFrom([{ seq: 1, ...reading('a', 1), prev: '' } as JournalEntry])).toBeNull();
    expect(runAfter()).toMatchObject({
      ended: false,
      paused: false,
      readings: [],
      skipped: [],
      excluded: null,
    });
  });

  it('keeps readings with step, hand, instrument and SI value, and the times of marks', () => {
    const run = runAfter(
      entry('acknowledge', { step: 'cautions' }),
      reading('full', 7858),
      entry('mark', { step: 'on' }),
    );
    expect(run.readings[0]).toMatchObject({
      step: 'full',
      typed: '7858 g',
      si: 7.858,
      hand: 'mr',
      instrument: 'scale',
      seq: 3,
    });
    expect({ ...run.marks }).toEqual({
      cautions: '2026-10-05T07:10:00.000Z',
      on: '2026-10-05T07:10:00.000Z',
    });
  });

  it('back undoes the answer of a step and all after it; both stay in the journal', () => {
    const run = runAfter(
      reading('empty', 1871),
      reading('full', 7858),
      entry('mark', { step: 'on' }),
      back('full'),
    );
    expect(standing(run)).toEqual([['empty', 1871]]);
    expect(run.marks.on).toBeUndefined();
    expect(run.entries).toHaveLength(5);
    expect(standing(runAfter(reading('full', 7858), back('full'), reading('full', 7857)))).toEqual([
      ['full', 7857],
    ]);
  });

  it('back twice goes two steps', () => {
    const run = runAfter(reading('empty', 1871), reading('full', 7858), back('full'), back('empty'));
    expect(standing(run)).toEqual([]);
  });

  it('back over a repeated reading undoes the last one only', () => {
    const three = [reading('way', 20), reading('way', 30), reading('way', 40)];
    expect(standing(runAfter(...three, back('way')))).toEqual([
      ['way', 20],
      ['way', 30],
    ]);
    expect(standing(runAfter(...three, back('way'), back('way'), reading('way', 31)))).toEqual([
      ['way', 20],
      ['way', 31],
    ]);
  });

  it('back to a skipped step takes the skip away', () => {
    expect(runAfter(entry('skip', { step: 'pressure' })).skipped).toEqual(['pressure']);
    expect(runAfter(entry('skip', { step: 'pressure' }), back('pressure')).skipped).toEqual([]);
    const run = runAfter(reading('way', 20), entry('skip', { step: 'way' }), back('way'));
    expect([run.skipped, standing(run)]).toEqual([[], [['way', 20]]]);
  });

  it('back to a step without an answer changes nothing', () => {
    expect(standing(runAfter(reading('full', 7858), back('none')))).toEqual([['full', 7858]]);
  });

  it('back over a choice or a note takes it away', () => {
    const run = runAfter(
      entry('choice', { step: 'lid', value: 'on' }),
      entry('note', { step: 'remarks', text: 'draught' }),
      back('lid'),
    );
    expect([{ ...run.choices }, run.notes]).toEqual([{}, []]);
    expect({ ...runAfter(entry('choice', { step: 'lid', value: 'off' })).choices }).toEqual({ lid: 'off' });
  });

  it('pause shows until the next entry; an end stays', () => {
    expect(runAfter(entry('pause', {})).paused).toBe(true);
    expect(runAfter(entry('pause', {}), reading('full', 1)).paused).toBe(false);
    expect(runAfter(entry('end', {}), log('powerLog', 'late.csv'))).toMatchObject({
      ended: true,
      paused: false,
    });
  });

  it('a later log of a role stands in for the earlier one', () => {
    const run = runAfter(log('powerLog', 'a.csv'), log('temperatureLog', 't.csv'), log('powerLog', 'b.csv'));
    expect(run.attachments.map((each) => [each.role, each.originalName])).toEqual([
      ['powerLog', 'b.csv'],
      ['temperatureLog', 't.csv'],
    ]);
  });

  it('back never undoes a log: it stays until another stands in for it', () => {
    const kept = runAfter(log('powerLog', 'a.csv', 'meterLog'), back('meterLog'));
    expect(kept.attachments.map((each) => each.file)).toHaveLength(1);
    const replaced = runAfter(
      log('powerLog', 'a.csv', 'meterLog'),
      back('meterLog'),
      log('powerLog', 'b.csv', 'meterLog'),
    );
    expect(replaced.attachments.map((each) => each.originalName)).toEqual(['b.csv']);
    const run = runAfter(reading('full', 1), log('powerLog', 'a.csv'), reading('end', 2), back('full'));
    expect(run.attachments).toHaveLength(1);
    expect(standing(run)).toEqual([]);
  });

  it('a step may have any name and has no answer for that', () => {
    const run = runAfter();
    for (const name of ['constructor', 'toString', 'valueOf', 'hasOwnProperty']) {
      expect(run.marks[name]).toBeUndefined();
      expect(run.choices[name]).toBeUndefined();
    }
  });
});
