import { expect, it } from 'vitest';
import { tally } from '../../.scripts/tally.mjs';

const file = (...statuses: string[]) => ({
  name: 'a.test.ts',
  status: statuses.includes('failed') ? 'failed' : 'passed',
  assertionResults: statuses.map((status, i) => ({ status, fullName: `t${i}` })),
});
const report = (...testResults: unknown[]) => ({ testResults });
const counts = (...args: Parameters<typeof tally>) => {
  const { passed, failed } = tally(...args);
  return [passed, failed];
};

it('counts what passed and what failed', () => {
  expect(counts(report(file('passed', 'passed'), file('passed', 'failed')), 1)).toEqual([3, 1]);
  expect(counts(report(file('passed')), 0)).toEqual([1, 0]);
});

it.each(['skipped', 'todo', 'pending'])('counts a test that is %s as failed and names it', (status) => {
  expect(counts(report(file('passed', status)), 0)).toEqual([1, 1]);
  expect(tally(report(file('passed', status)), 0).complaints[0]).toMatch(/t1.*never skipped/);
});

it('leaves out what was not asked for when tests are chosen by name', () => {
  expect(counts(report(file('passed', 'skipped')), 0, { byName: true })).toEqual([1, 0]);
  expect(counts(report(file('skipped')), 0, { byName: true })).toEqual([0, 1]);
});

it('counts a file that could not be loaded', () => {
  const broken = { name: 'b.test.ts', status: 'failed', message: 'no module\nmore', assertionResults: [] };
  expect(counts(report(file('passed'), broken), 1)).toEqual([1, 1]);
  expect(tally(report(broken), 1).complaints).toEqual(['b.test.ts could not be run: no module']);
});

it('fails without a report, without tests, and on an error outside of any test', () => {
  expect(counts(undefined, 0)).toEqual([0, 1]);
  expect(counts(report(), 0)).toEqual([0, 1]);
  expect(counts(report(file('passed')), 1)).toEqual([1, 1]);
  expect(counts(report(file('passed')), null)).toEqual([1, 1]);
});
