import { describe, expect, it } from 'vitest';
import { withDueFill } from '../../src/cli/testing/withDueFill.js';
import { type Bench, findProtocol } from '../../src/protocols/index.js';
import { openWorkbook, readRun } from '../../src/workbook/index.js';
import { freshBench, walkChanged } from '../evaluation/curveBench.js';

const said: string[] = [];
const bench = { say: (text: string) => said.push(text) } as unknown as Bench;

describe('the guided test', () => {
  it('says which fill is due, and Enter takes it', async () => {
    const at = freshBench();
    const full = 'vat-warmer-full-full-01';
    await walkChanged(at, full, (answers) => answers);
    await walkChanged(at, 'vat-warmer-full-third-01', (answers) => answers);
    const workbook = openWorkbook(at.dir);
    const { protocol } = findProtocol('two-fills', null);
    // As if the run at a third were the one that is just begun: only the full one counts.
    const begun = readRun(at.dir, 'vat-warmer-full-third-01').run;
    const walked = withDueFill(protocol, workbook, begun, bench);
    expect(said).toEqual(['Due next: third (runs so far: third 0, full 1).']);
    expect(walked.steps.find(({ id }) => id === 'fill')).toMatchObject({ default: 'third' });
    expect(protocol.steps.find(({ id }) => id === 'fill')).not.toHaveProperty('default', 'third');
    // Runs of another setting say nothing of this one.
    withDueFill(protocol, workbook, { ...begun, setting: 'gentle' }, bench);
    expect(said.at(-1)).toBe('Due next: third (runs so far: third 0, full 0).');
  });
  it('says nothing of fills elsewhere', () => {
    const at = freshBench();
    const { protocol } = findProtocol('hold', null);
    const count = said.length;
    expect(withDueFill(protocol, openWorkbook(at.dir), {} as never, bench)).toBe(protocol);
    expect(said.length).toBe(count);
  });
});
