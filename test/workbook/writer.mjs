// A writer of a run in a process of its own, for the tests of the lock: takes the run again and again, makes sure by a
// file of its own that nobody else has it at the same time, and keeps a note each time. Says what it did as JSON.
//   node writer.mjs DIR RUN ROUNDS   or   node writer.mjs DIR RUN hold (until it is killed)
import { closeSync, openSync, rmSync } from 'node:fs';
import { join } from 'node:path';
import { RunWriter } from '../../dist/workbook/index.js';

const [dir, run, rounds] = process.argv.slice(2);
const marker = join(dir, 'held');
const said = { kept: 0, refused: 0, both: 0, remarks: [] };
const note = (text) => ({
  event: 'note',
  at: new Date().toISOString(),
  zone: 'UTC',
  hand: 'mr',
  step: 'remarks',
  text,
});
const wait = (ms) => Atomics.wait(new Int32Array(new SharedArrayBuffer(4)), 0, 0, ms);

if (rounds === 'hold') {
  RunWriter.open(dir, run);
  console.log('held');
  setInterval(() => {}, 1000);
} else {
  while (said.kept < Number(rounds)) {
    let writer;
    try {
      writer = RunWriter.open(dir, run);
    } catch (error) {
      if (error.code !== 'run-locked') throw error;
      said.refused += 1;
      continue;
    }
    try {
      closeSync(openSync(marker, 'wx'));
    } catch {
      said.both += 1;
    }
    writer.append(note(`${process.pid} ${said.kept}`));
    wait(2);
    rmSync(marker, { force: true });
    said.remarks.push(...writer.remarks);
    writer.close();
    said.kept += 1;
    // A moment for the others: what is tested is that two never hold it, not who is quicker.
    wait(4);
  }
  console.log(JSON.stringify(said));
}
